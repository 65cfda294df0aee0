"""The cheapest way through a row of choices, where a choice may depend on the two before it.

Dynamic programming over pairs of neighbours. Costs are whole numbers, so that the way is the same on
every machine; of equally cheap ways the one with the earlier choices in each row is taken.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

Costs = NDArray[np.int64]


def cheapest_pairs(single: Sequence[Costs], pair: Sequence[Costs]) -> tuple[int, ...]:
    """Return the cheapest choices where each cost hangs on one choice or on two neighbours.

    Args:
        single: for each place the cost of each choice.
        pair: for each place but the first the costs [choice before, choice].
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

    Args:
        single: as in `cheapest_pairs`.
        pair: as in `cheapest_pairs`.
        triple: for each place but the first two the costs [two before, one before, choice].
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
