"""What manuscript.toml says of the pages: marks, order, words. Each setting is one row of `PageSettings`."""

from __future__ import annotations

import datetime
from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from shedbook.book.ground.chord_style import AS_WRITTEN, STYLES, ChordStyle, style_of
from shedbook.book.ground.words import WORD_NAMES, refused_row, words_of
from shedbook.book.manuscript.settings.layout import LayoutSettings
from shedbook.book.manuscript.settings.rows import group, row
from shedbook.errors import nearest, shown
from shedbook.phrase.toml_values import flag, one_of, refuse, text_list, text_table, text_value, whole_number

NO_MARKS, SPARSE, ALL = "none", "sparse", "all"
MARKS = (NO_MARKS, SPARSE, ALL)
"""How many study marks a page has."""

SCALES, DEGREES = "scales", "degrees"
BY_PHRASE, BY_KEY = "phrases", "keys"
ARRANGEMENTS = (BY_PHRASE, BY_KEY)
"""One phrase in all keys, or one key with all phrases."""

BY_PROGRESSION, BY_SCALE, UNDIVIDED = "progression", "scale", "none"
PARTS = (BY_PROGRESSION, BY_SCALE, UNDIVIDED)
"""By what a book may be divided."""

_MOST_SAMPLE = 999


@dataclass(frozen=True, slots=True)
class MarkChoice:
    """Which study marks are printed: names of scales, degrees under the notes.

    `sparse` means that degrees stand only where the line lands and where the text speaks of a note.
    """

    scales: bool = True
    degrees: bool = True
    sparse: bool = True


SPARSE_MARKS = MarkChoice()
"""The marks of a book that does not say which it wants."""


# Readers: each takes the key, its value in TOML, and the settings that its row says it needs.


def _arrangement(key: str, value: object) -> str:
    return one_of(key, text_value(key, value, f'"{BY_PHRASE}"'), ARRANGEMENTS, "an arrangement")


def _parts(key: str, value: object) -> str:
    return one_of(key, text_value(key, value, f'"{UNDIVIDED}"'), PARTS, "a division of the book")


def _marks(key: str, value: object) -> MarkChoice:
    """Return the marks: true means sparse, false none; a list names those that are printed, all of each."""
    if isinstance(value, bool):
        return MarkChoice(value, value, value)
    names = text_list(key, value, '["scales", "degrees"]')
    if len(names) == 1 and names[0] in MARKS:
        some = names[0] != NO_MARKS
        return MarkChoice(some, some, names[0] == SPARSE)
    chosen = [one_of(key, name, (*MARKS, SCALES, DEGREES), "a study mark") for name in names]
    if any(name in MARKS for name in chosen):
        refuse(key, f'"{key}" says two things at once.', 'Write "sparse", or ["scales", "degrees"].')
    return MarkChoice(SCALES in chosen, DEGREES in chosen, False)


def _chord_style(key: str, value: object) -> ChordStyle:
    if isinstance(value, dict):
        pairs = dict(text_table(key, value, '{ "major seventh" = "Δ" }'))
    else:
        name = text_value(key, value, '"letters"')
        if not name:
            return AS_WRITTEN
        pairs = dict(STYLES[one_of(key, name, tuple(STYLES), "a style of chord symbols")])
    try:
        return style_of(pairs)
    except ValueError as error:
        refuse(key, f"{error}", 'Write "letters" or "signs", or one form for each: { minor = "−" }.')


def _words(key: str, value: object, language: str) -> tuple[tuple[str, str], ...]:
    pairs = text_table(key, _flat(value), '{ contents = "Contents" }')
    usual = words_of(language)
    for name, text in pairs:
        if name not in WORD_NAMES:
            hint = nearest(name, WORD_NAMES) or "The page on languages lists them."
            refuse(f"{key}.{name}", f'"{shown(name)}" is not a word of the book.', hint)
        message, hint = refused_row(name, text, usual.table[name])
        if message:
            refuse(f"{key}.{name}", message, hint)
    return pairs


def _flat(value: object) -> object:
    """Return a table without tables in it: a key that was written as advice.keys is "advice.keys"."""
    if not isinstance(value, dict):
        return value
    return dict(_pairs(value))


def _pairs(table: Mapping[str, object], before: str = "") -> Iterator[tuple[str, object]]:
    for name, value in table.items():
        if isinstance(value, dict):
            yield from _pairs(value, f"{before}{name}.")
        else:
            yield f"{before}{name}", value


def _date(key: str, value: object) -> tuple[int, ...]:
    if isinstance(value, datetime.date) and not isinstance(value, datetime.datetime):
        return value.year, value.month, value.day
    text = text_value(key, value, '"2026-05-01"')
    if not text:
        return ()
    try:
        found = datetime.date.fromisoformat(text)
    except ValueError:
        refuse(key, f'"{text}" is not a date.', 'Write year, month and day: "2026-05-01".')
    return found.year, found.month, found.day


def read_sample(value: object) -> int:
    """Return how many phrases a sample has.

    Raises:
        ManuscriptError: if the value is no whole number from 1 to 999.
    """
    return whole_number("sample", value, 1, _MOST_SAMPLE)


# The table.


@dataclass(frozen=True, slots=True)
class PageSettings:
    """How the pages look, apart from their size: a part of the table of the keys of manuscript.toml.

    `words` are the author's own in place of fixed ones. `date` is year, month, day, or empty.
    """

    large_print: bool = row(False, flag, "true or false", "false", "staff and text half as large again")
    marks: MarkChoice = row(
        SPARSE_MARKS, _marks, "text or list", "sparse",
        'marks for study: "none", "sparse", "all", or a choice of ["scales", "degrees"]', key="study_marks",
    )  # fmt: skip
    own_staves: bool = row(
        True, flag, "true or false", "true", "empty staves after a phrase for the reader's own line"
    )
    chord_style: ChordStyle = row(
        AS_WRITTEN, _chord_style, "text or table", "as you wrote each",
        'one way of writing chord symbols: "letters", "signs", or a form for each quality',
    )  # fmt: skip
    parts: str = row(
        UNDIVIDED, _parts, "text", "none", 'what divides the book: "progression", "scale" or "none"'
    )
    arrange: str = row(
        BY_PHRASE, _arrangement, "text", "phrases",
        'one phrase in all keys, "phrases", or one key with all phrases, "keys"',
    )  # fmt: skip
    layout: LayoutSettings = group(LayoutSettings)
    date: tuple[int, ...] = row((), _date, "text or date", "", 'the day of publication: "2026-05-01"')
    words: tuple[tuple[str, str], ...] = row(
        (), _words, "table of texts", "", "your own words in place of fixed ones, by their names",
        needs=("language",),
    )  # fmt: skip
