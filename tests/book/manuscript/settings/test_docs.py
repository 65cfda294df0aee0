"""The page on the manuscript says what the tables and the readers say."""

from __future__ import annotations

import re
import tomllib
from pathlib import Path

import pytest

from shedbook.book.manuscript.settings.whole_book import BOOK_FIELDS
from shedbook.phrase.fields import phrase_from_fields
from shedbook.phrase.line_text import parse_line, print_line
from shedbook.phrase.model import MARKS
from shedbook.phrase.tables.feels import FEELS
from shedbook.phrase.tables.fields import FIELDS, FieldRow
from shedbook.phrase.value_text import PARTS
from shedbook.theory.metre import Metre

PAGE = (Path(__file__).parents[4] / "docs/manuscript.md").read_text(encoding="utf-8")


def rows(columns: int) -> list[tuple[str, ...]]:
    """Return the rows of all tables of so many columns; "\\|" in a cell is a bar line."""
    found = []
    for line in PAGE.splitlines():
        cells = [cell.strip().replace("\\|", "|") for cell in re.split(r"(?<!\\)\|", line)[1:-1]]
        if len(cells) == columns and not set(cells[0]) <= set("-"):
            found.append(tuple(cells))
    return found


def documented(file: str) -> list[tuple[str, ...]]:
    return [row for row in rows(5) if row[0] == file]


@pytest.mark.parametrize(("file", "table"), [("manuscript.toml", BOOK_FIELDS), ("phrase", FIELDS)])
def test_every_key_stands_in_the_table_and_the_reverse(file: str, table: tuple[FieldRow, ...]) -> None:
    expected = [
        (
            file,
            f"`{row.name}`",
            row.form,
            "must stand" if row.needed else row.default or "nothing",
            row.meaning,
        )
        for row in table
    ]
    assert documented(file) == expected


def test_every_feel_stands_in_the_table() -> None:
    expected = [(f"`{row.name}`", ", ".join(row.aliases), row.meaning) for row in FEELS]
    start = rows(3).index(("feel", "also", "what players do")) + 1
    assert rows(3)[start : start + len(expected)] == expected


def test_values_and_marks_are_listed() -> None:
    assert f"`{' '.join(f'1/{part}' for part in PARTS)}`" in PAGE
    assert ", ".join(f"`{mark}`" for mark in MARKS) in PAGE


def test_the_examples_of_the_normal_form() -> None:
    section = PAGE.partition("### The normal form")[2].partition("\n###")[0]
    examples = [row for row in rows(2) if row[0] in section.replace("\\|", "|") and row[0] != "typed"]
    assert len(examples) >= 4
    for typed, normal in examples:
        assert print_line(parse_line(typed.strip("`"), Metre())) == normal.strip("`")


def test_the_examples_in_toml_make_a_phrase() -> None:
    blocks = [tomllib.loads(block) for block in re.findall(r"```toml\n(.*?)```", PAGE, re.DOTALL)]
    changes, scales, line = blocks
    phrase_from_fields({**changes, "line": "1/1 - | - | - | -"})
    phrase = phrase_from_fields({**scales, **line})
    assert phrase.bars[0].number == 0
    assert [str(scale) for scale in phrase.scales[3:]] == ["C half-whole diminished", "F lydian", "F lydian"]
