"""Covers against brute force: every way to cut a row of places into pieces."""

from __future__ import annotations

from itertools import combinations, pairwise
from math import inf

from hypothesis import given
from hypothesis import strategies as st

from shedbook.lattice.cover import least_cover

Costs = list[list[float]]
costs_of_places = st.integers(0, 6).flatmap(
    lambda places: st.tuples(
        *(
            st.lists(st.sampled_from([0.0, 1.0, 2.0, inf]), min_size=end, max_size=end)
            for end in range(1, places + 1)
        )
    )
)


def every_cover(places: int) -> list[tuple[int, ...]]:
    """Return the seams of all covers in the order of the rule: long last pieces first."""
    inner = range(1, places)
    found = [(0, *seams, places) for count in range(places) for seams in combinations(inner, count)]
    return sorted(found, key=lambda seams: seams[::-1]) if places else [(0,)]


@given(costs_of_places)
def test_the_least_cover_is_the_first_of_the_cheapest(costs: tuple[list[float], ...]) -> None:
    def cost(seams: tuple[int, ...]) -> float:
        return sum(costs[end - 1][first] for first, end in pairwise(seams))

    best = min(every_cover(len(costs)), key=cost)
    assert least_cover(costs) == (best if cost(best) < inf else None)


def test_by_hand() -> None:
    # Three places: one piece for all costs 3, so do a long and a short one: the rule takes the longer last.
    assert least_cover([[1], [2, 1], [3, 2, 1]]) == (0, 3)
    assert least_cover([[1], [2, 1], [4, 3, 1]]) == (0, 2, 3)
    assert least_cover([]) == (0,)
    assert least_cover([[inf]]) is None
