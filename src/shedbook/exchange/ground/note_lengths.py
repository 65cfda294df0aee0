"""Lengths in ticks, and the note values that make them when they are tied to one another.

Every value that the manuscript can write is tried. Where no values make a length, the answer is None: nothing
is rounded here.
"""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from functools import lru_cache
from math import lcm

from shedbook.phrase.model import Value
from shedbook.phrase.value_text import MOST_DOTS, MOST_IN_TUPLET, PARTS

TICKS_A_QUARTER: int = PARTS[-1] * 2**MOST_DOTS * lcm(*range(1, MOST_IN_TUPLET + 1))
"""How many ticks make a quarter note. Every value that can be written is a whole number of ticks, so that
lengths can be added as integers."""

Ticks = int | Fraction
"""A length or place in ticks. It is a fraction only where no note value could make it."""

# The usual tuplets, the most common first (common practice). All other ratios are tried after them.
_USUAL = ((3, 2), (5, 4), (7, 4), (7, 8), (6, 4), (2, 3), (4, 3), (9, 8))
_MOST_TIED = 6


@lru_cache(maxsize=2)
def _singles(*, usual: bool) -> Mapping[Fraction, Value]:
    """Map each length that a single value has to the plainest such value.

    With `usual` only plain values and the usual tuplets are mapped, else those of every ratio.
    """
    numbers = range(1, MOST_IN_TUPLET + 1)
    others = sorted(
        ((actual, normal) for actual in numbers[1:] for normal in numbers if actual != normal),
        key=lambda ratio: (max(ratio), ratio),
    )
    found: dict[Fraction, Value] = {}
    for actual, normal in ((1, 1), *_USUAL, *(() if usual else others)):
        for dots in range(MOST_DOTS + 1):
            for part in PARTS:
                value = Value(part, dots, actual, normal)
                found.setdefault(value.quarters, value)
    return found


@lru_cache(maxsize=4096)
def values_for(quarters: Fraction) -> tuple[Value, ...] | None:
    """Return the note values that make a length when they are tied.

    Plain values come first, then a single tuplet value, then several values of one tuplet, and last a plain
    value tied to a tuplet value.

    Args:
        quarters: the length in quarter notes.

    Returns:
        The values, the longest first; None where no values make the length.
    """
    if quarters <= 0:
        return None
    plain = _tied(quarters, 1, 1)
    if plain is not None:
        return plain
    single = _singles(usual=True).get(quarters)
    if single is not None:
        return (single,)
    for actual, normal in _USUAL:
        tied = _tied(quarters, actual, normal)
        if tied is not None:
            return tied
    single = _singles(usual=False).get(quarters)
    return _mixed(quarters) if single is None else (single,)


def _tied(quarters: Fraction, actual: int, normal: int) -> tuple[Value, ...] | None:
    """Return at most six values of one ratio that add up to a length, longest first; None where none do."""
    left = quarters
    found: list[Value] = []
    while left and len(found) < _MOST_TIED:
        value = _longest(left, actual, normal)
        if value is None:
            return None
        found.append(value)
        left -= value.quarters
    return None if left else tuple(found)


def _longest(quarters: Fraction, actual: int, normal: int) -> Value | None:
    """Return the longest value of a ratio, with at most one dot, that fits into a length."""
    fitting = [
        value
        for part in PARTS
        for dots in (1, 0)
        if (value := Value(part, dots, actual, normal)).quarters <= quarters
    ]
    return max(fitting, key=lambda value: value.quarters, default=None)


def _mixed(quarters: Fraction) -> tuple[Value, ...] | None:
    """Return a plain value and a tuplet value that together make a length; None where none do."""
    singles = _singles(usual=False)
    for part in PARTS:
        for dots in (1, 0):
            head = Value(part, dots)
            single = singles.get(quarters - head.quarters)
            if single is not None:
                return (head, single)
    return None


@lru_cache(maxsize=4096)
def ticks_of(values: tuple[Value, ...]) -> int:
    """Return the length of tied values in ticks."""
    return int(sum(value.quarters for value in values) * TICKS_A_QUARTER)


def in_ticks(quarters: Fraction) -> Ticks:
    """Return a number of quarter notes in ticks."""
    ticks: Fraction = quarters * TICKS_A_QUARTER
    return ticks.numerator if ticks.denominator == 1 else ticks


def in_quarters(ticks: Ticks) -> Fraction:
    """Return a number of ticks in quarter notes."""
    quarters: Fraction = Fraction(ticks) / TICKS_A_QUARTER
    return quarters


@lru_cache(maxsize=8192)
def fitting(length: Ticks, written: Value | None, tolerance: Ticks) -> tuple[Value, ...] | None:
    """Return the values of a note whose file gives a duration, and perhaps the written value too.

    Args:
        length: the duration in ticks.
        written: the value that the file names, None for none. It is taken where it agrees with `length`.
        tolerance: the two agree when they differ by less than this many ticks, because a file that counts in
            a coarse unit rounds the durations of its tuplets.

    Returns:
        The written value alone, else the values that make `length`; None where none do.
    """
    if written is not None and -tolerance < ticks_of((written,)) - length < tolerance:
        return (written,)
    return values_for(in_quarters(length))
