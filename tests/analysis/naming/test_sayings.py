"""Values in words, before a language is chosen; what is said is common English."""

from __future__ import annotations

from fractions import Fraction

import pytest

from shedbook.analysis.naming.sayings import COMMAND_LINE, Beats


@pytest.mark.parametrize(
    ("beats", "said"),
    [("1", "1 beat"), ("2", "2 beats"), ("1/2", "1/2 beat"), ("3/2", "3/2 beats"), ("0", "0 beats")],
)
def test_a_length_in_beats(beats: str, said: str) -> None:
    assert Beats(Fraction(beats)).said(COMMAND_LINE, 1) == said
