"""Chains against brute force, and against the same chain as a lattice."""

from __future__ import annotations

import random
from collections import Counter
from itertools import islice, product
from math import inf, isclose, log, prod

import pytest
from hypothesis import given
from scipy.stats import chisquare

from lattice.brute_force import chains
from shedbook.lattice.chain import chain_lattice, chain_totals, choices_back, choices_of, least_chain
from shedbook.lattice.graph import totals
from shedbook.lattice.ranked import best_paths
from shedbook.lattice.semiring import COUNT, LEAST, LOG_SUM, k_least

Chain = tuple[list[list[int]], list[list[list[int]]]]


def every_row(chain: Chain) -> dict[tuple[int, ...], list[int]]:
    """Return all rows of choices with their weights, those that the rule for ties prefers first."""
    own, steps = chain
    found = {}
    for backwards in product(*(range(len(layer)) for layer in reversed(own))):
        row = backwards[::-1]
        weights = [layer[at] for layer, at in zip(own, row, strict=True)]
        weights += [table[row[at + 1]][row[at]] for at, table in enumerate(steps)]
        found[row] = weights
    return found


@given(chains())
def test_the_least_row_is_the_first_of_the_cheapest(chain: Chain) -> None:
    every = every_row(chain)
    row = min(every, key=lambda row: sum(every[row]))
    assert least_chain(*chain) == (sum(every[row]), row)
    found = chain_totals(*chain, LEAST)
    assert min(found[-1]) == sum(every[row])
    assert choices_back(found, chain[1], LEAST) == row


@given(chains())
def test_a_chain_is_a_lattice(chain: Chain) -> None:
    every = every_row(chain)
    costs = chain_lattice(*chain, LEAST)
    in_order = sorted(every, key=lambda row: sum(every[row]))
    assert [choices_of(path) for path in best_paths(costs)] == in_order
    assert totals(chain_lattice(*chain, COUNT), COUNT)[-1] == sum(map(prod, every.values()))


@given(chains())
def test_sums_and_k_best_costs(chain: Chain) -> None:
    every = every_row(chain)
    own, steps = chain
    assert sum(chain_totals(own, steps, COUNT)[-1]) == sum(map(prod, every.values()))
    logs = [[log(one) if one else -inf for one in layer] for layer in own]
    log_steps = [[[log(one) if one else -inf for one in row] for row in table] for table in steps]
    last = chain_totals(logs, log_steps, LOG_SUM)[-1]
    whole = LOG_SUM.dot(last, [0.0] * len(last))
    wanted = sum(map(prod, every.values()))
    assert whole == -inf if not wanted else isclose(whole, log(wanted), rel_tol=1e-12, abs_tol=1e-12)
    three = k_least(3)
    row = chain_totals(own, steps, three)
    assert list(three.dot(row[-1], [0] * len(row[-1]))) == sorted(map(sum, every.values()))[:3]
    assert choices_back(row, steps, three) == least_chain(own, steps)[1]


def test_rows_are_drawn_in_proportion() -> None:
    chain: Chain = ([[1, 2], [1, 1, 3], [2, 1]], [[[1, 2], [3, 0], [1, 1]], [[1, 0, 2], [1, 4, 1]]])
    own, steps = chain
    dice, draws = random.Random(5), 20_000
    found = chain_totals(own, steps, COUNT)
    drawn = Counter(choices_back(found, steps, COUNT, dice) for _ in range(draws))
    weights = {row: prod(one) for row, one in every_row(chain).items()}
    assert set(drawn) == {row for row, weight in weights.items() if weight}
    rows, whole = sorted(drawn), sum(weights.values())
    test = chisquare([drawn[row] for row in rows], [weights[row] * draws / whole for row in rows])
    assert test.pvalue > 1e-3


def test_no_layers_and_no_way() -> None:
    assert least_chain([], []) == (0, ())
    assert choices_back([], [], LEAST) == ()
    with pytest.raises(ValueError, match="no choices"):
        least_chain([[0], []], [[]])
    with pytest.raises(ValueError, match="no row of choices"):
        least_chain([[0], [1]], [[[inf]]])
    with pytest.raises(ValueError, match="shorter"):
        least_chain([[0], [1]], [])
    assert len(list(islice(best_paths(chain_lattice([[0], [1]], [[[inf]]], LEAST)), 2))) == 0
