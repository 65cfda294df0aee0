"""Single words of a line and their parts. Source: docs/manuscript.md."""

from __future__ import annotations

import pytest

from shedbook.errors import NotationError
from shedbook.phrase.line_words import BAR_LINE, BRACKETS, NOTE, REST, TIE, VALUE, LineWord, read_word
from shedbook.phrase.model import Value

EIGHTH = (Value(8),)


@pytest.mark.parametrize(
    ("word", "read"),
    [
        ("|", LineWord(BAR_LINE)), ("-", LineWord(REST)), ("+", LineWord(TIE)),
        ("((", LineWord(BRACKETS, opens=2)),
        ("1/8", LineWord(VALUE, values=EIGHTH)), ("(1/8", LineWord(VALUE, opens=1, values=EIGHTH)),
        ("+1/8)", LineWord(TIE, closes=1, values=EIGHTH)), ("d", LineWord(NOTE, letter=1)),
        ("(eb4)", LineWord(NOTE, letter=2, alteration=-1, octave=4, opens=1, closes=1)),
    ],
)  # fmt: skip
def test_the_parts_of_a_word(word: str, read: LineWord) -> None:
    found = read_word(word)
    assert (found.opens, found.closes, found.alteration) == (read.opens, read.closes, read.alteration)
    assert found == read


@pytest.mark.parametrize("word", ["~", "}", "é", "||"])
def test_only_one_sign_is_a_bar_line(word: str) -> None:
    with pytest.raises(NotationError):
        read_word(word)
