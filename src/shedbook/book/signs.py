"""Flats and sharps in printed words: names of progressions have them as letters. Pure."""

from __future__ import annotations

import re

_SIGNS = {"#": "♯", "b": "♭"}
_NUMERAL = re.compile(r"(?<!\w)([#b])(?=(?:[IV]+|[iv]+)(?![a-zA-Z]))")
_TONIC = re.compile(r"(?<=[A-G])[#b]+")


def printed(text: str) -> str:
    """Return a text with real signs before the numerals of its progressions: "I–♯i°–ii" for "I–#i°–ii"."""
    return _NUMERAL.sub(lambda found: _SIGNS[found[1]], text)


def printed_tonic(name: str) -> str:
    """Return "B♭" for "Bb"."""
    return _TONIC.sub(lambda found: "".join(_SIGNS[sign] for sign in found[0]), name)
