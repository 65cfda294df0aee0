"""How languages set quotation marks and apostrophes. Row format: see `QuoteRow`.

Sources: the usual typography of each language as the Unicode Standard, chapter 6.2, and the Unicode CLDR
delimiters give it (from memory).
"""

from __future__ import annotations

from typing import NamedTuple


class QuoteRow(NamedTuple):
    """A language's marks: outer and inner pair, and whether a dash between words has spaces about it."""

    language: str
    opening: str
    closing: str
    inner_opening: str
    inner_closing: str
    dash: str


QUOTES: tuple[QuoteRow, ...] = (
    QuoteRow("en", "“", "”", "‘", "’", " – "),
    QuoteRow("de", "„", "“", "‚", "‘", " – "),
    QuoteRow("fr", "«\u202f", "\u202f»", "“", "”", " – "),
    QuoteRow("es", "«", "»", "“", "”", " – "),
    QuoteRow("pt", "“", "”", "‘", "’", " – "),
)
