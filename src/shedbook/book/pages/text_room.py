"""How much room words take, before they are set: lines by the widths of their letters. Pure.

The typesetter breaks a ragged line at the last word that fits, and so do these; only kerning is not counted,
which moves a word to another line once in some hundred. Who plans with these leaves a line of white.
"""

from __future__ import annotations

import math
import re
from collections.abc import Mapping
from functools import lru_cache
from types import MappingProxyType

from shedbook.book.pages.tables.letter_widths import LETTER_WIDTHS

POINT_MM = 25.4 / 72
_BREAKS = re.compile(r"[ \t\n]+")
"""Where a line may break: not at a no-break space."""
_UNKNOWN = 600
"""The width that a letter has which is in no table, in thousandths of an em."""
_WIDTHS: Mapping[str, Mapping[str, int]] = MappingProxyType(
    {
        face: {letter: width for width, letters in rows for letter in letters}
        for face, rows in LETTER_WIDTHS.items()
    }
)


@lru_cache(maxsize=8192)
def width_mm(text: str, size_pt: float, face: str = "serif") -> float:
    """Return how wide a text is on one line, in millimetres."""
    widths = _WIDTHS[face]
    return sum(widths.get(letter, _UNKNOWN) for letter in text) / 1000 * size_pt * POINT_MM


def lines_of(text: str, line_mm: float, size_pt: float, face: str = "serif") -> int:
    """Return how many lines a paragraph takes, set ragged in a line of `line_mm`."""
    space = width_mm(" ", size_pt, face)
    count, taken = 0, math.inf
    for word in _BREAKS.split(text.strip()) if text.strip() else ():
        wide = width_mm(word, size_pt, face)
        if taken + space + wide > line_mm:
            count, taken = count + 1, wide
        else:
            taken += space + wide
    return count
