"""Where the keys of a phrase stand: the plan against all plans there are, and what it promises."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from shedbook.book.ground.paper import GAP_MM
from shedbook.book.pages.page_plan import (
    COST,
    Box,
    First,
    KeyPage,
    Sheet,
    end_of,
    first_page,
    page_of,
    plan_phrase,
    turned,
    with_own,
)

HEIGHTS = st.lists(
    st.floats(18, 120).map(lambda height: Box(round(height, 1), round(height / 3, 1))), max_size=6
)
FIRSTS = st.lists(st.floats(40, 300).map(lambda height: First(round(height, 1))), min_size=1, max_size=2)
SHEETS = st.builds(
    Sheet, st.sampled_from([150.0, 258.0]), st.integers(1, 8), st.sampled_from([1, 2]), st.booleans(),
    st.sampled_from([0.0, 22.0]),
)  # fmt: skip


def splits(count: int) -> Iterator[tuple[int, ...]]:
    """Yield every way to share keys out over whole pages."""
    if count == 0:
        yield ()
    for first in range(1, count + 1):
        for rest in splits(count - first):
            yield (first, *rest)


def rows_high(keys: list[Box], columns: int) -> tuple[int, float]:
    """Return how many rows keys take, and how high these are without gaps."""
    rows = -(-len(keys) // columns)
    found = 0.0
    for row in range(rows):
        own = keys[row::rows]
        found += max(key.staff for key in own) + max(key.height - key.staff for key in own)
    return rows, found


@settings(max_examples=150, deadline=None)
@given(HEIGHTS, FIRSTS, SHEETS)
def test_no_way_to_share_keys_out_costs_less(keys: list[Box], firsts: list[First], sheet: Sheet) -> None:
    """Brute force: every division of the keys into pages is priced by planning each page alone."""
    plan = plan_phrase(keys, firsts, sheet)
    for way, first in enumerate(firsts):
        for count in range(len(keys) + 1):
            for parts in splits(len(keys) - count):
                cost = priced(keys, way, first, (count, *parts), sheet)
                assert cost is None or plan.cost <= cost + 1e-6, (way, count, parts)


def priced(keys: list[Box], way: int, first: First, parts: tuple[int, ...], sheet: Sheet) -> float | None:
    """Return the least that one division costs, by pricing each page and trying own staves on each."""
    taken, before = first_page(first, sheet)
    pages: list[list[tuple[KeyPage, float]]] = []
    start, cost = 0, COST["page"] * before + first.cost
    for place, count in enumerate(parts):
        own = tuple(keys[start : start + count])
        start += count
        page = page_of(own, sheet, taken, first=True) if place == 0 else page_of(own, sheet, 0.0)
        if page is None and (count > 1 or place == 0):
            return None
        pages.append(list(with_own(*(page or too_high(own[0])), sheet, 0.0 if place else taken)))
        cost += COST["page"] + turned(sheet, before + place - 1) if place else 0.0
    bare = sum(options[0][1] for options in pages)
    whole = before + len(parts) - 1
    found = [cost + bare + end_of(sheet, whole, False)[1]]
    for options in pages:
        for _, price in options[1:]:
            found.append(cost + bare - options[0][1] + price + end_of(sheet, whole, True)[1])
    return min(found)


def too_high(key: Box) -> tuple[KeyPage, float]:
    return KeyPage(1, (), key.height), 0.0


@settings(max_examples=200, deadline=None)
@given(HEIGHTS, FIRSTS, SHEETS)
def test_every_layout_keeps_its_promises(keys: list[Box], firsts: list[First], sheet: Sheet) -> None:
    for plan in (plan_phrase(keys, firsts, sheet), *(plan_phrase(keys, [one], sheet) for one in firsts)):
        assert sum(page.count for page in plan.pages) == len(keys)
        start = 0
        for place, page in enumerate(plan.pages):
            own = keys[start : start + page.count]
            start += page.count
            rows, high = rows_high(own, sheet.columns)
            assert len(page.rows) == rows
            assert rows <= max(sheet.most, 1) or page.count == 1
            assert page.height >= high + max(0, rows - 1) * GAP_MM - 0.1
            if page.height > sheet.room:
                assert page.count == 1  # it goes on after a turn, with a whole system
            for before, after in pairwise(page.rows):
                assert after.top - after.staff >= before.top - before.staff + before.height + GAP_MM - 0.05
            if page.own:
                assert page.height + page.own * sheet.own + sheet.own_head <= sheet.room + 0.1 or place == 0


@pytest.mark.parametrize(
    ("heights", "first", "columns", "expected"),
    [
        # What a publisher would do: one opening, about eight systems on the right.
        pytest.param([28.0] * 11, 150.0, 1, [3, 8], id="eleven keys of a phrase of four bars"),
        pytest.param([27.0] * 11, 130.0, 2, [1, 10], id="two columns"),
        pytest.param([62.0] * 11, 190.0, 1, [1, 4, 3, 3], id="eight bars: two openings"),
        pytest.param([300.0, 300.0], 150.0, 1, [0, 1, 1], id="higher than a page"),
    ],
)
def test_usual_phrases(heights: list[float], first: float, columns: int, expected: list[int]) -> None:
    sheet = Sheet(258.0, 8, columns, own=0.0)
    plan = plan_phrase([Box(height, 9.0) for height in heights], [First(first)], sheet)
    assert sorted(page.count for page in plan.pages) == sorted(expected)
    assert len(plan.pages) == len(expected)


def test_a_phrase_on_an_opening_has_both_its_pages() -> None:
    plan = plan_phrase([Box(20.0, 8.0)] * 2, [First(100.0)], Sheet(258.0, 8, own=22.0))
    assert len(plan.pages) == 2
    assert plan.pages[1].own > 0 or plan.pages[1].count > 0


def test_keys_go_down_the_first_column_and_stand_on_common_lines() -> None:
    keys = [Box(20.0, 5.0), Box(24.0, 9.0), Box(30.0, 12.0)]
    (page,) = (page for page in plan_phrase(keys, [First(230.0)], Sheet(258.0, 8, 2)).pages if page.count)
    assert isinstance(page, KeyPage)
    assert [row.staff for row in page.rows] == [12.0, 9.0]  # the first beside the third, the second alone
