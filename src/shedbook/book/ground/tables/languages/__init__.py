"""The tables of words of the languages that ship beside English, a module a language."""

from __future__ import annotations

from typing import NamedTuple

from shedbook.book.ground.tables import lesson_words
from shedbook.book.ground.tables.languages import de, es, fr, pt


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


SHIPPED: dict[str, Shipped] = {
    "de": Shipped(de.WORDS | lesson_words.DE, de.PENDING, de.SAME.union(lesson_words.SAME["de"])),
    "es": Shipped(es.WORDS | lesson_words.ES, es.PENDING, es.SAME.union(lesson_words.SAME["es"])),
    "fr": Shipped(fr.WORDS | lesson_words.FR, fr.PENDING, fr.SAME.union(lesson_words.SAME["fr"])),
    "pt": Shipped(pt.WORDS | lesson_words.PT, pt.PENDING, pt.SAME.union(lesson_words.SAME["pt"])),
}
"""The languages, by the first part of their tag."""
