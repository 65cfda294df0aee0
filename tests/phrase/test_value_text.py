"""Note values as they are printed. Source: docs/manuscript.md."""

from __future__ import annotations

import pytest

from shedbook.errors import NotationError
from shedbook.phrase.value_text import print_values, read_values


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
