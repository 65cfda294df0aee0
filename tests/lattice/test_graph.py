"""Lattices against brute force: every path of small ones is walked, in every semiring.

The semiring laws that make one walk do for all are those of Mohri 2002 (from memory); the checks themselves
are definitions: a total is the join of all paths, each the product of its arcs.
"""

from __future__ import annotations

import random
from collections import Counter
from fractions import Fraction
from itertools import islice
from math import exp, fsum, inf, isclose, log, prod

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from scipy.stats import chisquare

from lattice.brute_force import every_path, lattices, weights_of
from shedbook.lattice.graph import (
    Lattice,
    Path,
    count_paths,
    lattice_of,
    least_path,
    onward,
    path_back,
    sample_paths,
    totals,
    weigh,
)
from shedbook.lattice.ranked import best_paths
from shedbook.lattice.semiring import COUNT, LEAST, LOG_SUM, k_least

SMALLEST_P = 1e-3


@given(lattices())
def test_the_least_path_is_the_first_of_the_cheapest(lattice: Lattice[int]) -> None:
    every = every_path(lattice)
    found = least_path(lattice)
    if not every:
        assert found is None
        assert totals(lattice, LEAST)[-1] == inf
        return
    # `every_path` has the paths in the order of the rule, and `min` takes the first of equals.
    assert found == min(every, key=lambda path: sum(weights_of(lattice, path)))
    assert found is not None
    assert totals(lattice, LEAST)[-1] == sum(weights_of(lattice, found)) == weigh(lattice, found, LEAST)


def test_the_rule_for_ties_by_hand() -> None:
    # Two arcs of equal cost lead to the goal; the first offered comes from node 2, whose first arc is dearer.
    arcs = [(0, 1, 1), (0, 2, 2), (0, 2, 1), (1, 2, 0), (2, 3, 1), (1, 3, 1)]
    assert least_path(lattice_of(4, arcs)) == Path((0, 2, 3), (1, 0))
    last_first = [*arcs[:4], arcs[5], arcs[4]]
    assert least_path(lattice_of(4, last_first)) == Path((0, 1, 3), (0, 0))


@given(lattices(most=3))
def test_the_k_best_come_in_order_and_all_of_them(lattice: Lattice[int]) -> None:
    every = every_path(lattice)
    in_order = sorted(every, key=lambda path: sum(weights_of(lattice, path)))  # sorting keeps equals in order
    assert list(best_paths(lattice)) == in_order
    assert list(islice(best_paths(lattice), 3)) == in_order[:3]


@given(lattices(most=3), st.integers(1, 5))
def test_the_costs_of_the_k_best(lattice: Lattice[int], k: int) -> None:
    costs = sorted(sum(weights_of(lattice, path)) for path in every_path(lattice))
    found = totals(lattice, k_least(k))
    assert found[-1] == tuple(costs[:k])
    if costs:
        assert path_back(lattice, found, k_least(k)) == least_path(lattice)


@given(lattices())
def test_counts_and_sums_of_products_are_exact(lattice: Lattice[int]) -> None:
    every = every_path(lattice)
    assert count_paths(lattice) == len(every)
    assert totals(lattice, COUNT)[-1] == sum(prod(weights_of(lattice, path)) for path in every)


def test_counts_beyond_any_machine_word() -> None:
    layers = 400
    ladder = lattice_of(layers + 1, ((at, at + 1, way) for at in range(layers) for way in range(7)))
    assert count_paths(ladder) == 7**layers
    assert totals(ladder, COUNT)[-1] == 21**layers
    path = next(sample_paths(ladder.counting(), COUNT, random.Random(1)))
    assert set(path.places) == set(range(7))


@given(lattices(least=-40, most=40), st.sampled_from([0.0, 700.0, -900.0]))
def test_log_sums(lattice: Lattice[int], moved: float) -> None:
    """Within 1e-12; moved far from nought, where plain numbers would overflow or vanish."""
    shifted = Lattice(lattice.sources, [[moved + one / 3 for one in row] for row in lattice.weights])
    logs = [weigh(shifted, path, LOG_SUM) for path in every_path(lattice)]
    found = totals(shifted, LOG_SUM)[-1]
    if not logs:
        assert found == -inf
        return
    top = max(logs)
    wanted = top + log(fsum(exp(one - top) for one in logs))
    assert isclose(found, wanted, rel_tol=1e-12, abs_tol=1e-12)


@given(lattices(most=3))
def test_totals_from_the_goal(lattice: Lattice[int]) -> None:
    every = every_path(lattice)
    costs = onward(lattice, LEAST)
    for node in range(len(lattice.sources)):
        rest = [
            sum(weights_of(lattice, path)[path.nodes.index(node) :]) for path in every if node in path.nodes
        ]
        if rest:
            assert costs[node] == min(rest)
    assert onward(lattice, COUNT)[0] == totals(lattice, COUNT)[-1]
    assert onward(lattice, k_least(3))[0] == totals(lattice, k_least(3))[-1]
    whole = totals(lattice, LOG_SUM)[-1]
    assert whole == onward(lattice, LOG_SUM)[0] or isclose(onward(lattice, LOG_SUM)[0], whole, rel_tol=1e-12)


SHARED = lattice_of(
    5, [(0, 1, 1), (0, 2, 3), (1, 2, 2), (1, 3, 1), (2, 3, 4), (2, 3, 1), (3, 4, 2), (1, 4, 5), (2, 4, 0)]
)


@pytest.mark.parametrize("semiring", ["count", "log-sum"])
@pytest.mark.parametrize("seed", [1, 2])
def test_samples_are_drawn_in_proportion(semiring: str, seed: int) -> None:
    """Chi-square with fixed seeds; a path whose weight is nought is never drawn."""
    logs = Lattice(SHARED.sources, [[log(one) if one else -inf for one in row] for row in SHARED.weights])
    dice, draws = random.Random(seed), 20_000
    if semiring == "count":
        drawn = Counter(islice(sample_paths(SHARED, COUNT, dice), draws))
    else:
        drawn = Counter(islice(sample_paths(logs, LOG_SUM, dice), draws))
    weights = {path: prod(weights_of(SHARED, path)) for path in every_path(SHARED)}
    assert set(drawn) == {path for path, weight in weights.items() if weight}
    paths = sorted(drawn)
    whole = sum(weights.values())
    wanted = [float(Fraction(weights[path] * draws, whole)) for path in paths]
    assert chisquare([drawn[path] for path in paths], wanted).pvalue > SMALLEST_P


@given(lattices(least=0, most=2), st.integers(0, 9))
@settings(max_examples=50)
def test_the_same_seed_draws_the_same_paths(lattice: Lattice[int], seed: int) -> None:
    assume(len(lattice.sources) > 1)
    one = sample_paths(lattice, COUNT, random.Random(seed))
    if not totals(lattice, COUNT)[-1]:
        with pytest.raises(ValueError, match="no path"):
            next(one)
        return
    drawn = list(islice(one, 5))
    assert drawn == list(islice(sample_paths(lattice, COUNT, random.Random(seed)), 5))
    assert all(path in every_path(lattice) for path in drawn)


def test_a_single_node_is_start_and_goal() -> None:
    alone: Lattice[int] = lattice_of(1, ())
    assert least_path(alone) == Path((0,), ())
    assert list(best_paths(alone)) == [Path((0,), ())]
    assert count_paths(alone) == 1


@pytest.mark.parametrize("arc", [(1, 1, 0), (2, 1, 0), (0, 3, 0), (-1, 1, 0)])
def test_arcs_lead_to_later_nodes(arc: tuple[int, int, int]) -> None:
    with pytest.raises(ValueError, match="arcs lead to later ones"):
        lattice_of(3, [arc])
    with pytest.raises(ValueError, match="at least one node"):
        lattice_of(0, ())


def test_what_cannot_be_asked() -> None:
    with pytest.raises(ValueError, match="one at least"):
        k_least(0)
    with pytest.raises(ValueError, match=r"random\.Random"):
        path_back(SHARED, totals(SHARED, COUNT), COUNT)
    assert LEAST.name != COUNT.name
