"""Dense chains against the plain ones of `lattice`, which are themselves checked against brute force."""

from __future__ import annotations

from itertools import islice, product

import numpy as np
from hypothesis import given, settings
from hypothesis import strategies as st

from lattice.brute_force import chains
from shedbook.dense_chains.least_cost import Costs, cheapest_pairs, cheapest_triples, k_cheapest_pairs
from shedbook.lattice.chain import chain_lattice, choices_of, least_chain
from shedbook.lattice.graph import weigh
from shedbook.lattice.ranked import best_paths
from shedbook.lattice.semiring import LEAST

Chain = tuple[list[list[int]], list[list[list[int]]]]


def dense(chain: Chain) -> tuple[list[Costs], list[Costs]]:
    """Return a plain chain as arrays; tables are turned to [before, after]."""
    own, steps = chain
    return [np.array(one, np.int64) for one in own], [np.array(table, np.int64).T for table in steps]


@given(chains())
def test_the_cheapest_is_the_plain_one(chain: Chain) -> None:
    assert cheapest_pairs(*dense(chain)) == least_chain(*chain)[1]


@given(chains(), st.integers(1, 30))
def test_the_k_cheapest_are_the_plain_ones(chain: Chain, k: int) -> None:
    lattice = chain_lattice(*chain, LEAST)
    plain = [(weigh(lattice, path, LEAST), choices_of(path)) for path in islice(best_paths(lattice), k)]
    assert list(k_cheapest_pairs(*dense(chain), k)) == plain


@given(chains(), st.data())
@settings(max_examples=50)
def test_three_in_a_row_are_a_chain_of_pairs(chain: Chain, data: st.DataObject) -> None:
    """Against all rows: those that go before others among equals are named by their last two choices."""
    single, pair = dense(chain)
    sizes = [len(one) for one in single]
    weight = st.integers(0, 3)
    triple = [
        np.array(
            data.draw(st.lists(weight, min_size=one * two * three, max_size=one * two * three)), np.int64
        ).reshape(one, two, three)
        for one, two, three in zip(sizes, sizes[1:], sizes[2:], strict=False)
    ]

    def cost(row: tuple[int, ...]) -> int:
        own = sum(int(costs[at]) for costs, at in zip(single, row, strict=True))
        pairs = sum(int(table[row[at : at + 2]]) for at, table in enumerate(pair))
        return own + pairs + sum(int(table[row[at : at + 3]]) for at, table in enumerate(triple))

    every = list(product(*(range(size) for size in sizes)))
    if len(sizes) < 3:
        every.sort(key=lambda row: row[::-1])
    else:
        every.sort(key=lambda row: (row[-2], row[-1], *row[-3::-1]))
    assert cheapest_triples(single, pair, triple) == min(every, key=cost)
