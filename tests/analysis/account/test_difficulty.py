"""What makes a line hard, counted by hand."""

from __future__ import annotations

from fractions import Fraction

from analysis.helpers import read


def test_difficulty_counts() -> None:
    found = read("Cmaj7", "1/8 c4 c5 d#5 e5 g4 e4 c4 g4", "ionian", tempo=120).difficulty
    assert (found.range, found.leaps, found.widest_leap) == (16, 3, 12)
    assert found.chromatic_density == Fraction(1, 8)
    assert found.fastest_rate == 4
