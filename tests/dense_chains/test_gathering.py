"""Sparse layers against every path walked one by one: counts, best paths, draws, gathered sets.

Source of the expectation: plain enumeration of all paths, and the chi-square test.
"""

from __future__ import annotations

import math
import random
from collections import Counter
from collections.abc import Iterator

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from numpy.typing import NDArray
from scipy.stats import chisquare

from shedbook.dense_chains.gathering import Step, best, count, draw, onward, step_of, stretch

Gathered = tuple[list[Step], list[list[int]], int, int]
"""Steps, the plain masks by layer and state, the full mask, and the first layer of the stretch."""


def plain_paths(steps: list[Step]) -> Iterator[tuple[tuple[int, ...], int]]:
    """Yield every path from state 0, as the states it enters, with its weight, whatever is gathered."""

    def on(
        place: int, state: int, path: tuple[int, ...], weight: int
    ) -> Iterator[tuple[tuple[int, ...], int]]:
        if place == len(steps):
            yield path, weight
            return
        step = steps[place]
        for arc in range(int(step.first[state]), int(step.first[state + 1])):
            to = int(step.target[arc])
            yield from on(place + 1, to, (*path, to), weight + int(step.weight[arc]))

    return on(0, 0, (), 0)


STATES = 3


@st.composite
def gathered(draw_: st.DrawFn) -> Gathered:
    """Draw layers of three states, over some of which a set of up to three members must be gathered."""
    layers = draw_(st.integers(2, 5))
    steps = []
    for layer in range(layers):
        before = STATES if layer else 1
        pairs = [(one, to) for one in range(before) for to in range(STATES) if draw_(st.integers(0, 3))]
        weights = [draw_(st.integers(-3, 3)) * 50 for _ in pairs]
        source = np.array([one for one, _ in pairs], dtype=np.intp)
        target = np.array([to for _, to in pairs], dtype=np.intp)
        steps.append(step_of(source, target, np.array(weights, dtype=np.int64), before, STATES))
    members = draw_(st.integers(1, 3))
    first = draw_(st.integers(0, layers - 1))
    last = draw_(st.integers(first, layers - 1)) + 1
    row = [draw_(st.sampled_from([0, *[1 << bit for bit in range(members)]])) for _ in range(STATES)]
    steps[first:last] = stretch(steps[first:last], np.array(row, dtype=np.intp), members)
    return steps, [row] * (last - first), (1 << members) - 1, first


def kept(case: Gathered) -> list[tuple[tuple[int, ...], int]]:
    steps, masks, full, first = case
    found = []
    for path, weight in plain_paths(steps):
        mask = 0
        for at, row in enumerate(masks, start=first):
            mask |= row[path[at]]
        if mask == full:
            found.append((path, weight))
    return found


@settings(max_examples=150, deadline=None)
@given(gathered())
def test_counts_best_and_sums_are_those_of_all_paths(case: Gathered) -> None:
    steps, _, _, _ = case
    plain = kept(case)
    assert count(steps) == len(plain)
    heaviest = sorted((weight for _, weight in plain), reverse=True)
    found = best(steps, 10)
    assert [weight for weight, _ in found] == heaviest[:10]
    assert len({path for _, path in found}) == len(found)
    assert all((path, weight) in plain for weight, path in found)
    whole = onward(steps)[1]
    expected = math.log(sum(math.exp(weight / 100) for _, weight in plain)) if plain else -math.inf
    assert whole == expected or math.isclose(whole, expected, rel_tol=1e-9, abs_tol=1e-9)


def two_ways() -> list[Step]:
    """Return three layers of three states, of which a path must meet states 0 and 2."""
    source = np.repeat(np.arange(3), 3)
    target = np.tile(np.arange(3), 3)
    weight = np.array([0, 40, -60, 90, 10, 0, -30, 20, 70])
    first = step_of(np.zeros(3, dtype=np.intp), np.arange(3), np.array([10, 0, 30]), 1, 3)
    steps = [first, step_of(source, target, weight, 3, 3), step_of(source, target, -weight, 3, 3)]
    return stretch(steps, np.array([1, 0, 2], dtype=np.intp), 2)


def test_paths_are_drawn_in_proportion() -> None:
    """Chi-square of 20,000 draws against the weights of all paths."""
    steps = two_ways()
    plain = kept((steps, [[1, 0, 2]] * 3, 3, 0))
    drawn = draw(steps, onward(steps)[0], 20_000, random.Random(3))
    seen = Counter(tuple(row) for row in drawn.tolist())
    assert set(seen) <= {path for path, _ in plain}
    shares = np.array([math.exp(weight / 100) for _, weight in plain])
    observed = [seen[path] for path, _ in plain]
    assert chisquare(observed, shares / shares.sum() * 20_000).pvalue > 0.001


def test_paths_that_do_not_stand_give_way_in_proportion() -> None:
    """Chi-square against the weights of the paths that never enter one state three times running.

    What stands is told of the last two layers together, which no weight of a step can see.
    """
    steps = two_ways()
    plain = [(path, weight) for path, weight in kept((steps, [[1, 0, 2]] * 3, 3, 0)) if path[-1] != path[-2]]

    def stands(paths: NDArray[np.intp]) -> NDArray[np.bool_]:
        return np.asarray((paths.shape[1] < 3) | (paths[:, -1] != paths[:, -2 % paths.shape[1]]))

    drawn = draw(steps, onward(steps)[0], 20_000, random.Random(3), stands)
    seen = Counter(tuple(row) for row in drawn.tolist())
    assert set(seen) == {path for path, _ in plain}
    shares = np.array([math.exp(weight / 100) for _, weight in plain])
    observed = [seen[path] for path, _ in plain]
    assert chisquare(observed, shares / shares.sum() * 20_000).pvalue > 0.001


def test_where_no_path_stands_all_go_on() -> None:
    steps = two_ways()
    drawn = draw(steps, onward(steps)[0], 9, random.Random(3), lambda paths: np.zeros(len(paths), bool))
    assert (drawn == draw(steps, onward(steps)[0], 9, random.Random(3))).all()


def test_the_same_seed_draws_the_same_paths() -> None:
    steps = two_ways()
    one, other = (draw(steps, onward(steps)[0], 50, random.Random(9)) for _ in range(2))
    assert (one == other).all()


def test_counts_beyond_any_machine_word() -> None:
    source, target = np.repeat(np.arange(9), 9), np.tile(np.arange(9), 9)
    full = step_of(source, target, np.zeros(81, dtype=np.int64), 9, 9)
    first = step_of(np.zeros(9, dtype=np.intp), np.arange(9), np.zeros(9, dtype=np.int64), 1, 9)
    assert count([first, *[full] * 99]) == 9**100


def test_of_equals_the_arc_that_was_offered_first_decides() -> None:
    source, target = np.repeat(np.arange(2), 2), np.tile(np.arange(2), 2)
    first = step_of(np.zeros(2, dtype=np.intp), np.arange(2), np.zeros(2, dtype=np.int64), 1, 2)
    even = step_of(source, target, np.zeros(4, dtype=np.int64), 2, 2)
    assert [path for _, path in best([first, even], 9)] == [(0, 0), (0, 1), (1, 0), (1, 1)]


def test_without_a_path_nothing_is_drawn() -> None:
    none = step_of(np.zeros(0, dtype=np.intp), np.zeros(0, dtype=np.intp), np.zeros(0, dtype=np.int64), 1, 2)
    assert (count([none]), best([none], 3), onward([none])[1]) == (0, [], -np.inf)
    with pytest.raises(ValueError, match="no path leads"):
        draw([none], onward([none])[0], 1, random.Random(0))


def test_a_set_that_is_too_large_is_refused() -> None:
    step = step_of(np.zeros(1, dtype=np.intp), np.zeros(1, dtype=np.intp), np.zeros(1, dtype=np.int64), 1, 1)
    with pytest.raises(ValueError, match="cannot be gathered"):
        stretch([step], np.zeros(1, dtype=np.intp), 11)
