"""Slurs that have lost one of their ends."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from shedbook.exchange.phrases.slurs import without_half_slurs
from shedbook.phrase.model import Event, Value
from shedbook.theory.pitch import spellings

EIGHTH = (Value(8),)


def event(opens: int = 0, closes: int = 0) -> Event:
    return Event(spellings(60)[0], EIGHTH, slurs_open=opens, slurs_close=closes)


def test_whole_slurs_stay() -> None:
    bars = [(event(opens=1), event()), (event(closes=1),)]
    assert without_half_slurs(bars) == (bars, [])


def test_half_slurs_go_and_their_bars_are_named() -> None:
    found, lost = without_half_slurs([(event(closes=1),), (event(opens=2),), (event(closes=1),)])
    assert lost == [0, 1]
    assert found == [(event(),), (event(opens=1),), (event(closes=1),)]


@given(st.lists(st.lists(st.builds(event, st.integers(0, 2), st.integers(0, 2)), max_size=4), max_size=4))
def test_what_is_left_opens_and_closes_in_order(bars: list[list[Event]]) -> None:
    found, lost = without_half_slurs(bars)
    depth = 0
    for one in (one for bar in found for one in bar):
        depth -= one.slurs_close
        assert depth >= 0
        depth += one.slurs_open
    assert depth == 0
    assert without_half_slurs(found) == (found, [])
    assert all(0 <= at < len(bars) for at in lost)
