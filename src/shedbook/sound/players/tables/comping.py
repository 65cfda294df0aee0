"""Rhythms of the comping: where a chord is struck in a cell, and how long it lasts.

Row format: style, then the length of a cell in quarters, then cells as (weight, hits); a hit is (offset,
length) in quarters, "^" in the text marks one that stands for the beat after it and takes its chord. Cells
without hits leave room. Source of all rows: common practice of comping; the weights are our own.
"""

from __future__ import annotations

from fractions import Fraction
from types import MappingProxyType
from typing import NamedTuple


class Hit(NamedTuple):
    """One struck chord; `ahead` says that it takes the chord of the beat after it."""

    at: Fraction
    quarters: Fraction
    ahead: bool


class Cell(NamedTuple):
    """One rhythm."""

    weight: int
    hits: tuple[Hit, ...]


def _cell(weight: int, text: str) -> Cell:
    """Read "0:1/2 3/2:1^" as a short hit on the beat and a longer one ahead of the next."""
    hits = []
    for word in text.split():
        at, length = word.rstrip("^").split(":")
        hits.append(Hit(Fraction(at), Fraction(length), word.endswith("^")))
    return Cell(weight, tuple(hits))


_SWING = MappingProxyType({
    Fraction(1, 2): (_cell(1, ""),),
    Fraction(1): (_cell(3, ""), _cell(2, "0:1/2"), _cell(1, "1/2:1/2^")),
    Fraction(3, 2): (_cell(3, "0:1"), _cell(2, "1:1/2"), _cell(2, "")),
    Fraction(2): (_cell(4, "0:1/2 3/2:1/2^"), _cell(3, "1/2:1"), _cell(2, "0:3/2"), _cell(2, "1:1/2"),
    _cell(2, "")),
    Fraction(3): (
        _cell(4, "0:1/2 3/2:1"), _cell(3, "3/2:1"), _cell(2, "1:1/2 2:1/2"), _cell(2, "0:2"),
        _cell(2, "1/2:1 5/2:1/2^"), _cell(1, "1:1 5/2:1/2^"), _cell(2, ""),
    ),
    Fraction(4): (
        _cell(6, "0:1/2 3/2:2"), _cell(4, "1/2:1/2 2:1"), _cell(5, "3/2:1/2 7/2:1/2^"),
        _cell(3, "0:3/2 7/2:1/2^"),
        _cell(4, "3/2:3/2"), _cell(3, "1:1/2 5/2:1"), _cell(2, "0:1 2:1/2"),
        _cell(2, "1/2:1/2 3/2:1 7/2:1/2^"),
        _cell(2, "1/2:1 2:1/2 5/2:1"), _cell(2, "0:3"), _cell(3, "5/2:1"), _cell(2, "1:1/2 3:1/2"),
        _cell(3, "7/2:1/2^"), _cell(1, ""),
    ),
})  # fmt: skip

_BALLAD = MappingProxyType({
    **_SWING,
    Fraction(2): (_cell(4, "0:2"), _cell(2, "1/2:3/2"), _cell(2, "0:1 1:1"), _cell(1, "")),
    Fraction(3): (_cell(4, "0:3"), _cell(2, "1:2"), _cell(3, "0:2 2:1"), _cell(2, "0:1 1:2"), _cell(1, "")),
    Fraction(4): (
        _cell(5, "0:4"), _cell(4, "0:2 2:2"), _cell(3, "1/2:7/2"), _cell(2, "0:5/2 7/2:1/2^"),
        _cell(2, "1:3"),
        _cell(2, "0:3/2 3/2:5/2"), _cell(3, "0:2 2:3/2 7/2:1/2^"), _cell(3, "0:3/2 3/2:3/2 3:1"),
        _cell(2, "0:1 1:2 3:1"),
    ),
})  # fmt: skip

_BOSSA = MappingProxyType({
    **_SWING,
    Fraction(2): (_cell(3, "0:1/2 3/2:1/2^"), _cell(2, "1/2:1/2 1:1"), _cell(2, "0:1"), _cell(2, "3/2:1/2^"),
    _cell(1, "")),
    Fraction(3): (_cell(4, "0:1/2 3/2:1/2 2:1"), _cell(2, "1/2:1 2:1/2"), _cell(2, "0:3/2"),
    _cell(2, "3/2:1"), _cell(1, "")),
    Fraction(4): (
        _cell(6, "0:1/2 1:1/2 5/2:1/2 7/2:1/2^"), _cell(6, "0:1/2 3/2:1/2 3:1/2"),
        _cell(4, "1/2:1/2 2:1/2 3:1/2"), _cell(4, "0:1 3/2:1 7/2:1/2^"),
        _cell(3, "1:1/2 5/2:1"), _cell(3, "0:1 5/2:1"), _cell(3, "3/2:1/2 3:1/2"), _cell(2, "0:1 7/2:1/2^"),
        _cell(2, "0:3/2"), _cell(2, "3/2:3/2"), _cell(2, "5/2:1"), _cell(2, "7/2:1/2^"), _cell(1, ""),
    ),
})  # fmt: skip

_STRAIGHT = MappingProxyType({
    **_SWING,
    Fraction(2): (_cell(4, "0:3/2"), _cell(2, "1/2:3/2"), _cell(2, "0:1 1:1"), _cell(1, "")),
    Fraction(3): (_cell(3, "0:5/2"), _cell(3, "0:3/2 3/2:3/2"), _cell(2, "0:1 1:3/2"), _cell(1, "")),
    Fraction(4): (
        _cell(4, "0:3/2 3/2:5/2"), _cell(4, "0:7/2"), _cell(3, "0:3/2 7/2:1/2^"), _cell(3, "1/2:1 3/2:5/2"),
        _cell(2, "1:1/2 5/2:3/2"), _cell(2, "3/2:2"),
        _cell(4, "0:3/2 3/2:3/2 3:1"), _cell(4, "0:3/2 3/2:2 7/2:1/2^"), _cell(2, "0:1 1:3/2 5/2:3/2"),
    ),
})  # fmt: skip

_FUNK = MappingProxyType({
    **_SWING,
    Fraction(4): (
        _cell(5, "1/2:1/4 7/4:1/2"), _cell(6, "0:1/4 3/4:1/4 5/2:1/2"), _cell(5, "1:1/4 11/4:1/4 3:1/2"),
        _cell(3, "3/2:1/4 7/2:1/2^"), _cell(4, "0:1/4 3/4:1/4 9/4:1/4 7/2:1/2^"),
        _cell(2, "3/2:1/4"), _cell(2, "5/2:1/2"), _cell(2, "0:1/4"), _cell(2, "7/2:1/2^"), _cell(1, ""),
    ),
})  # fmt: skip

_FREE = MappingProxyType({
    **_SWING, Fraction(2): (_cell(1, "0:2"),), Fraction(3): (_cell(1, "0:3"),),
    Fraction(4): (_cell(1, "0:4"),),
})  # fmt: skip

STYLES = MappingProxyType({
    "swing": _SWING, "fast swing": _SWING, "shuffle": _SWING, "waltz": _SWING, "ballad": _BALLAD,
    "bossa": _BOSSA,
    "samba": _BOSSA, "latin": _BOSSA, "straight": _STRAIGHT, "funk": _FUNK, "free": _FREE,
})  # fmt: skip
"""Feel to rhythms; an unknown feel is comped as swing."""

SUSTAINED = frozenset(("ballad", "straight", "free"))
"""Feels in which chords are held rather than struck."""

BUSY_HIT = 4
"""By how much a hit divides its cell's weight where the line moves in eighths at that moment."""

GAP_HIT = 3
"""By how much a hit multiplies its cell's weight where the line rests or holds: the piano answers."""

SELDOM_SILENT = 8
"""Where the line is silent a cell is likelier the more hits it has; an empty one this much less likely."""

TOO_MANY = 2
"""Behind the line, by how much each hit after the first divides its cell's weight."""

LOUD = MappingProxyType({"behind": 58, "alone": 66, "ahead": 5, "ending": 74})
"""Velocities: behind the line, without it; `ahead` is added for a hit ahead of its beat."""
