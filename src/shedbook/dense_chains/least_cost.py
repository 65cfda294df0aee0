"""The cheapest way through a row of choices, where a choice may depend on the two before it; the k cheapest.

Costs are whole numbers, so that the way is the same on every machine. Of equally cheap ways the one with the
earlier choice at the last place is taken, then at the last but one, and so on: the rule of `lattice`.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

Costs = NDArray[np.int64]


def cheapest_pairs(single: Sequence[Costs], pair: Sequence[Costs]) -> tuple[int, ...]:
    """Return the cheapest choices where each cost hangs on one choice or on two neighbours.

    Time is in proportion to the entries of all tables.

    Args:
        single: for each place, at least one, the cost of each choice, at least one.
        pair: for each place but the first the costs [choice before, choice].

    Raises:
        ValueError: if there is not one table fewer than places, or a table does not fit its choices.
    """
    total = single[0]
    back: list[NDArray[np.intp]] = []
    for own, between in zip(single[1:], pair, strict=True):
        ways = total[:, None] + between
        back.append(ways.argmin(axis=0))
        total = ways.min(axis=0) + own
    found = [int(total.argmin())]
    for row in reversed(back):
        found.append(int(row[found[-1]]))
    return tuple(reversed(found))


def cheapest_triples(
    single: Sequence[Costs], pair: Sequence[Costs], triple: Sequence[Costs]
) -> tuple[int, ...]:
    """Return the cheapest choices where costs may hang on three neighbours too.

    It is a chain whose choices are pairs of neighbours, in the order of the former and then of the latter. So
    of equally cheap rows the one with the earlier choice at the last place but one is taken, then at the last.

    Args:
        single: as in `cheapest_pairs`.
        pair: as in `cheapest_pairs`.
        triple: for each place but the first two the costs [two before, one before, choice].

    Raises:
        ValueError: as in `cheapest_pairs`.
    """
    if len(single) < 3:
        return cheapest_pairs(single, pair)
    total = single[0][:, None] + pair[0] + single[1][None, :]
    back: list[NDArray[np.intp]] = []
    for own, between, among in zip(single[2:], pair[1:], triple, strict=True):
        ways = total[:, :, None] + among
        back.append(ways.argmin(axis=0))
        total = ways.min(axis=0) + between + own[None, :]
    before, last = divmod(int(total.argmin()), total.shape[1])
    found = [last, before]
    for row in reversed(back):
        found.append(int(row[found[-1], found[-2]]))
    return tuple(reversed(found))


def k_cheapest_pairs(
    single: Sequence[Costs], pair: Sequence[Costs], k: int
) -> tuple[tuple[int, tuple[int, ...]], ...]:
    """Return the k cheapest rows of choices with their costs, the cheapest first; all, where there are fewer.

    The k best ways to every choice are kept, so that time and memory grow with k. `lattice.ranked` takes
    little more for each further row instead, in plain Python.

    Args:
        single: as in `cheapest_pairs`.
        pair: as in `cheapest_pairs`.
        k: how many, at least 1.
    """
    totals = single[0][None, :]  # [rank, choice]
    back: list[NDArray[np.intp]] = []
    for own, between in zip(single[1:], pair, strict=True):
        # Ways to a choice, by the choice before and then by rank: a stable sort keeps the rule for ties.
        ways = (totals.T[:, :, None] + between[:, None, :]).reshape(-1, own.size)
        order = ways.argsort(axis=0, kind="stable")[:k]
        back.append(order)
        totals = np.take_along_axis(ways, order, axis=0) + own[None, :]
    last = totals.T.reshape(-1)
    found = []
    for place in last.argsort(kind="stable")[:k]:
        choice, rank = divmod(int(place), totals.shape[0])
        row = [choice]
        for index in range(len(back) - 1, -1, -1):
            ranks = back[index - 1].shape[0] if index else 1
            choice, rank = divmod(int(back[index][rank, choice]), ranks)
            row.append(choice)
        found.append((int(last[place]), tuple(reversed(row))))
    return tuple(found)
