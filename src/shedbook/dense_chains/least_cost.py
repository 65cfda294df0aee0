"""The cheapest way through a row of choices, where a choice may depend on the two before it; the k cheapest.

Costs are whole numbers, so that the way is the same on every machine. Of equally cheap ways the one with the
earlier choice at the last place is taken, then at the last but one, and so on: the rule of `lattice`.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import islice

import numpy as np
from numpy.typing import NDArray

from shedbook.lattice.graph import Lattice, weigh
from shedbook.lattice.ranked import best_paths
from shedbook.lattice.semiring import LEAST

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
    of equally cheap rows the one with the earlier choice at the last place but one is taken, then at the
    last.

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

    The least costs to all choices are found on the arrays; the rows are then taken out one by one
    (`lattice.ranked`), which takes little time for each.

    Args:
        single: as in `cheapest_pairs`.
        pair: as in `cheapest_pairs`.
        k: how many.

    Raises:
        ValueError: as in `cheapest_pairs`.
    """
    total = single[0]
    sources: list[Sequence[int]] = [(), *[(0,)] * len(total)]
    weights: list[Sequence[int]] = [(), *[(cost,) for cost in total.tolist()]]
    found = [0, *total.tolist()]
    before = range(1, len(sources))
    for own, between in zip(single[1:], pair, strict=True):
        steps = between + own[None, :]
        total = (total[:, None] + steps).min(axis=0)
        found += total.tolist()
        sources += [before] * len(own)
        weights += steps.T.tolist()
        before = range(len(sources) - len(own), len(sources))
    lattice = Lattice([*sources, before], [*weights, [0] * len(before)])
    paths = islice(best_paths(lattice, [*found, int(total.min())]), k)
    return tuple([(int(weigh(lattice, path, LEAST)), path.places[1:]) for path in paths])
