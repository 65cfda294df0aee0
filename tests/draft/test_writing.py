"""Values as a player reads them: syncopations whole, everything else split where a bar divides.

Source of the expectations: common practice of written swing, and the demonstration book, where every quarter
over the middle of the bar between eighths is one value.
"""

from __future__ import annotations

from fractions import Fraction

import pytest

from shedbook.draft.ground import TICKS
from shedbook.draft.writing import values_of
from shedbook.theory.metre import Metre

FOUR, THREE = Metre(), Metre(3, 4)


@pytest.mark.parametrize(
    ("start", "end", "quarters"),
    [
        (6, 18, "1"),
        (18, 30, "1"),
        (18, 36, "3/2"),
        (12, 30, "3/2"),
        (12, 36, "2"),
        (18, 42, "1/2 3/2"),
        (6, 36, "3/2 1"),
        (18, 48, "1/2 2"),
        (30, 42, "1"),
        (6, 30, "3/2 1/2"),
        (0, 48, "4"),
        (44, 48, "1/3"),
    ],
)
def test_a_note_of_four_quarters(start: int, end: int, quarters: str) -> None:
    found = values_of(start, end, FOUR)
    assert [value.quarters for value in found] == [Fraction(one) for one in quarters.split()]


def test_a_rest_shows_the_middle() -> None:
    assert [value.quarters for value in values_of(18, 30, FOUR, rest=True)] == [Fraction(1, 2)] * 2


@pytest.mark.parametrize("metre", [FOUR, THREE])
def test_values_add_up(metre: Metre) -> None:
    bar = int(metre.bar_quarters * TICKS)
    for start in range(0, bar, 6):
        for end in range(start + 6, bar + 1, 6):
            whole = sum(value.quarters for value in values_of(start, end, metre))
            assert whole * TICKS == end - start
