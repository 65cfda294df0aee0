"""The arc of a track: how much energy the players have at a place of it.

It grows from the first round to the last, and inside a round towards its last quarter; the tables stand in
`tables.energy` (common practice, figures our own).
"""

from __future__ import annotations

from bisect import bisect_right
from dataclasses import dataclass
from fractions import Fraction

from shedbook.sound.players.band_chart import ANSWER, ROUND, SPACE, Chart, Passage
from shedbook.sound.players.tables import energy as table


@dataclass(frozen=True, slots=True)
class Arc:
    """The energy of a track: where each passage starts and ends, and the energy that it begins with."""

    starts: tuple[Fraction, ...]
    ends: tuple[Fraction, ...]
    bases: tuple[int, ...]

    def at(self, place: Fraction) -> int:
        """Return the energy at a place of the track, in hundredths."""
        index = max(0, bisect_right(self.starts, place) - 1)
        start, end = self.starts[index], self.ends[index]
        inside = float((min(place, end) - start) / (end - start)) if place > start else 0.0
        top = table.TOP_AT / 100
        share = inside / top if inside <= top else (1 - inside) / (1 - top) * 0.5 + 0.5
        return self.bases[index] + round(table.WITHIN * (share - 0.5))

    def louder(self, player: str, place: Fraction) -> int:
        """Return what is added to the velocities of a player at a place."""
        return round(table.VELOCITIES[player] * (self.at(place) - 50) / 100)


def arc_of(chart: Chart) -> Arc:
    """Return the arc of a track; a loop stays level, for its end joins its beginning."""
    rounds = [passage.number for passage in chart.passages if passage.kind in (ROUND, ANSWER)]
    starts, ends, bases = [], [], []
    base = table.ALONE
    for passage in chart.passages:
        if passage.number in rounds and len(rounds) > 1 and not chart.loop:
            grown = rounds.index(passage.number) / (len(rounds) - 1)
            base = round(table.FIRST + (table.LAST - table.FIRST) * grown)
        starts.append(passage.start)
        ends.append(chart.end_of(passage))
        bases.append(base - (table.RELAXED if passage.kind == SPACE and not chart.loop else 0))
    return Arc(tuple(starts), tuple(ends), tuple(bases))


def last_round(chart: Chart) -> Passage | None:
    """Return the last round of a track that has enough of them to grow; None for a loop."""
    rounds = [passage for passage in chart.passages if passage.kind in (ROUND, ANSWER)]
    return rounds[-1] if len(rounds) >= table.LEAST_ROUNDS and not chart.loop else None
