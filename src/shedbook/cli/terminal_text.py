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


_HARMFUL = re.compile("[\x00-\x1f\x7f-\x9f\u061c\u200e\u200f\u202a-\u202e\u2066-\u2069\ud800-\udfff]")
"""Control characters, halves of surrogate pairs, and the characters that turn the direction of writing
(Unicode 15, general category Cc and Cs, and UAX #9, table 1)."""


def harmless(text: str, *, lines: bool = False) -> str:
    """Return a text that may come from a stranger's file, its control characters written as escapes.

    Args:
        text: the text, of which a terminal shall show every character and obey none.
        lines: whether it has several lines, so that line breaks and tabs stay.
    """

    def escape(found: re.Match[str]) -> str:
        code = ord(found[0])
        if lines and found[0] in "\n\t":
            return found[0]
        return f"\\x{code:02x}" if code < 256 else f"\\u{code:04x}"

    return _HARMFUL.sub(escape, text)


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
