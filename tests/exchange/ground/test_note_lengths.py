"""The note values that make a length."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shedbook.exchange.ground.note_lengths import fitting, in_quarters, in_ticks, values_for
from shedbook.phrase.model import Value
from strategies import values


@given(st.lists(values, min_size=1, max_size=3))
def test_found_values_add_up_exactly(tied: list[Value]) -> None:
    length = sum((value.quarters for value in tied), Fraction(0))
    found = values_for(length)
    assert found is None or sum(value.quarters for value in found) == length


@given(values)
def test_every_value_is_found(value: Value) -> None:
    found = values_for(value.quarters)
    assert found is not None
    assert sum(one.quarters for one in found) == value.quarters
    assert in_quarters(in_ticks(value.quarters)) == value.quarters


@pytest.mark.parametrize(
    ("length", "expected"),
    [
        ("4", (Value(1),)),
        ("3", (Value(2, 1),)),
        ("5/2", (Value(2), Value(8))),
        ("1/3", (Value(8, 0, 3, 2),)),
        ("1/5", (Value(16, 0, 5, 4),)),
        ("5/3", (Value(2, 0, 3, 2), Value(8, 0, 3, 2))),
        ("1/16", (Value(32, 0, 2, 1),)),
        ("5/37", None),
        ("0", None),
        ("-1", None),
    ],
)
def test_values(length: str, expected: tuple[Value, ...] | None) -> None:
    assert values_for(Fraction(length)) == expected


def test_the_written_value_holds_where_it_agrees() -> None:
    unit = in_ticks(Fraction(1, 8))
    triplet = Value(8, 0, 3, 2)
    assert fitting(in_ticks(Fraction(3, 8)), triplet, unit) == (triplet,)
    assert fitting(in_ticks(Fraction(1, 2)), triplet, unit) == (Value(8),)
