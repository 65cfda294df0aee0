"""How many bars stand in each system: the ways to share them out, best first. Pure arithmetic."""

from __future__ import annotations

from functools import lru_cache

MOST = 4
"""The most full bars that a system may have; a pick-up stands in the first system and is not counted."""


@lru_cache(maxsize=64)
def shares(bars: int) -> tuple[tuple[int, ...], ...]:
    """Return the ways to share full bars out on systems, the cheapest first.

    A way holds the number of bars of each system. Systems are as alike as the number of bars allows, with the
    longer ones first, so that no bar stands alone where it need not. A way costs its number of systems, and
    half as much again where the systems are not all alike; of two ways that cost the same, the one with fewer
    systems comes first. Eight bars are 4+4, then 2+2+2+2; seven are 4+3, then 3+2+2; five are 3+2 (our own
    choice).
    """
    if bars < 1:
        return ((0,),)
    ways = [_share(bars, count) for count in range(-(-bars // MOST), bars + 1)]
    return tuple(sorted(ways, key=lambda way: (_cost(way), len(way))))


def _share(bars: int, count: int) -> tuple[int, ...]:
    least, more = divmod(bars, count)
    return (least + 1,) * more + (least,) * (count - more)


def _cost(way: tuple[int, ...]) -> float:
    return len(way) * (1 if len(set(way)) == 1 else 1.5)


def first_bars(way: tuple[int, ...]) -> tuple[int, ...]:
    """Return the number of the first full bar of each system, for a way that `shares` gives."""
    return tuple(1 + sum(way[:index]) for index in range(len(way)))
