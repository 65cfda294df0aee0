"""Rhythm: breaths, stretches off the beat, late starts [common practice]."""

from __future__ import annotations

from fractions import Fraction

import pytest

from analysis.helpers import read
from shedbook.analysis.devices.rhythm import breaths, late_start, off_beats


@pytest.mark.parametrize(
    ("metre", "line", "rests"),
    [
        ("4/4", "1/4 c5 - - c", [(0, Fraction(2))]),
        ("4/4", "1/8 c5 - - - 1/4 c c", [(0, Fraction(3, 2))]),
        ("4/4", "1/4 c5 - c c", []),  # a beat is a comma
        ("4/4", "1/4 c5 c - -", []),  # the end is no breath
        ("6/8", "1/4. c5 1/8 - - c", []),
        ("6/8", "1/8 c5 1/4. - 1/4 c", []),  # its beat is the dotted quarter
        ("6/8", "1/8 c5 1/2 - 1/8 c", []),
        ("3/8", "1/16 c5 1/4 - 1/16 c", []),  # and in 3/8 a quarter: a breath is a beat and a half
    ],
)
def test_breaths(metre: str, line: str, rests: list[object]) -> None:
    assert [(one.before, one.quarters) for one in breaths(read("C", line, metre=metre))] == rests


@pytest.mark.parametrize(
    ("metre", "line", "found"),
    [
        ("4/4", "1/8 - 1/4 c5 d e 1/8 f", [(0, 3)]),
        ("4/4", "1/8 - 1/4 c5 d 1/8 e 1/4 f", []),  # F is on the beat
        ("4/4", "1/8 - 1/4 c5 d 1/4. e", []),  # three are few
        ("4/4", "1/16 - c5 - d - e - f - e - d - c - d", [(0, 7)]),
        ("6/8", "1/8 c5 d e f g a", []),  # its beat is the dotted quarter, and E is on none
        ("6/8", "1/8 - c5 d 1/4 - 1/8 -", []),
    ],
)
def test_off_the_beat(metre: str, line: str, found: list[object]) -> None:
    assert [(one.first, one.last) for one in off_beats(read("C", line, metre=metre))] == found


def test_late_starts_in_6_8() -> None:
    assert late_start(read("C", "1/4. - c5", metre="6/8")) == 1
    assert late_start(read("C", "1/4 - 1/8 c5", metre="3/8")) == 1


@pytest.mark.parametrize(("line", "beats"), [("1/4 c5 - - -", 0), ("1/4 - 1/8 - c5 1/2 c", Fraction(3, 2))])
def test_late_starts(line: str, beats: Fraction) -> None:
    assert late_start(read("C", line)) == beats
    assert late_start(read("C", "1/1 -")) == 0
