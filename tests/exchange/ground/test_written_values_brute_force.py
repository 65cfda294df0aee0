"""How lengths are written: the cheapest values against brute force, every way to cut a stretch tried."""

from __future__ import annotations

from fractions import Fraction
from itertools import combinations, pairwise
from math import inf

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from shedbook.exchange.ground.written_values import _piece, note_values, rest_values
from shedbook.theory.metre import Metre

HALF = Fraction(1, 2)


@settings(max_examples=60, deadline=None)
@given(
    st.sampled_from(["4/4", "3/4", "6/8", "7/8", "12/8"]),
    st.sampled_from([2, 3, 4, 8]),
    st.integers(0, 47),
    st.integers(0, 47),
    st.booleans(),
)
def test_no_other_values_are_cheaper(metre: str, parts: int, first: int, last: int, rest: bool) -> None:
    time = Metre.parse(metre)
    there = int(time.bar_quarters * parts)
    first %= there
    start, end = Fraction(first, parts), Fraction(first + 1 + last % (there - first), parts)
    found = (rest_values if rest else note_values)(start, end, time)
    if rest and start == 0 and end == time.bar_quarters:
        return  # a whole bar of rest is written by a rule of its own
    inner = [HALF * at for at in range(13) if start < HALF * at < end]
    least = inf
    for count in range(len(inner) + 1):
        for cuts in combinations(inner, count):
            pieces = pairwise((start, *cuts, end))
            least = min(least, sum(_piece(one, two, time, rest=rest)[0] for one, two in pieces))
    if found is None or least == inf:
        assert least == inf
        return
    places = [start]
    for value in found:
        places.append(places[-1] + value.quarters)
    assert places[-1] == end
    assert sum(_piece(one, two, time, rest=rest)[0] for one, two in pairwise(places)) == least


@pytest.mark.parametrize(
    ("start", "end", "written"),
    [  # common practice: a beat is not hidden, a plain syncopation is read at sight
        pytest.param("0", "5/2", "2 1/2", id="from one to the and of three"),
        pytest.param("1/2", "3/2", "1", id="an eighth late: one quarter"),
        pytest.param("3/2", "3", "1/2 1", id="over the middle of the bar"),
        pytest.param("1/3", "2", "2/3 1", id="from inside a triplet"),
    ],
)
def test_what_a_reader_expects(start: str, end: str, written: str) -> None:
    values = note_values(Fraction(start), Fraction(end), Metre())
    assert values is not None
    assert [value.quarters for value in values] == [Fraction(length) for length in written.split()]
