"""Near-duplicates, against the plain table of edit distances."""

from __future__ import annotations

from fractions import Fraction
from functools import lru_cache
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from catalogue.books import PHRASES, UP_A_STEP, book
from shedbook.catalogue.index_file import IndexFile
from shedbook.catalogue.keeping import bring_up_to_date
from shedbook.catalogue.search import phrases_by_row
from shedbook.catalogue.twins import likeness, twins

LINE = st.lists(st.integers(60, 66), min_size=1, max_size=7).map(tuple)


def plain_distance(one: tuple[int, ...], other: tuple[int, ...]) -> int:
    @lru_cache(None)
    def least(left: int, right: int) -> int:
        if not left or not right:
            return left + right
        changed = least(left - 1, right - 1) + (one[left - 1] != other[right - 1])
        return min(changed, least(left - 1, right) + 1, least(left, right - 1) + 1)

    return least(len(one), len(other))


@given(LINE, LINE)
def test_likeness_is_never_more_than_the_best_of_all_transpositions(
    one: tuple[int, ...], other: tuple[int, ...]
) -> None:
    longer = max(len(one), len(other))
    best = min(plain_distance(one, tuple(note + move for note in other)) for move in range(-7, 8))
    found = likeness(one, other)
    assert found <= 1 - Fraction(best, longer)
    if one and found >= Fraction(3, 4):
        assert found == 1 - Fraction(best, longer)


@given(LINE, st.integers(-12, 12))
def test_a_transposed_line_is_the_same(line: tuple[int, ...], move: int) -> None:
    assert likeness(line, tuple(note + move for note in line)) == 1


CASES = [
    pytest.param((60, 62, 64, 65), (60, 62, 63, 65), Fraction(3, 4), id="one note changed"),
    pytest.param((60, 62, 64, 65), (60, 64, 65), Fraction(3, 4), id="one left out"),
    pytest.param((60, 62, 64, 65), (58, 60, 62, 64, 65), Fraction(4, 5), id="one before it: a shift"),
]


@pytest.mark.parametrize(("one", "other", "alike"), CASES)
def test_small_edits(one: tuple[int, ...], other: tuple[int, ...], alike: Fraction) -> None:
    assert likeness(one, other) == likeness(other, one) == alike


def test_twins_are_found_across_books(tmp_path: Path) -> None:
    edited = UP_A_STEP.replace("c6 bb5", "c#6 bb5")
    book(tmp_path / "books" / "one", **PHRASES)
    book(tmp_path / "books" / "two", pier=edited)
    with IndexFile(tmp_path / "index.sqlite") as index:
        bring_up_to_date(index, tmp_path / "books")
        (pair,) = twins(index)
        titles = {found.title for found in phrases_by_row(index, {pair.one, pair.other}).values()}
    assert titles == {"Quay", "Pier"}
    assert pair.alike == Fraction(18, 19)
