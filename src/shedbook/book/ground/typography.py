"""Typed quotation marks, apostrophes, dashes and dots as a printer sets them, by language. Pure.

What is printed already, such as “ or –, stays. A straight mark opens where white or a bracket stands before
it.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from types import MappingProxyType

from shedbook.book.ground.tables.quotation_marks import QUOTES, QuoteRow

_ROWS: Mapping[str, QuoteRow] = MappingProxyType({row.language: row for row in QUOTES})
_OPENS = r"(?:(?<=^)|(?<=[\s(\[–—«“„‘‚*_]))"
_DOUBLE_OPENS = re.compile(rf'{_OPENS}"(?=\S)')
_SINGLE_OPENS = re.compile(rf"{_OPENS}'(?=\S[^'\n]*'(?!\w))")
_ELISION = re.compile(r"(?<=\w)'(?=\w)|(?<=\s)'(?=\d\d)")
_DASH = re.compile(r" (?:--?|—) |(?<=\w)--(?=\w)")
_RANGE = re.compile(r"(?<![\w-])(\d{1,4})-(\d{1,4})(?![\w-])")


def typeset(text: str, language: str = "en") -> str:
    """Return a text with the marks of a language, by its tag such as "pt-BR"; English where it is unknown."""
    row = _ROWS.get(language.partition("-")[0].lower(), _ROWS["en"])
    if '"' in text:
        text = _DOUBLE_OPENS.sub(row.opening, text).replace('"', row.closing)
    if "'" in text:
        text = _ELISION.sub("’", text)
        while (opened := _SINGLE_OPENS.search(text)) is not None:
            end = text.index("'", opened.end())
            while "'" in text[end + 1 :] and end + 1 < len(text) and text[end + 1].isalnum():
                end = text.index("'", end + 1)
            inside = text[opened.end() : end]
            text = f"{text[: opened.start()]}{row.inner_opening}{inside}{row.inner_closing}{text[end + 1 :]}"
        text = text.replace("'", "’")
    if "-" in text or "—" in text:
        text = _RANGE.sub("\\1–\\2", _DASH.sub(row.dash, text))
    return text.replace("...", "…")
