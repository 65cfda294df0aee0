"""Repeats and endings written out."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shedbook.exchange.musicxml.repeats import RepeatSigns, unrolled


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
