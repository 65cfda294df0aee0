"""ABC notation is not read: this module only recognises it, so that its owner is told what to do.

No library for it was found that reads it well enough (docs/exchange.md says what was looked at).
"""

from __future__ import annotations

import re

from shedbook.errors import ReadError

_LOOKED_AT = 4096
_TUNE = re.compile(rb"\A(?:\xef\xbb\xbf)?%abc\b|^X:[ \t]*[0-9]+[ \t\r]*$", re.MULTILINE)
_KEY = re.compile(rb"^K:", re.MULTILINE)


def is_abc(data: bytes) -> bool:
    """Tell whether bytes begin as ABC notation does: with its version or a tune's number, and a key."""
    head = data[:_LOOKED_AT]
    if head.lstrip().startswith(b"<"):
        return False
    return _TUNE.search(head) is not None and _KEY.search(head) is not None


def refuse_abc(data: bytes, name: str) -> None:
    """Raise the error that an author of ABC needs.

    Raises:
        ReadError: if the bytes are ABC notation.
    """
    if is_abc(data):
        raise ReadError(
            f"{name} is ABC notation, which is not read.",
            hint="Convert it to MusicXML with the program you write ABC with, and import that.",
        )
