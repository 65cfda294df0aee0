"""Grown lattices and frontiers against brute force over words, and against one another."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise, product

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shedbook.lattice.frontier import Way, labels_of, least, nearest, offer
from shedbook.lattice.graph import count_paths, least_path
from shedbook.lattice.grow import Grown, grow
from shedbook.lattice.ranked import best_paths

LETTERS = "abc"
prices = st.lists(st.integers(0, 3), min_size=9, max_size=9)


def price(table: list[int], before: str, letter: str) -> int:
    return table[3 * LETTERS.index(before or "a") + LETTERS.index(letter)]


def automaton(table: list[int], layers: int) -> Grown[str, int]:
    """Words in which no letter follows itself and that do not end as they begin: the state is both."""

    def arcs(_: int, state: str) -> Iterator[tuple[str, int]]:
        for letter in LETTERS:
            if state[-1:] != letter:
                yield (state[:1] or letter) + letter, price(table, state[-1:], letter)

    return grow("", layers, arcs, lambda state: None if state[:1] == state[-1:] else 0)


def words(layers: int) -> list[str]:
    every = ("".join(letters) for letters in product(LETTERS, repeat=layers))
    return [word for word in every if word[0] != word[-1] and all(one != two for one, two in pairwise(word))]


def word_of(grown: Grown[str, int], states: tuple[str, ...]) -> str:
    return "".join(state[-1] for state in states[1:])


@given(prices, st.integers(2, 5))
def test_the_paths_of_an_automaton_are_its_words(table: list[int], layers: int) -> None:
    grown = automaton(table, layers)
    assert count_paths(grown.lattice) == len(words(layers))

    def cost(word: str) -> int:
        return sum(price(table, before, letter) for before, letter in zip(["", *word], word, strict=False))

    found = [word_of(grown, grown.states_of(path)) for path in best_paths(grown.lattice)]
    assert sorted(found) == words(layers)
    assert [cost(word) for word in found] == sorted(map(cost, words(layers)))


@given(prices, st.integers(2, 5))
def test_a_frontier_finds_the_same_path(table: list[int], layers: int) -> None:
    grown = automaton(table, layers)
    here: dict[str, Way[str]] = {"": (0, None)}
    for _ in range(layers):
        after: dict[str, Way[str]] = {}
        for state, (cost, rest) in here.items():
            for letter in LETTERS:
                if state[-1:] != letter:
                    both = (state[:1] or letter) + letter
                    offer(after, both, cost + price(table, state[-1:], letter), rest, letter)
        here = after
    ends = {state: way for state, way in here.items() if state[0] != state[-1]}
    path = least_path(grown.lattice)
    assert path is not None
    assert "".join(labels_of(least(ends))) == word_of(grown, grown.states_of(path))


def test_a_frontier_is_cut_back() -> None:
    ways: dict[str, Way[int]] = {}
    for state, cost in (("dear", 9), ("near", 4), ("first", 3), ("first", 3), ("second", 3)):
        offer(ways, state, cost, None, cost)
    offer(ways, "dear", 8, None, 8)
    assert list(nearest(ways, 1)) == ["near", "first", "second"]
    assert least(ways) is ways["first"]
    assert labels_of(ways["dear"]) == [8]
    with pytest.raises(ValueError, match="empty"):
        least({})


def test_an_automaton_that_accepts_nothing() -> None:
    grown = grow("x", 2, lambda _, state: [(state, 1)], lambda _: None)
    assert count_paths(grown.lattice) == 0
    assert least_path(grown.lattice) is None
