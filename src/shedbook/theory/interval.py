"""Intervals: the distance between two spelled pitches, exact and by letter.

Conventions: an interval is a pair (diatonic steps, chromatic semitones). A major third is (2, 4), a
diminished fourth (3, 4). Both numbers are negative for an interval that goes down. Adding pairs is
transposition, so spelling is never lost.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import lru_cache

LETTER_SEMITONES = (0, 2, 4, 5, 7, 9, 11)
"""Semitones of the letters C D E F G A B above C."""

ACCIDENTALS = {"": 0, "b": -1, "#": 1, "bb": -2, "##": 2}
"""The text of each accidental, and the semitones by which it alters a note."""

_DEGREE = re.compile(r"(bb|##|b|#|)([1-9]|1[0-5])")


@dataclass(frozen=True, slots=True)
class Interval:
    """The distance of two pitches: `steps` letters and `semitones` half steps, both negative downwards."""

    steps: int
    semitones: int

    def __add__(self, other: Interval) -> Interval:
        return Interval(self.steps + other.steps, self.semitones + other.semitones)

    def __sub__(self, other: Interval) -> Interval:
        return Interval(self.steps - other.steps, self.semitones - other.semitones)

    def __neg__(self) -> Interval:
        return Interval(-self.steps, -self.semitones)

    @property
    def fifths(self) -> int:
        """How far the interval leads on the line of fifths: a fifth is 1, a major third 4, an octave 0."""
        return 7 * self.semitones - 12 * self.steps

    @property
    def simple(self) -> Interval:
        """The same interval within one octave upwards: a ninth becomes a second, a fourth down a fifth."""
        octaves = self.steps // 7
        return Interval(self.steps - 7 * octaves, self.semitones - 12 * octaves)


OCTAVE = Interval(7, 12)
UNISON = Interval(0, 0)


@lru_cache(maxsize=128)
def degree_interval(degree: str) -> Interval:
    """Return the interval from the root up to a degree such as "b9" or "#11", by the degree's own letter.

    Raises:
        ValueError: if the text is not a degree from 1 to 15 with at most two accidentals.
    """
    found = _DEGREE.fullmatch(degree)
    if found is None:
        raise ValueError(f"{degree!r} is not a degree")
    accidental, number = found.groups()
    octaves, letter = divmod(int(number) - 1, 7)
    return Interval(int(number) - 1, 12 * octaves + LETTER_SEMITONES[letter] + ACCIDENTALS[accidental])
