"""The fixed words of the pages, in the book's language, with what the author puts in their place.

Conventions: a `Words` is asked by the names of `tables.words`; names in braces are filled in.
"""

from __future__ import annotations

import string
from collections.abc import Mapping
from dataclasses import dataclass

from shedbook.book.tables.words import ENGLISH, LANGUAGES
from shedbook.theory.pitch import NoteName

WORD_NAMES = tuple(ENGLISH)
_ALTERATIONS = {-2: "double flat", -1: "flat", 1: "sharp", 2: "double sharp"}


@dataclass(frozen=True, slots=True)
class Words:
    """The words of one book."""

    table: Mapping[str, str]

    def __call__(self, name: str, /, **filled: object) -> str:
        """Return a word with its gaps filled.

        Raises:
            KeyError: if the table has no such word.
        """
        text = self.table[name]
        return text.format(**filled) if "{" in text else text

    def has(self, name: str) -> bool:
        """Say whether there is such a word."""
        return name in self.table

    def number(self, number: int) -> str:
        """Return a number in words from 0 to 99, larger ones in figures."""
        units, tens = self.table["numbers"].split(), self.table["tens"].split()
        if number < len(units):
            return units[number]
        if number >= 100:
            return str(number)
        ten, one = divmod(number, 10)
        return self("tens and ones", tens=tens[ten], ones=units[one]) if one else tens[ten]

    def note(self, name: str) -> str:
        """Return "B flat" for "Bb": the text fonts have no flat or sharp sign."""
        if f"note.{name}" in self.table:
            return self.table[f"note.{name}"]
        note = NoteName.parse(name)
        letter = self.table[f"note.{note.letter}"]
        kind = _ALTERATIONS.get(note.alteration)
        return self(f"note.{kind}", letter=letter) if kind else letter

    def key(self, key: str) -> tuple[str, str]:
        """Return ("B flat", "minor") for "Bb minor"."""
        tonic, _, mode = key.partition(" ")
        return self.note(tonic), self.table[f"mode.{mode}"] if mode else ""

    def whole_key(self, key: str) -> str:
        """Return "B flat minor" for "Bb minor"."""
        tonic, mode = self.key(key)
        return self("key", tonic=tonic, mode=mode).strip()


def words_of(language: str, own: Mapping[str, str] | None = None) -> Words:
    """Return the words of a language, English where there is no table for it, with the author's own.

    `language` is a tag such as "en" or "pt-BR".
    """
    table = LANGUAGES.get(language.partition("-")[0].lower(), ENGLISH)
    return Words({**ENGLISH, **table, **(own or {})})


def gaps(text: str) -> frozenset[str]:
    """Return the names in braces that a word has; raises ValueError for braces that do not pair."""
    return frozenset(name for _, name, _, _ in string.Formatter().parse(text) if name is not None)
