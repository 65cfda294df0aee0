"""Bars of any length made as long as their metre says."""

from __future__ import annotations

from fractions import Fraction

from hypothesis import given
from hypothesis import strategies as st

from shedbook.exchange.ground.long_line import BarContext, LineBar
from shedbook.exchange.ground.note_lengths import values_for
from shedbook.exchange.ground.report import Reporter
from shedbook.exchange.phrases.even_bars import even_bars
from shedbook.phrase.model import Event
from shedbook.theory.metre import Metre
from shedbook.theory.pitch import spellings


def bar(*quarters: str, label: str = "1", short: bool = False, tie_out: bool = False) -> LineBar:
    """Return a bar of notes with some lengths."""
    events = []
    for length in quarters:
        values = values_for(Fraction(length))
        assert values is not None
        events.append(Event(spellings(60)[0], values))
    return LineBar(label, BarContext(), tuple(events), short=short, tie_out=tie_out)


def lengths(bars: list[LineBar] | None) -> list[Fraction]:
    assert bars is not None
    return [one.quarters for one in bars]


def test_the_parts_of_a_divided_bar_are_joined() -> None:
    reporter = Reporter("x")
    (_, joined) = even_bars([bar("4"), bar("2", tie_out=True), bar("2")], Metre(), reporter) or []
    assert joined.quarters == 4
    assert len(joined.events) == 1  # the tied note is one
    assert reporter.report().remarks == ()


def test_a_pickup_stays_short_and_a_later_bar_is_filled() -> None:
    reporter = Reporter("x")
    found = even_bars([bar("1"), bar("4"), bar("3", label="2"), bar("4")], Metre(), reporter)
    assert lengths(found) == [1, 4, 4, 4]
    assert [str(remark) for remark in reporter.report().remarks] == [
        "short bars are filled with a rest (bar 2)."
    ]


def test_a_long_bar_is_divided_with_a_tie_over_the_cut() -> None:
    found = even_bars([bar("3", "2", "3")], Metre(), Reporter("x"))
    assert lengths(found) == [4, 4]
    assert found is not None
    assert [one.tie_out for one in found] == [True, False]


@given(st.lists(st.lists(st.sampled_from(["1/2", "1", "3/2", "2", "3"]), min_size=1, max_size=5), min_size=1))
def test_every_bar_but_a_pickup_is_full(rows: list[list[str]]) -> None:
    before = [bar(*row) for row in rows]
    found = lengths(even_bars(before, Metre(), Reporter("x")))
    assert all(length == 4 for length in found[1:])
    assert 0 < found[0] <= 4
    assert sum(found) >= sum(one.quarters for one in before)
