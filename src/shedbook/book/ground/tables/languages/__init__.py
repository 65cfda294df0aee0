"""The tables of words of the languages that ship beside English, a module a language."""

from __future__ import annotations

from typing import NamedTuple

from shedbook.book.ground.tables.languages import (
    de,
    es,
    fr,
    practice_de,
    practice_es,
    practice_fr,
    practice_pt,
    pt,
)


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
    "de": Shipped({**de.WORDS, **practice_de.WORDS}, de.PENDING, de.SAME | practice_de.SAME),
    "es": Shipped({**es.WORDS, **practice_es.WORDS}, es.PENDING, es.SAME | practice_es.SAME),
    "fr": Shipped({**fr.WORDS, **practice_fr.WORDS}, fr.PENDING, fr.SAME | practice_fr.SAME),
    "pt": Shipped({**pt.WORDS, **practice_pt.WORDS}, pt.PENDING, pt.SAME | practice_pt.SAME),
}
"""The languages, by the first part of their tag."""
