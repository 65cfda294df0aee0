"""What the files of phrases are called: a number, and the words of the title."""

from __future__ import annotations

import re
import unicodedata
from pathlib import Path

from shedbook.errors import OutputError

_LONGEST_NAME = 60
_NUMBERED = re.compile(r"(\d{1,6})")


def file_words(text: str) -> str:
    """Return a text as part of a file's name: small letters, digits and hyphens."""
    named = text.replace("#", " sharp").replace("ß", "ss")
    plain = unicodedata.normalize("NFKD", named).encode("ascii", "ignore").decode().lower()
    words = re.findall(r"[a-z0-9]+", plain.replace("'", ""))
    return "-".join(words)[:_LONGEST_NAME].strip("-") or "phrase"


def next_number(folder: Path) -> tuple[int, int]:
    """Return the next free number for a phrase file, and with how many digits it is written.

    Raises:
        OutputError: if the folder cannot be read.
    """
    try:
        names = [path.name for path in folder.iterdir()] if folder.is_dir() else []
    except OSError as error:
        raise OutputError(f"{folder} cannot be read: {error.strerror}.") from error
    found = [match[1] for name in names if (match := _NUMBERED.match(name))]
    return max(map(int, found), default=0) + 1, max([2, *map(len, found)])
