"""The tables of words of the languages that ship beside English: a module each, loaded when it is used."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from functools import cache
from importlib import import_module
from typing import NamedTuple

from shedbook.book.ground.tables import lesson_words
from shedbook.book.ground.tables.bundle_words import BUNDLE


class Shipped(NamedTuple):
    """The table of one language.

    Attributes:
        words: every row of the English table, in this language.
        pending: rows that are used only where the English table has them.
        same: names of the rows that are in this language what they are in English, such as "blues".
    """

    words: dict[str, str]
    pending: dict[str, str]
    same: frozenset[str]


_TAGS = ("de", "es", "fr", "pt")
"""The languages, by the first part of their tag; each has a module of that name here.

Beside it stand one for the words of the student's page and one for what the proof-reader says.
"""


@cache
def _loaded(tag: str) -> Shipped:
    book, page = import_module(f"{__name__}.{tag}"), import_module(f"{__name__}.practice_{tag}")
    found = import_module(f"{__name__}.findings_{tag}")
    words = book.WORDS | getattr(lesson_words, tag.upper()) | BUNDLE[tag] | page.WORDS | found.WORDS
    return Shipped(words, book.PENDING, book.SAME.union(lesson_words.SAME[tag], page.SAME, found.SAME))


class _Tables(Mapping[str, Shipped]):
    """The tables by language: a book needs one of them at most, and all four take 10 ms to load."""

    def __getitem__(self, tag: str) -> Shipped:
        if tag not in _TAGS:
            raise KeyError(tag)
        return _loaded(tag)

    def __iter__(self) -> Iterator[str]:
        return iter(_TAGS)

    def __len__(self) -> int:
        return len(_TAGS)

    def __contains__(self, tag: object) -> bool:
        return tag in _TAGS


SHIPPED: Mapping[str, Shipped] = _Tables()
"""The languages, by the first part of their tag."""
