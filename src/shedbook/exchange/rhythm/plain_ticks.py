"""Ticks that are plain fractions of a quarter, as those of a written line are.

Some notes of a played line begin on plain places by accident; all notes of a written line do. A line is taken
as written where it is too unlikely that all its notes lie on plain places by accident.

Conventions: places are quarters as fractions.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from functools import lru_cache
from types import MappingProxyType

from shedbook.exchange.rhythm.tables.quantise_costs import EXACT_CHANCE

_PLAIN = (1, 2, 4, 8, 3, 6, 12)
_TUPLETS = (16, 24, 5, 10, 20, 40, 7, 14, 28, 56)
"""The parts of a quarter on which written notes begin: thirty-seconds and triplets in `_PLAIN`; quintuplets,
septuplets and finer parts in `_TUPLETS`."""
_COUNTED = 64
"""No more notes than these are counted when the likelihood of an accident is reckoned."""


def exact_places(
    ticks: Sequence[int], per_quarter: int, *, sure: bool = False
) -> tuple[Fraction, ...] | None:
    """Return the plain place of each tick in quarters; None where the ticks are those of a played line.

    Args:
        ticks: times in order.
        per_quarter: how many ticks make a quarter; 0 where the file does not count in quarters.
        sure: whether the file says that it was written, so that no accident has to be ruled out.
    """
    if not per_quarter:
        return None
    for parts in (_PLAIN, (*_PLAIN, *_TUPLETS)):
        known = _places(parts, per_quarter)
        if all(tick % per_quarter in known for tick in ticks):
            share = Fraction(len(known), per_quarter)
            if sure or share ** min(len(set(ticks)), _COUNTED) < EXACT_CHANCE:
                return tuple(tick // per_quarter + known[tick % per_quarter] for tick in ticks)
    return None


def is_plain(tick: int, per_quarter: int) -> bool:
    """Tell whether a written note may begin or end on a tick; `per_quarter` ticks make a quarter."""
    return tick % per_quarter in _places((*_PLAIN, *_TUPLETS), per_quarter)


def plain_place(tick: int, parts: tuple[int, ...], per_quarter: int) -> Fraction | None:
    """Return the place of a tick in quarters; None where it lies on none of the given parts of a quarter.

    Args:
        tick: a time in ticks.
        parts: the numbers of parts into which a quarter may be divided.
        per_quarter: how many ticks make a quarter.
    """
    known = _places(parts, per_quarter).get(tick % per_quarter)
    return None if known is None else tick // per_quarter + known


@lru_cache(maxsize=64)
def _places(parts: tuple[int, ...], per_quarter: int) -> MappingProxyType[int, Fraction]:
    """Map each tick of a quarter to which a plain place may be rounded to that place."""
    found: dict[int, Fraction] = {}
    for part in parts:
        for at in range(part + 1):
            place = Fraction(at, part)
            exact = place * per_quarter
            for tick in {exact.__floor__(), exact.__ceil__()}:
                if tick < per_quarter:
                    found.setdefault(tick, place)
    found[0] = Fraction(0)
    return MappingProxyType(found)
