"""Places that a file means exactly: a written line, whose ticks are plain fractions of the quarter.

A played line lies on plain places now and then; a written one always. The question is settled by chance:
how likely it is that all of a line would lie there by accident.

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
"""Parts of the quarter that written values stand on: thirty-seconds, triplets; then quintuplets, septuplets
and their like."""
_COUNTED = 64
"""More notes than these make chance no smaller."""


def exact_places(
    ticks: Sequence[int], per_quarter: int, *, sure: bool = False
) -> tuple[Fraction, ...] | None:
    """Return the plain place of each tick; None where the ticks are those of playing.

    Args:
        ticks: times in order.
        per_quarter: ticks of a quarter; 0 where time is not counted so.
        sure: the file says that it was written, so that chance need not be asked.
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
    """Say whether a written note may begin or end on a tick of a file."""
    return tick % per_quarter in _places((*_PLAIN, *_TUPLETS), per_quarter)


def plain_place(tick: int, parts: tuple[int, ...], per_quarter: int) -> Fraction | None:
    """Return the place in quarters of a tick that lies on some parts of the quarter; None for another."""
    known = _places(parts, per_quarter).get(tick % per_quarter)
    return None if known is None else tick // per_quarter + known


@lru_cache(maxsize=64)
def _places(parts: tuple[int, ...], per_quarter: int) -> MappingProxyType[int, Fraction]:
    """Map the ticks of a quarter that a plain place may be rounded to, to that place."""
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
