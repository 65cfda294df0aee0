"""Repeats and endings written out, and lengths found as values."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shedbook.exchange.ground.note_lengths import fitting, in_quarters, in_ticks, values_for
from shedbook.exchange.musicxml.repeats import RepeatSigns, unrolled
from shedbook.phrase.model import Value
from strategies import values


def ending(*numbers: int, times: int = 0, ends: bool = True) -> RepeatSigns:
    return RepeatSigns(times=times, ending=frozenset(numbers), ends=ends)


# Common practice: how a player reads the signs.
ORDERS = [
    pytest.param([RepeatSigns(), RepeatSigns()], [0, 1], id="no signs"),
    pytest.param([RepeatSigns(), RepeatSigns(times=2), RepeatSigns()], [0, 1, 0, 1, 2], id="from the start"),
    pytest.param([RepeatSigns(), RepeatSigns(forward=True, times=3)], [0, 1, 1, 1], id="three times"),
    pytest.param(
        [RepeatSigns(), ending(1, times=2), ending(2), RepeatSigns()], [0, 1, 0, 2, 3], id="two endings"
    ),
    pytest.param(
        [RepeatSigns(), ending(1, 2, times=2), ending(3)], [0, 1, 0, 1, 0, 2], id="an ending for two turns"
    ),
    pytest.param([RepeatSigns(), ending(1, times=2), RepeatSigns()], [0, 1, 0, 2], id="a first ending alone"),
    pytest.param([RepeatSigns(times=2), RepeatSigns(times=2)], [0, 0, 1, 1], id="one repeat after another"),
    pytest.param([ending(2), RepeatSigns()], [0, 1], id="an ending that no turn reaches"),
]


@pytest.mark.parametrize(("signs", "order"), ORDERS)
def test_order(signs: list[RepeatSigns], order: list[int]) -> None:
    assert unrolled(signs, "test") == order


signs = st.builds(
    RepeatSigns,
    st.booleans(),
    st.integers(0, 3),
    st.none() | st.sets(st.integers(1, 3), min_size=1).map(frozenset),
    st.booleans(),
)


@given(st.lists(signs, max_size=12))
def test_any_signs_come_to_an_end_in_forward_steps_and_jumps_back(bars: list[RepeatSigns]) -> None:
    order = unrolled(bars, "test")
    assert all(0 <= index < len(bars) for index in order)
    if not any(bar.times for bar in bars):
        assert order == sorted(set(order))


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
