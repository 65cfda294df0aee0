"""The degrees under the notes of a system, as text: figures of the plain face, with their signs."""

from __future__ import annotations

from typing import NamedTuple

from shedbook.read_back.ink import Glyph
from shedbook.read_back.staves import System

_SIGNS = {"E260": "b", "E262": "#", "E263": "##", "E264": "bb"}
_UNDER_STAFF = 4.2
_DIGIT = 0.497
"""The width of a digit in em: all digits of the face are as wide as one another."""
_NEXT_DIGIT = 0.58
"""Two digits of one number stand nearer than this, in em, two degrees farther apart."""
_SIGN_EM, _SIGN_RISE = 1.0, 0.6
"""How far a sign may stand before its figure, and over the base line of that, in spaces."""


class ReadDegree(NamedTuple):
    """A degree: the abscissa of the middle of its figures in spaces, and its text, such as "b9"."""

    x: float
    text: str


def degrees_of(system: System) -> list[ReadDegree]:
    """Return the degrees of a system from left to right."""
    figures = sorted(
        (
            glyph
            for glyph in system.glyphs
            if glyph.font == "sans" and glyph.name in "0123456789" and glyph.y > _UNDER_STAFF
        ),
        key=lambda glyph: glyph.x,
    )
    signs = [
        glyph
        for glyph in system.glyphs
        if glyph.font == "music in words" and glyph.name in _SIGNS and glyph.y > _UNDER_STAFF
    ]
    numbers: list[list[Glyph]] = []
    for figure in figures:
        em = 1000 * figure.size
        last = numbers[-1][-1] if numbers else None
        if last is not None and figure.x - last.x < _NEXT_DIGIT * em and not _signs_of(figure, signs):
            numbers[-1].append(figure)
        else:
            numbers.append([figure])
    return [_degree(number, signs) for number in numbers]


def _signs_of(figure: Glyph, signs: list[Glyph]) -> list[Glyph]:
    """Return the signs right before a figure, from left to right."""
    found: list[Glyph] = []
    x = figure.x
    for sign in sorted(signs, key=lambda glyph: -glyph.x):
        if 0 < x - sign.x < _SIGN_EM and 0 <= figure.y - sign.y < _SIGN_RISE:
            found.insert(0, sign)
            x = sign.x
    return found


def _degree(number: list[Glyph], signs: list[Glyph]) -> ReadDegree:
    before = _signs_of(number[0], signs)
    text = "".join([*(_SIGNS[sign.name] for sign in before), *(figure.name for figure in number)])
    left = before[0].x if before else number[0].x
    return ReadDegree((left + number[-1].x + _DIGIT * 1000 * number[-1].size) / 2, text)
