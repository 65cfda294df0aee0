"""Intervals and degrees."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from music21 import interval as music21_interval

from shedbook.theory.interval import OCTAVE, UNISON, Interval, degree_interval

intervals = st.builds(Interval, st.integers(-30, 30), st.integers(-50, 50))


# Letters and half steps of each interval name, as music21 counts them.
@pytest.mark.parametrize(
    ("degree", "name"),
    [
        ("1", "P1"), ("b2", "m2"), ("2", "M2"), ("#2", "A2"), ("b3", "m3"), ("3", "M3"), ("b4", "d4"),
        ("4", "P4"), ("#4", "A4"), ("b5", "d5"), ("5", "P5"), ("#5", "A5"), ("b6", "m6"), ("6", "M6"),
        ("bb7", "d7"), ("b7", "m7"), ("7", "M7"), ("8", "P8"), ("b9", "m9"), ("9", "M9"), ("#9", "A9"),
        ("11", "P11"), ("#11", "A11"), ("b13", "m13"), ("13", "M13"), ("15", "P15"),
    ],
)  # fmt: skip
def test_degrees_as_intervals(degree: str, name: str) -> None:
    theirs = music21_interval.Interval(name)

    assert degree_interval(degree) == Interval(theirs.generic.staffDistance, int(theirs.semitones))


@pytest.mark.parametrize("text", ["", "0", "16", "b", "bbb7", "#b5", "5b", " 5", "b5 ", "♭5", "x"])
def test_what_is_no_degree(text: str) -> None:
    with pytest.raises(ValueError, match="not a degree"):
        degree_interval(text)


@given(intervals, intervals)
def test_addition_is_a_group(one: Interval, other: Interval) -> None:
    assert one + other == other + one
    assert one + other - other == one
    assert one + -one == UNISON
    assert (one + other).fifths == one.fifths + other.fifths


@given(intervals)
def test_the_simple_form_differs_by_octaves(interval: Interval) -> None:
    difference = interval - interval.simple

    assert 0 <= interval.simple.steps <= 6
    assert difference.semitones * OCTAVE.steps == difference.steps * OCTAVE.semitones
    assert interval.simple.fifths == interval.fifths


@pytest.mark.parametrize(
    ("degree", "fifths"), [("5", 1), ("2", 2), ("3", 4), ("b7", -2), ("4", -1), ("8", 0)]
)
def test_places_on_the_line_of_fifths(degree: str, fifths: int) -> None:  # common practice
    assert degree_interval(degree).fifths == fifths
