"""How arguments are read that name a file or a folder to write, or several things in one list."""

from __future__ import annotations

import argparse
from pathlib import Path


def named_path(text: str) -> Path:
    """Return the path that an argument names.

    Raises:
        argparse.ArgumentTypeError: if the text is empty, which would mean the folder in which one works.
    """
    if not text.strip():
        raise argparse.ArgumentTypeError('"" names no file or folder')
    return Path(text)


def names_in(text: str) -> tuple[str, ...]:
    """Return the names in a list with commas or spaces, each once, in order."""
    return tuple(dict.fromkeys(text.replace(",", " ").split()))
