"""How arguments are read that name a file or a folder to write, or several things in one list."""

from __future__ import annotations

import argparse
from pathlib import Path

from shedbook.phrase.fields import FASTEST_BPM, SLOWEST_BPM
from shedbook.theory.metre import Metre


def named_path(text: str) -> Path:
    """Return the path that an argument names.

    Raises:
        argparse.ArgumentTypeError: if the text is empty, which would mean the folder in which one works.
    """
    if not text.strip():
        raise argparse.ArgumentTypeError('"" names no file or folder')
    return Path(text)


def tempo_of(text: str) -> int:
    """Return a tempo, a whole number of beats a minute.

    Raises:
        argparse.ArgumentTypeError: if the text is none that anybody plays.
    """
    if not text.isdecimal() or not SLOWEST_BPM <= int(text[:6]) <= FASTEST_BPM:
        raise argparse.ArgumentTypeError(
            f'"{text[:20]}" is no tempo: write a whole number from {SLOWEST_BPM} to {FASTEST_BPM}'
        )
    return int(text)


def second_of(text: str) -> float:
    """Return a second of a recording, from 0.

    Raises:
        argparse.ArgumentTypeError: if the text is none.
    """
    try:
        second = float(text)
    except ValueError:
        second = -1.0
    if not 0 <= second <= 36_000:
        raise argparse.ArgumentTypeError(f'"{text[:20]}" is no second of a recording: write a number from 0')
    return second


def metre_of(text: str) -> Metre:
    """Return a metre.

    Raises:
        argparse.ArgumentTypeError: if the text is none.
    """
    try:
        return Metre.parse(text)
    except ValueError:
        raise argparse.ArgumentTypeError(f'"{text[:20]}" is no metre: write one such as 4/4 or 6/8') from None


def names_in(text: str) -> tuple[str, ...]:
    """Return the names in a list with commas or spaces, each once, in order."""
    return tuple(dict.fromkeys(text.replace(",", " ").split()))
