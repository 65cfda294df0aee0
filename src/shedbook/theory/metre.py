"""Metres: how long a bar is, where its beats are and which of them are strong.

Lengths are quarter notes as fractions. Beats count from 1 in the metre's denominator: the last eighth of 6/8
is beat 6, and "beat 2½" in 4/4 is the off-beat after 2.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache

_METRE = re.compile(r"([1-9]|1[0-9]|2[0-4])/(1|2|4|8|16)")

_GROUPS: dict[tuple[int, int], tuple[int, ...]] = {
    # Strong beats open each group; common practice, the usual division of each metre.
    (2, 4): (2,), (4, 4): (2, 2), (3, 4): (3,), (5, 4): (3, 2), (6, 4): (3, 3), (7, 4): (4, 3),
    (2, 2): (1, 1), (3, 2): (1, 1, 1), (4, 2): (2, 2),
    (3, 8): (3,), (5, 8): (3, 2), (6, 8): (3, 3), (7, 8): (4, 3), (9, 8): (3, 3, 3),
    (12, 8): (3, 3, 3, 3),
}  # fmt: skip

_FRACTIONS = {
    Fraction(1, 2): "½", Fraction(1, 3): "⅓", Fraction(2, 3): "⅔", Fraction(1, 4): "¼",
    Fraction(3, 4): "¾", Fraction(1, 6): "⅙", Fraction(5, 6): "⅚", Fraction(1, 8): "⅛",
    Fraction(3, 8): "⅜", Fraction(5, 8): "⅝", Fraction(7, 8): "⅞",
}  # fmt: skip


@lru_cache(maxsize=8192)
def quarters(ticks: int, grain: int) -> Fraction:
    """Return a place or a length in quarters, given in whole ticks of which `grain` make a quarter.

    Results are kept, because the same places come again in every phrase.
    """
    return Fraction(ticks, grain)


def whole_ticks(place: Fraction, grain: int) -> int:
    """Return a place or a length, given in quarters, in whole ticks of which `grain` make a quarter.

    `grain` must be a multiple of the denominator of `place`.
    """
    return place.numerator * (grain // place.denominator)


@dataclass(frozen=True, slots=True)
class Metre:
    """A metre: a bar has `beats` beats, and each of them is a note of the value 1/`unit`."""

    beats: int = 4
    unit: int = 4

    @classmethod
    def parse(cls, text: str) -> Metre:
        """Read a metre such as "4/4" or "6/8", of 1 to 24 beats.

        Raises:
            ValueError: if the text is anything else, or the denominator is not a note value.
        """
        found = _METRE.fullmatch(text.strip())
        if found is None:
            raise ValueError(f"{text!r} is not a metre")
        return cls(int(found[1]), int(found[2]))

    def __str__(self) -> str:
        return f"{self.beats}/{self.unit}"

    @property
    def bar_quarters(self) -> Fraction:
        """The length of a bar in quarter notes."""
        return quarters(4 * self.beats, self.unit)

    @property
    def beat_quarters(self) -> Fraction:
        """The length of one beat (the metre's denominator) in quarter notes."""
        return quarters(4, self.unit)

    @property
    def tapped_quarters(self) -> Fraction:
        """The length of the beat that players tap, and that a tempo counts, in quarter notes.

        It is the dotted quarter in 6/8, 9/8 and 12/8, the half in metres over 2 or 1, the eighth in 3/8, and
        else the quarter (common practice).
        """
        if self.unit >= 8:
            if self.unit == 8 and self.beats % 3 == 0:
                return Fraction(3, 2) if self.beats > 3 else Fraction(1, 2)
            return Fraction(1)
        return min(self.beat_quarters, Fraction(2))

    @property
    def groups(self) -> tuple[int, ...]:
        """How many beats lie from each strong beat to the next: (2, 2) in 4/4, (3, 3) in 6/8, (3, 2) in 5/4.

        The usual division of each metre is common practice. A metre that is not in the table goes by threes
        where its beats divide by three, and otherwise by twos.
        """
        known = _GROUPS.get((self.beats, self.unit))
        if known is not None:
            return known
        size = 3 if self.beats % 3 == 0 and self.beats > 3 else 2
        whole, rest = divmod(self.beats, size)
        return (size,) * whole + ((rest,) if rest else ())

    @property
    def strong_beats(self) -> tuple[int, ...]:
        """The strong beats, counted from 1, such as (1, 3) in 4/4."""
        starts, beat = [], 1
        for size in self.groups:
            starts.append(beat)
            beat += size
        return tuple(starts)

    def beat_at(self, offset_quarters: Fraction) -> Fraction:
        """Return the beat, counted from 1, at a distance in quarters from the bar line."""
        return offset_quarters / self.beat_quarters + 1


def beat_words(beat: Fraction) -> str:
    """Return a beat as people write it: "3", "3½", "2⅔", and for a rare fraction "2 5/7"."""
    whole, rest = divmod(beat, 1)
    if not rest:
        return str(whole)
    return f"{whole}{_FRACTIONS.get(rest, f' {rest}')}"


def beat_from_words(words: str) -> Fraction:
    """Return the beat for which `beat_words` gives these words.

    Raises:
        ValueError: if the words are not of that form.
    """
    for rest, sign in _FRACTIONS.items():
        if words.endswith(sign):
            return int(words.removesuffix(sign)) + rest
    whole, _, odd = words.partition(" ")
    return int(whole) + Fraction(odd or 0)
