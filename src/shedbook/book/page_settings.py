"""What manuscript.toml says of the pages: paper, marks, order, words."""

from __future__ import annotations

import datetime
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from shedbook.book.chord_style import AS_WRITTEN, STYLES, ChordStyle, style_of
from shedbook.book.parts import PARTS
from shedbook.book.words import WORD_NAMES, refused_row, words_of
from shedbook.errors import nearest, shown
from shedbook.phrase.toml_values import flag, one_of, refuse, text_list, text_table, text_value, whole_number

NO_MARKS, SPARSE, ALL = "none", "sparse", "all"
MARKS = (NO_MARKS, SPARSE, ALL)
"""How many study marks a page has."""

SCALES, DEGREES = "scales", "degrees"
BY_PHRASE, BY_KEY = "phrases", "keys"
ARRANGEMENTS = (BY_PHRASE, BY_KEY)
"""One phrase in all keys, or one key with all phrases."""

_MOST_SAMPLE = 999


@dataclass(frozen=True, slots=True)
class PageSettings:
    """How the pages look, apart from their size.

    `scale_names` and `degrees` say which study marks are printed, `sparse` that degrees stand only where the
    line lands and where the text speaks of a note. `words` are the author's own in place of fixed ones.
    `date` is year, month, day, or empty. `own_staves` asks for empty staves after each phrase.
    """

    large_print: bool = False
    scale_names: bool = True
    degrees: bool = True
    sparse: bool = True
    parts: str = "none"
    arrange: str = BY_PHRASE
    chord_style: ChordStyle = AS_WRITTEN
    own_staves: bool = True
    words: tuple[tuple[str, str], ...] = ()
    date: tuple[int, ...] = ()


USUAL_PAGES = PageSettings()


def read_pages(fields: Mapping[str, Any]) -> PageSettings:
    """Return what a table of settings says of the pages.

    Raises:
        ManuscriptError: for a value that cannot be used; it names the key.
    """
    scale_names, degrees, sparse = _marks(fields.get("study_marks", SPARSE))
    return PageSettings(
        large_print=flag("large_print", fields.get("large_print", False)),
        scale_names=scale_names,
        degrees=degrees,
        sparse=sparse,
        parts=_one("parts", fields, "none", PARTS, "a division of the book"),
        arrange=_one("arrange", fields, BY_PHRASE, ARRANGEMENTS, "an arrangement"),
        chord_style=_chord_style(fields.get("chord_style", "")),
        own_staves=flag("own_staves", fields.get("own_staves", True)),
        words=_words(fields.get("words", {}), str(fields.get("language", "en"))),
        date=_date(fields.get("date", "")),
    )


def _one(field: str, fields: Mapping[str, Any], default: str, choices: tuple[str, ...], kind: str) -> str:
    return one_of(field, text_value(field, fields.get(field, default), f'"{default}"'), choices, kind)


def _marks(value: object) -> tuple[bool, bool, bool]:
    """Return whether scale names and degrees are printed, and whether only some degrees are.

    true means sparse, false none; a list names the marks that are printed, all of each.
    """
    if isinstance(value, bool):
        return value, value, value
    names = text_list("study_marks", value, '["scales", "degrees"]')
    if len(names) == 1 and names[0] in MARKS:
        some = names[0] != NO_MARKS
        return some, some, names[0] == SPARSE
    chosen = [one_of("study_marks", name, (*MARKS, SCALES, DEGREES), "a study mark") for name in names]
    if any(name in MARKS for name in chosen):
        refuse(
            "study_marks",
            '"study_marks" says two things at once.',
            'Write "sparse", or ["scales", "degrees"].',
        )
    return SCALES in chosen, DEGREES in chosen, False


def _chord_style(value: object) -> ChordStyle:
    if isinstance(value, dict):
        pairs = dict(text_table("chord_style", value, '{ "major seventh" = "Δ" }'))
    else:
        name = text_value("chord_style", value, '"letters"')
        if not name:
            return AS_WRITTEN
        pairs = dict(STYLES[one_of("chord_style", name, tuple(STYLES), "a style of chord symbols")])
    try:
        return style_of(pairs)
    except ValueError as error:
        refuse(
            "chord_style", f"{error}", 'Write "letters" or "signs", or one form for each: { minor = "−" }.'
        )


def _words(value: object, language: str) -> tuple[tuple[str, str], ...]:
    pairs = text_table("words", _flat(value), '{ contents = "Contents" }')
    usual = words_of(language)
    for name, text in pairs:
        if name not in WORD_NAMES:
            hint = nearest(name, WORD_NAMES) or "The page on languages lists them."
            refuse(f"words.{name}", f'"{shown(name)}" is not a word of the book.', hint)
        message, hint = refused_row(name, text, usual.table[name])
        if message:
            refuse(f"words.{name}", message, hint)
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


def _date(value: object) -> tuple[int, ...]:
    if isinstance(value, datetime.date) and not isinstance(value, datetime.datetime):
        return value.year, value.month, value.day
    text = text_value("date", value, '"2026-05-01"')
    if not text:
        return ()
    try:
        found = datetime.date.fromisoformat(text)
    except ValueError:
        refuse("date", f'"{text}" is not a date.', 'Write year, month and day: "2026-05-01".')
    return found.year, found.month, found.day


def read_sample(value: object) -> int:
    """Return how many phrases a sample has."""
    return whole_number("sample", value, 1, _MOST_SAMPLE)
