"""Places of errors: moved from a part of a text to the whole, and shown to a person."""

from __future__ import annotations

import pytest

from shedbook.errors import ChordSymbolError, NotationError, Place, shown

# excerpt, column, width, the text that must stand over the mark
PICTURES = [
    pytest.param("1/4 c5 h d", 8, 1, "h", id="short line"),
    pytest.param("\t1/4\tc5 h d", 9, 1, "h", id="tabs"),
    pytest.param("x " * 500 + "here" + " x" * 500, 1001, 4, "here", id="middle of a long line"),
    pytest.param("here" + " x" * 500, 1, 4, "here", id="start of a long line"),
    pytest.param("x " * 500 + "here", 1001, 4, "here", id="end of a long line"),
    pytest.param("ab", 1, 0, "a", id="no width"),
    pytest.param("ab", 2, 9, "b", id="width past the end"),
]


@pytest.mark.parametrize(("excerpt", "column", "width", "meant"), PICTURES)
def test_picture(excerpt: str, column: int, width: int, meant: str) -> None:
    text, mark = Place(column=column, excerpt=excerpt, width=width).picture().split("\n")
    assert text[mark.index("^") : mark.rindex("^") + 1] == meant
    assert len(text) <= 110


def test_no_picture_without_a_column() -> None:
    assert Place(file="x", line=3, excerpt="abc").picture() == ""


def test_an_error_moves_with_its_text_and_keeps_what_it_knows() -> None:
    error = ChordSymbolError("what", hint="mend", start=1, end=3)
    moved = error.moved(10, place=Place(bar=2, beat="3"), field="changes")
    assert isinstance(moved, ChordSymbolError)
    assert (moved.message, moved.hint, moved.start, moved.end, moved.field) == (
        "what",
        "mend",
        11,
        13,
        "changes",
    )
    placed = moved.at(Place(file="a.toml", line=4, column=7))
    assert (str(placed.place), placed.field) == ("a.toml:4:7  bar 2, beat 3", "changes")
    assert placed.moved(5).place == placed.place


def test_the_cause_of_an_error_stays() -> None:
    error = NotationError("what")
    error.__cause__ = cause = ValueError("why")
    assert error.moved(3).__cause__ is cause
    assert error.at(Place(file="a")).__cause__ is cause


@pytest.mark.parametrize(("text", "said"), [("abc", "abc"), ("a\n b", "a b"), ("x" * 41, "x" * 39 + "…")])
def test_words_as_messages_quote_them(text: str, said: str) -> None:
    assert shown(text) == said
