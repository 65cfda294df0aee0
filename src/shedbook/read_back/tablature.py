"""The figures of tablature under a staff: which fret stands on which string, and where."""

from __future__ import annotations

from typing import NamedTuple

from shedbook.read_back.ink import Glyph
from shedbook.read_back.staves import System

_UNDER_STAFF = 4.5
_LEAST_PIECE = 0.2
_SMALL_EM = 1.5
"""Figures with a smaller em, in spaces, belong to grace notes."""
_DIGIT = 0.497
"""The width of a digit in em: all digits of the face are as wide as one another."""
_MIDDLE = 0.33
"""How far the middle of a figure lies over its base line, in em: half the height of a digit."""


class ReadFret(NamedTuple):
    """A figure: the abscissa of its middle in spaces, its string from 1, the fret; whether it is small.

    `bracketed` says that it stands in brackets, as where a tied note opens a bar.
    """

    x: float
    string: int
    fret: int
    small: bool
    bracketed: bool


def frets_of(system: System) -> list[ReadFret]:
    """Return the figures of a system from left to right; none where there is no tablature.

    A figure that stands on no line gets the string 0.
    """
    lines = _lines(system)
    if not lines:
        return []
    figures = sorted(
        (
            glyph
            for glyph in system.glyphs
            if glyph.font == "sans-semibold" and glyph.y > _UNDER_STAFF and glyph.name in "0123456789()"
        ),
        key=lambda glyph: (round(glyph.y, 1), glyph.x),
    )
    words: list[list[Glyph]] = []
    for glyph in figures:
        last = words[-1][-1] if words else None
        reach = 1000 * glyph.size * 0.62
        goes_on = last is not None and last.name != ")" and glyph.name != "("
        if last is not None and goes_on and abs(last.y - glyph.y) < 0.1 and glyph.x - last.x < reach:
            words[-1].append(glyph)
        else:
            words.append([glyph])
    found = [_fret(word, lines) for word in words if any(glyph.name.isdigit() for glyph in word)]
    return sorted(found, key=lambda one: one.x)


def _lines(system: System) -> list[float]:
    """Return the heights of the lines, the first string's first."""
    ys = sorted(
        stroke.y1
        for stroke in system.strokes
        if abs(stroke.y1 - stroke.y2) < 0.02
        and stroke.y1 > _UNDER_STAFF
        and 0.13 < stroke.width < 0.2
        and abs(stroke.x1 - stroke.x2) > _LEAST_PIECE
    )
    found: list[float] = []
    for y in ys:
        if not found or y - found[-1] > 0.1:
            found.append(y)
    return found if len(found) >= 3 else []


def _fret(word: list[Glyph], lines: list[float]) -> ReadFret:
    digits = [glyph for glyph in word if glyph.name.isdigit()]
    em = 1000 * digits[0].size
    middle = digits[0].y - _MIDDLE * em
    line = min(range(len(lines)), key=lambda index: abs(lines[index] - middle))
    string = line + 1 if abs(lines[line] - middle) < 0.3 else 0
    return ReadFret(
        (digits[0].x + digits[-1].x + _DIGIT * em) / 2,
        string,
        int("".join(glyph.name for glyph in digits)),
        em < _SMALL_EM,
        len(digits) < len(word),
    )
