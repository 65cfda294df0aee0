"""How note names, degrees and sentences are set on a terminal."""

from __future__ import annotations

import re
import textwrap
from collections.abc import Sequence

_FLAT = re.compile(
    r"(?<=\b[A-G])bb?(?![a-z])"  # of a note name: Bb, Ebb, Abm7
    r"|(?:(?<![A-Za-z])|(?<=add))bb?(?=[0-9IV])"  # of a degree or a numeral: b9, 7b5, bVII
    r"|(?<=\b[A-G])b(?=m|maj|dim|sus|add|alt|aug|min|no|omit)"
)


def pretty(text: str) -> str:
    """Return the text with real accidental signs: Bbm7b5 becomes B♭m7♭5. Words are left alone."""
    return _FLAT.sub(lambda found: "♭" * len(found[0]), text).replace("#", "♯")


def columns(*rows: Sequence[str]) -> list[str]:
    """Return rows of equally many items as lines, with each column as wide as its widest item."""
    widths = [max(len(item) for item in column) for column in zip(*rows, strict=True)]
    return [
        "  ".join(pretty(item).ljust(width) for item, width in zip(row, widths, strict=True)).rstrip()
        for row in rows
    ]


def wrapped(text: str, width: int) -> list[str]:
    """Return a sentence in lines of at most `width` characters."""
    return textwrap.wrap(text, width)
