"""The fixed words of the pages, in the book's language, with what the author puts in their place.

Conventions: a `Words` is asked by the names of `tables.words`; names in braces are filled in.
"""

from __future__ import annotations

import re
import string
from collections.abc import Iterable, Mapping
from functools import lru_cache

from shedbook.analysis.naming.language import Words
from shedbook.analysis.naming.tables.wording import WORDING
from shedbook.book.ground.languages import LANGUAGES
from shedbook.book.ground.tables.words import ENGLISH, IN_FINDINGS, IN_SCORES, LISTS
from shedbook.editions.tables.editions import EDITIONS, EditionRow
from shedbook.editions.tables.instruments import CLEFS, ClefRow
from shedbook.errors import nearest
from shedbook.table_index import need
from shedbook.theory.interval import UNISON, Interval

__all__ = [
    "EN",
    "WORD_NAMES",
    "Words",
    "gaps",
    "in_findings",
    "in_scores",
    "inside",
    "language_of_words",
    "opened",
    "refused_row",
    "words_of",
]

WORD_NAMES = tuple(ENGLISH)


def in_scores(name: str) -> bool:
    """Say whether a row is shown in or with a score, or in the explanation; others stand on pages alone."""
    return name in WORDING or name.startswith(IN_SCORES)


def in_findings(name: str) -> bool:
    """Say whether a row is used in what the proof-reader says."""
    return in_scores(name) or name.startswith(IN_FINDINGS)


def has_table(language: str) -> bool:
    """Say whether there is a table of words for a language, a tag such as "en" or "pt-BR"."""
    return _primary(language) in LANGUAGES


def _primary(tag: str) -> str:
    return tag.partition("-")[0].lower()


def words_of(language: str, own: Mapping[str, str] | None = None) -> Words:
    """Return the words of a language, English where there is no table for it, with the author's own.

    `language` is a tag such as "en" or "pt-BR". That a book is printed with English words though it is in
    another language is a finding of `book.manuscript.translation`.
    """
    table = LANGUAGES[language_of_words(language)]
    rows = {} if table is ENGLISH else dict(table)
    chosen = (*rows.items(), *(own or {}).items())
    return _words(chosen) if chosen else EN


def language_of_words(language: str) -> str:
    """Return the first part of a language's tag where there is a table for it, else "en"."""
    tag = language.partition("-")[0].lower()
    return tag if tag in LANGUAGES else "en"


@lru_cache(maxsize=16)
def _words(rows: tuple[tuple[str, str], ...]) -> Words:
    """Return the English words with other rows in place of some; the same for the same rows, and kept."""
    return Words({**ENGLISH, **dict(rows)})


_PLAIN = re.compile(r"(?:lower )?(\w+)")
"""A gap: its name, and whether it begins with a small letter."""
_FORM = re.compile(r"(?:lower )?(\w+)(?: [2-9])?")
"""A gap of a sentence, which may ask for another form of what fills it."""
MOST_NUMBERS = 100
"""How many words a list of numbers may have: a language may write them all out."""


def gaps(text: str) -> frozenset[str]:
    """Return the names in braces that a word has, as they stand; raises ValueError for unpaired braces."""
    found = set()
    for _, name, form, conversion in string.Formatter().parse(text):
        if name is not None:
            found.add(name + (f"!{conversion}" if conversion else "") + (f":{form}" if form else ""))
    return frozenset(found)


def refused_row(name: str, text: str, usual: str) -> tuple[str, str]:
    """Return why a text cannot stand in place of a row, and what to do; two empty texts if it can.

    `usual` is the row in the book's language; what it may have in braces is what the English one has.
    """
    english = ENGLISH.get(name, usual)
    try:
        asked = gaps(text)
    except ValueError:
        return f'The braces of "{name}" do not pair.', "Write names in braces: {n}."
    forms = _FORM if name.startswith(("tell.", "finding.")) or name == "placed" else _PLAIN
    known = {gap.removeprefix("lower ") for gap in gaps(english)}
    extra = {gap for gap in asked if not (one := forms.fullmatch(gap)) or one[1] not in known}
    if extra:
        wrong = min(extra)
        near = nearest(wrong, sorted(known))
        return f'"{name}" has nothing to fill in for {{{wrong}}}.', f"{near} It is usually: {usual}".strip()
    number, found = len(english.split(" ")), len(text.split(" "))
    if name in LISTS and not number <= found <= (MOST_NUMBERS if name == "numbers" else number):
        return (
            f'"{name}" is a list of {number} words, but has {found}.',
            "Divide them by spaces; a word may have no space in it.",
        )
    return "", ""


def check_names(table: Mapping[str, str], editions: Iterable[EditionRow], clefs: Iterable[ClefRow]) -> None:
    """See that a book has words for every edition for a group, its transposition, and every clef.

    Raises:
        TableError: if one has none.
    """
    needed = [f"clef.{row.clef}" for row in clefs]
    for row in editions:
        needed.append(f"edition.name.{row.name.lower()}")
        above = Interval(*row.written_above).simple
        if above != UNISON:
            needed.append(f"interval.{above.steps}.{above.semitones}")
    for name in needed:
        need(
            name in table,
            f'A book has no word "{name}".',
            f'Write "{name}": "…" into PAGES in src/shedbook/book/ground/tables/words.py, and then make '
            "docs/language.md anew with python -m shedbook.book.ground.language_page.",
        )


check_names(ENGLISH, EDITIONS, CLEFS)

EN = Words(dict(ENGLISH))
"""The English words of a book."""


def inside(text: str, words: Words) -> str:
    """Return a text as it stands in the middle of a sentence."""
    return words("inside", text=text)


def opened(text: str, words: Words) -> str:
    """Return a text as a sentence begins, but not where that is a numeral: iii–VI–ii–V."""
    return text if _NUMERAL.match(text) else words.sentence(text)


_NUMERAL = re.compile(r"[iv]+\b")
