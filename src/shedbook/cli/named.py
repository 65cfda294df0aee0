"""Arguments that name a file or a folder to write."""

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
