"""Flats and sharps in printed words: texts and names of progressions have them as letters. Pure."""

from __future__ import annotations

import re
from functools import lru_cache
from itertools import product

from shedbook.analysis.naming.language import Words

_SIGNS = {"#": "♯", "b": "♭"}
_NUMERAL = re.compile(r"(?<!\w)([#b])(?=(?:[IV]+|[iv]+)(?![a-zA-Z]))")
_TONIC = re.compile(r"(?<=[A-G])[#b]+")
SYMBOL = re.compile(
    r"(?<![\w#♯♭])[A-G][#b♯♭]?"
    r"(?:maj|min|dim|aug|sus|add|alt|mi|ma|m|M|h|o|°|ø|Δ|\+|−|-|\d|[#b♯♭]\d|\([^()\s]*\))*"
    r"(?:/[A-G][#b♯♭]?)?(?![\w#♯♭])"
)
"""A chord symbol or the name of a note, with no letter before or behind that would make it a word."""
_ALTERED = re.compile(r"(?<=[A-G])[#b]|[#b](?=\d)")
_DEGREE = re.compile(r"(?<![\w♯♭#])([#b]{1,2})(?=\d{1,2}(?!\w))")
_SLASH = re.compile(r"(?<=[\w♭♯)])/(?=[A-G][♭♯]?(?!\w))")
"""The slash of a chord over a bass."""
_SIGN = re.compile(r"#|b(?=\d|[IV]|[iv]|b|$)|(?<=^[A-G])b")
_JOIN, _NO_BREAK = "\u2060", "\u00a0"


def printed(text: str) -> str:
    """Return a text in which flats and sharps before Roman numerals are signs.

    "I–♯i°–ii" is printed for "I–#i°–ii"; letters that stand elsewhere are left alone.
    """
    return _NUMERAL.sub(lambda found: _SIGNS[found[1]], text)


def printed_signs(text: str) -> str:
    """Return a chord symbol, a degree or a numeral with real signs: "m7♭5" for "m7b5"."""
    return _SIGN.sub(lambda found: _SIGNS[found[0]], text)


def printed_tonic(name: str) -> str:
    """Return "B♭" for "Bb"."""
    return _TONIC.sub(lambda found: _signs(found[0]), name)


def printed_prose(text: str, words: Words) -> str:
    """Return a text with real signs in chord symbols, and no line broken inside a symbol or a note's name.

    "E♭m7♭5" for "Ebm7b5", "♯11" for "#11"; "Ebb" is a word and stays.
    """
    text = _SLASH.sub(f"/{_JOIN}", signed_prose(text))
    return _names(words).sub(lambda found: found[0].replace(" ", _NO_BREAK), text)


def signed_prose(text: str) -> str:
    """Return a text with real signs in chord symbols, names of notes and degrees, for a screen."""
    text = SYMBOL.sub(lambda found: _ALTERED.sub(lambda one: _signs(one[0]), found[0]), printed(text))
    return _DEGREE.sub(lambda found: _signs(found[1]), text)


def _signs(letters: str) -> str:
    return "".join([_SIGNS[letter] for letter in letters])


@lru_cache(maxsize=16)
def _names(words: Words) -> re.Pattern[str]:
    """Return what finds the names of notes that have more than one word."""
    names = {words.note(letter + sign) for letter, sign in product("ABCDEFG", ("", "b", "#", "bb", "##"))}
    longer = sorted((re.escape(name) for name in names if " " in name), key=len, reverse=True)
    return re.compile(rf"(?<!\w)(?:{'|'.join(longer) or '(?!)'})(?!\w)")
