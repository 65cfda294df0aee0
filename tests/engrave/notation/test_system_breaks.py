"""How bars are shared out on systems, and how far notes stand apart in them."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shedbook.engrave.notation.system_breaks import first_bars, shares

SHARES = [  # common practice: fours, evenly, and no bar alone on the last line
    (1, [(1,)]),
    (2, [(2,), (1, 1)]),
    (3, [(3,), (2, 1)]),
    (4, [(4,), (2, 2)]),
    (5, [(3, 2), (2, 2, 1)]),
    (6, [(3, 3), (2, 2, 2)]),
    (7, [(4, 3), (3, 2, 2)]),
    (8, [(4, 4), (2, 2, 2, 2)]),
    (9, [(3, 3, 3)]),
    (10, [(4, 3, 3), (2, 2, 2, 2, 2)]),
    (12, [(4, 4, 4), (3, 3, 3, 3)]),
    (16, [(4, 4, 4, 4)]),
]


@pytest.mark.parametrize(("bars", "expected"), SHARES)
def test_bars_are_shared_out_evenly(bars: int, expected: list[tuple[int, ...]]) -> None:
    assert list(shares(bars)[: len(expected)]) == expected


@given(st.integers(1, 64))
def test_every_way_holds_every_bar_and_no_system_is_much_shorter(bars: int) -> None:
    ways = shares(bars)
    assert (1,) * bars in ways
    for way in ways:
        assert sum(way) == bars
        assert max(way) <= 4
        assert max(way) - min(way) <= 1
        assert first_bars(way)[0] == 1
