"""The chart that the band reads: the whole track as passages of bars over chords.

Conventions: places are quarters from the first beat of the track. A passage is what the band plays in
one go: a round of the phrase, a round left to the reader, empty bars, a set-up, the ending.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from shedbook.sound.feels.feel import Feel
from shedbook.sound.score.seeded_dice import seeded
from shedbook.theory.chord import Chord
from shedbook.theory.metre import Metre
from shedbook.theory.scale import Scale

ROUND, ANSWER, SPACE, SET_UP, ENDING = "round", "answer", "space", "set-up", "ending"
"""The kinds of passages."""


@dataclass(frozen=True, slots=True)
class Stretch:
    """One chord with its scale, from `start` to `end`."""

    start: Fraction
    end: Fraction
    chord: Chord
    scale: Scale | None


@dataclass(frozen=True, slots=True)
class LineNote:
    """A note of the line as the band hears it.

    `early` says that it is struck ahead of the beat or the change that it stands for, `arrival`;
    `loud` that it stands on a landing.
    """

    start: Fraction
    end: Fraction
    midi: int
    arrival: Fraction
    early: bool
    loud: bool


@dataclass(frozen=True, slots=True)
class Passage:
    """Some bars: `number` counts the passages of a track from 0; `line` is what the line plays in them.

    `coming` is a pick-up that the line plays over the end of the passage, to the passage after it. `held`
    is of use to an ending only: whether its chord rings through the bar.
    """

    kind: str
    number: int
    start: Fraction
    bars: int
    stretches: tuple[Stretch, ...]
    line: tuple[LineNote, ...] = ()
    held: bool = False
    coming: tuple[LineNote, ...] = ()


@dataclass(frozen=True, slots=True)
class Chart:
    """The passages of a track in order; a `loop` goes back to its first passage at the end.

    `name` tells one track from another wherever dice are thrown: the phrase and its key.
    """

    metre: Metre
    feel: Feel
    tempo_qpm: Fraction
    passages: tuple[Passage, ...]
    loop: bool = False
    name: str = ""

    def end_of(self, passage: Passage) -> Fraction:
        """Return where a passage ends."""
        return passage.start + passage.bars * self.metre.bar_quarters

    def after(self, passage: Passage) -> Passage | None:
        """Return what follows a passage: at the end of a loop its beginning, else None."""
        at = self.passages.index(passage) + 1
        if at < len(self.passages):
            return self.passages[at]
        return self.passages[0] if self.loop else None


def clave_halves(chart: Chart, seed: int) -> dict[int, int]:
    """Return for each passage, by its number, which half of a pattern of two bars it begins with.

    Half 0 is the side of three strokes. Every round of a track begins on the same side, which the dice
    choose;
    what stands between two rounds goes on from the round before.
    """
    side = seeded(seed, "clave", chart.name).randrange(2)
    found: dict[int, int] = {}
    half = side
    for passage in chart.passages:
        if passage.kind in (ROUND, ANSWER):
            half = side
        found[passage.number] = half
        half = (half + passage.bars) % 2
    return found


def cell_lengths(metre: Metre, known: frozenset[Fraction]) -> tuple[Fraction, ...]:
    """Return the lengths of the cells that a bar is played in: the whole bar if it is known, else its groups.

    A metre in eighths is always played in its groups: 6/8 is no 3/4. A group that is not known is cut into
    quarters and what is left.
    """
    if metre.unit <= 4 and metre.bar_quarters in known:
        return (metre.bar_quarters,)
    found: list[Fraction] = []
    for beats in metre.groups:
        left = beats * metre.beat_quarters
        while left and left not in known:
            piece = min(left, Fraction(1))
            found.append(piece)
            left -= piece
        if left:
            found.append(left)
    return tuple(found)
