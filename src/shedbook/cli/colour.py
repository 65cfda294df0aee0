"""Colour for a few words on a terminal that shows it, and where the reader has not asked for none.

Source: the convention of the variable NO_COLOR (any text but the empty one turns colour off); ECMA-48,
8.3.117 for the codes.
"""

from __future__ import annotations

import os
from collections.abc import Mapping
from types import MappingProxyType
from typing import TextIO

_CODES: Mapping[str, str] = MappingProxyType({"error": "31", "warning": "33", "advice": "36", "ok": "32"})
"""What is coloured: red, yellow, cyan and green, which a terminal keeps readable on its own ground."""


def coloured(text: str, kind: str, stream: TextIO) -> str:
    """Return the text as the stream shows it.

    Args:
        text: what is printed.
        kind: "error", "warning", "advice" or "ok"; another kind has no colour.
        stream: where it is printed.
    """
    code = _CODES.get(kind)
    return f"\x1b[{code}m{text}\x1b[0m" if code and _shows_colour(stream) else text


def _shows_colour(stream: TextIO) -> bool:
    return stream.isatty() and not os.environ.get("NO_COLOR") and os.environ.get("TERM") != "dumb"
