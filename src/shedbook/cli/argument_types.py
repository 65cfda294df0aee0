"""Arguments that name something: a file or a folder to write, or several things in one list."""

from __future__ import annotations

import argparse
from pathlib import Path


def named_path(text: str) -> Path:
    """Return the path that an argument names; an empty one would mean the folder one stands in.

    Raises:
        argparse.ArgumentTypeError: if it names nothing.
    """
    if not text.strip():
        raise argparse.ArgumentTypeError('"" names no file or folder')
    return Path(text)


def names_in(text: str) -> tuple[str, ...]:
    """Return what is named in a list with commas or spaces, each once."""
    return tuple(dict.fromkeys(text.replace(",", " ").split()))
