"""Note values as they are printed. Source: docs/manuscript.md."""

from __future__ import annotations

from fractions import Fraction

import pytest

from shedbook.errors import NotationError
from shedbook.phrase.value_text import print_length, print_values, read_length, read_values


@pytest.mark.parametrize(
    ("typed", "printed"),
    [
        ("1/8", "1/8"), ("1/4.", "1/4."), ("1/4..", "1/4.."), ("1/8t", "1/8t"), ("1/8(3:2)", "1/8t"),
        ("1/16(5:4)", "1/16(5:4)"), ("1/8(2:3)", "1/8(2:3)"), ("1/8+1/4", "1/8+1/4"),
    ],
)  # fmt: skip
def test_the_normal_form(typed: str, printed: str) -> None:
    assert print_values(read_values(typed)) == printed


@pytest.mark.parametrize(("text", "start", "end"), [("1/8+", 4, 5), ("1/8+x", 4, 5), ("1/3", 0, 3)])
def test_what_is_no_value_is_underlined_by_one_character_at_least(text: str, start: int, end: int) -> None:
    with pytest.raises(NotationError) as caught:
        read_values(text)
    assert (caught.value.start, caught.value.end) == (start, end)


@pytest.mark.parametrize(
    ("quarters", "text"),
    [
        ("1", "1/4"),
        ("3/2", "1/4."),
        ("1/3", "1/8t"),
        ("7/2", "7/8"),
        ("5", "5/4"),
        ("9/4", "9/16"),
        ("1/7", ""),
    ],
)
def test_a_length_as_text(quarters: str, text: str) -> None:
    assert print_length(Fraction(quarters)) == text
    assert not text or read_length(text) == Fraction(quarters)


@pytest.mark.parametrize(
    ("text", "known"), [("1/8(3:1)", True), ("1/8(3:0)", False), ("1/8(1:3)", False), ("1/8(3:3)", False)]
)
def test_a_tuplet_has_two_different_numbers_from_two_and_from_one(text: str, known: bool) -> None:
    if known:
        assert print_values(read_values(text)) == text
    else:
        with pytest.raises(NotationError, match="not a tuplet that can be written"):
            read_values(text)
