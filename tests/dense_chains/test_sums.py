"""Counts, sums and samples of dense chains against the plain ones, and by chi-square."""

from __future__ import annotations

import random
from collections import Counter
from itertools import product
from math import inf, isclose, prod

import numpy as np
import pytest
from hypothesis import given
from scipy.stats import chisquare

from lattice.brute_force import chains
from shedbook.dense_chains.sums import Logs, count_pairs, log_sum, log_totals, sampled_rows
from shedbook.lattice.chain import chain_totals
from shedbook.lattice.semiring import COUNT

Chain = tuple[list[list[int]], list[list[list[int]]]]


def logs(chain: Chain) -> tuple[list[Logs], list[Logs]]:
    own, steps = chain
    with np.errstate(divide="ignore"):
        return [np.log(np.array(one, float)) for one in own], [
            np.log(np.array(one, float)).T for one in steps
        ]


@given(chains())
def test_counts_and_sums_are_the_plain_ones(chain: Chain) -> None:
    own, steps = chain
    plain = sum(chain_totals(own, steps, COUNT)[-1])
    found = count_pairs([np.array(one) for one in own], [np.array(table).T for table in steps])
    assert (found, type(found)) == (plain, int)
    single, pair = logs(chain)
    whole = log_sum(log_totals(single, pair))
    if plain:
        assert isclose(whole, float(np.log(plain)), rel_tol=1e-12, abs_tol=1e-12)
    else:
        assert whole == -inf
        with pytest.raises(ValueError, match="no row of choices"):
            sampled_rows(log_totals(single, pair), pair, 1, random.Random(0))


def test_counts_beyond_any_machine_word() -> None:
    ones = np.ones(9, np.int64)
    assert count_pairs([ones] * 100, [np.ones((9, 9), np.int64)] * 99) == 9**100


def test_logarithms_far_from_nought() -> None:
    single, pair = [np.array([-2000.0, -2000.0])] * 3, [np.array([[-3000.0, -inf], [-3000.0, -3000.0]])] * 2
    assert isclose(log_sum(log_totals(single, pair)), float(np.log(4)) - 12_000, rel_tol=1e-12)


def test_rows_are_drawn_in_proportion() -> None:
    chain: Chain = ([[1, 2], [1, 1, 3], [2, 1]], [[[1, 2], [3, 0], [1, 1]], [[1, 0, 2], [1, 4, 1]]])
    own, steps = chain
    single, pair = logs(chain)
    draws = 20_000
    totals = log_totals(single, pair)
    rows = sampled_rows(totals, pair, draws, random.Random(3))
    assert (rows == sampled_rows(totals, pair, draws, random.Random(3))).all()
    drawn = Counter(tuple(map(int, row)) for row in rows)
    weights = {
        row: prod(layer[at] for layer, at in zip(own, row, strict=True))
        * prod(table[row[at + 1]][row[at]] for at, table in enumerate(steps))
        for row in product(*(range(len(layer)) for layer in own))
    }
    assert set(drawn) == {row for row, weight in weights.items() if weight}
    found, whole = sorted(drawn), sum(weights.values())
    test = chisquare([drawn[row] for row in found], [weights[row] * draws / whole for row in found])
    assert test.pvalue > 1e-3
