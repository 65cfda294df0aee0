"""The tempos and metres of a MIDI file, by the ticks from which they hold."""

from __future__ import annotations

from bisect import bisect_right
from dataclasses import dataclass
from fractions import Fraction

from shedbook.exchange.midi.events import MetreEvent, MidiFile
from shedbook.theory.metre import Metre

DEFAULT_TEMPO_US = 500_000
"""Microseconds of a quarter where a file gives no tempo: 120 quarters a minute (RP-001)."""


@dataclass(frozen=True, slots=True)
class TempoMap:
    """The tempos of a file.

    Attributes:
        ticks_per_quarter: how many ticks make a quarter; in a file that counts frames, a second.
        points: (tick, time of that tick in microseconds, microseconds of a quarter from there on), in order.
    """

    ticks_per_quarter: int
    points: tuple[tuple[int, int, int], ...]

    def microseconds(self, tick: int) -> int:
        """Return the time of a tick in microseconds from the beginning of the file."""
        start, time, quarter = self._point(tick)
        return time + (tick - start) * quarter // self.ticks_per_quarter

    def tempo_qpm(self, tick: int) -> Fraction:
        """Return the tempo at a tick, in quarters a minute."""
        return Fraction(60_000_000, self._point(tick)[2])

    def _point(self, tick: int) -> tuple[int, int, int]:
        return self.points[bisect_right(self.points, tick, key=lambda point: point[0]) - 1]


def tempo_map_of(file: MidiFile) -> TempoMap:
    """Return the tempos of all tracks of a file together."""
    if file.ticks_per_second:
        return TempoMap(file.ticks_per_second, ((0, 0, 1_000_000),))
    points = [(0, 0, DEFAULT_TEMPO_US)]
    for tempo in sorted(tempo for track in file.tracks for tempo in track.tempos):
        tick, time, before = points[-1]
        time += (tempo.tick - tick) * before // file.ticks_per_quarter
        if tempo.tick == tick:
            points.pop()
        points.append((tempo.tick, time, tempo.microseconds))
    return TempoMap(file.ticks_per_quarter, tuple(points))


def metres_of(file: MidiFile) -> list[tuple[int, Metre]]:
    """Return the metres of a file with the ticks from which they hold, the first at tick 0.

    A metre that no phrase can have is read as 4/4, which also holds where the file gives none (RP-001).
    """
    found: dict[int, Metre] = {0: Metre()}
    for at in sorted(metre for track in file.tracks for metre in track.metres):
        found[at.tick] = _metre(at)
    kept: list[tuple[int, Metre]] = []
    for tick, metre in sorted(found.items()):
        if not kept or kept[-1][1] != metre:
            kept.append((tick, metre))
    return kept


def _metre(at: MetreEvent) -> Metre:
    try:
        return Metre.parse(f"{at.beats}/{at.unit}")
    except ValueError:
        return Metre()
