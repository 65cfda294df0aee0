"""Words, degrees and chord symbols as outlines, so that no font is needed where a score is shown.

Sizes are in drawing units (180 to a staff space). A word holds references to glyphs; the picture defines each
glyph that it uses once.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterable
from dataclasses import dataclass
from functools import lru_cache
from typing import NamedTuple

from shedbook.engrave.tables.chord_sign_outlines import CHORD_SIGN_OUTLINES
from shedbook.engrave.tables.outlines import OUTLINES, Glyph
from shedbook.errors import RenderError
from shedbook.theory.chord_symbol import SymbolParts

_FONT_CODES = {
    "sans": "a",
    "sans-semibold": "b",
    "serif-italic": "i",
    "serif-semibold": "s",
    "music": "m",
    "sign": "g",
}
_ACCIDENTAL_SIGNS = {"b": "♭", "♭": "♭", "#": "♯", "♯": "♯"}
_CHORD_SIGNS = {
    "Δ": "Δ", "△": "Δ", "∆": "Δ", "°": "°", "º": "°", "˚": "°", "ø": "ø", "Ø": "ø", "∅": "ø",
}  # fmt: skip
_SIGN_SIZE = {"Δ": 1.17, "ø": 1.17}
"""By which factor a sign is set larger than the letters beside it; 1 where none is given."""
_ALIKE = str.maketrans("−‒—―‐‑’‘ʼ“”„\u00a0\u202f", "––––--'''\"\"\"  ")
"""Characters, and the one that looks alike and stands in for each where a font does not have it."""
_PLAIN = "sans"
"""The font with the most letters, from which those are taken that another font does not have."""
_CONTOUR = ' stroke="currentColor" stroke-width="18"'

GlyphKey = tuple[str, str]
"""The name of a font, and a character or, in the music font, the name of a glyph."""


@dataclass(frozen=True, slots=True)
class OutlinedWord:
    """Letters set from x = 0 on the base line y = 0.

    Attributes:
        svg: the elements; "{p}" stands for the prefix of ids.
        width: the advance of the whole, in drawing units.
        glyphs: the glyphs that are used, which a picture must define.
    """

    svg: str
    width: float
    glyphs: frozenset[GlyphKey]


class PlacedWord(NamedTuple):
    """A word, and where it begins on its base line."""

    word: OutlinedWord
    x: float
    y: float


@dataclass(frozen=True, slots=True)
class _Piece:
    font: str
    character: str
    x: float
    y: float
    scale: float


def glyph_id(key: GlyphKey) -> str:
    """Return the id of a glyph, without the prefix of the picture."""
    font, character = key
    return _FONT_CODES[font] + (f"{ord(character):x}" if len(character) == 1 else character)


@lru_cache(maxsize=2048)
def glyph_definition(key: GlyphKey, prefix: str) -> str:
    """Return the path element that defines a glyph.

    Accidentals get a thin contour, because the music font draws them lighter than the letters beside them.
    """
    weight = _CONTOUR if key[0] == "music" and key[1] in _ACCIDENTAL_SIGNS else ""
    return f'<path id="{prefix}{glyph_id(key)}"{weight} d="{_glyph(*key)[3]}"/>'


def _glyph(font: str, character: str) -> Glyph:
    return CHORD_SIGN_OUTLINES[character] if font == "sign" else OUTLINES[font][character]


def _number(value: float) -> str:
    return f"{value:.0f}"


def _scale(value: float) -> str:
    return f"{value:.3f}".rstrip("0").removeprefix("0")


def _word(pieces: Iterable[_Piece], width: float) -> OutlinedWord:
    out, glyphs = [], set()
    for piece in pieces:
        key = (piece.font, piece.character)
        if not _glyph(*key)[3]:
            continue
        glyphs.add(key)
        out.append(
            f'<use href="#{{p}}{glyph_id(key)}" transform="translate({_number(piece.x)} {_number(piece.y)})'
            f'scale({_scale(piece.scale)})"/>'
        )
    return OutlinedWord("".join(out), width, frozenset(glyphs))


@lru_cache(maxsize=1024)
def _known(font: str, text: str) -> tuple[GlyphKey, ...]:
    """Return the glyph of each character of a text.

    Where the font lacks a character, the next of these that exists stands in: one that looks alike, the
    letter without its accent, the same character in the plain font.

    Raises:
        RenderError: if none exists, as for a character of another script.
    """
    found = []
    for character in text:
        plain = character.translate(_ALIKE)
        ways = ((font, character), (font, plain), (font, _without_accent(character)), (_PLAIN, character))
        known = next((way for way in ways if way[1] in OUTLINES[way[0]]), None)
        if known is None:
            raise RenderError(
                f'"{character}" in "{text}" cannot be drawn in a score: no outline of it is at hand.',
                hint="Write these words with Latin, Greek or Cyrillic letters.",
            )
        found.append(known)
    return tuple(found)


def _without_accent(character: str) -> str:
    """Return the letter under an accent, or "" where there is none."""
    return unicodedata.normalize("NFKD", character)[:1].translate(_ALIKE)


@lru_cache(maxsize=4096)
def text_word(text: str, font: str, size: float) -> OutlinedWord:
    """Set plain text, in which ♭ and ♯ become real accidentals.

    Args:
        text: the text.
        font: a name in `tables.outlines.OUTLINES`, such as "sans" or "serif-italic".
        size: the em in drawing units.

    Raises:
        RenderError: if a character cannot be drawn.
    """
    pieces: list[_Piece] = []
    return _word(pieces, _words(pieces, text, 0, font, size))


@lru_cache(maxsize=4096)
def note_name_word(text: str, font: str, size: float) -> OutlinedWord:
    """Set text that opens with a note name, such as "Bb minor", with a real accidental after the letter.

    For the arguments and errors see `text_word`.
    """
    pieces, x = _note_name(text[:1], text[1:2], font, size)
    rest = text[1 + (text[1:2] in _ACCIDENTAL_SIGNS) :] if len(text) > 1 else ""
    return _word(pieces, _words(pieces, rest, x, font, size))


@lru_cache(maxsize=4096)
def degree_word(text: str, font: str, size: float) -> OutlinedWord:
    """Set a degree such as "b9" or "#11", with real accidentals before its number.

    For the arguments and errors see `text_word`.
    """
    pieces: list[_Piece] = []
    x = 0.0
    for character in text:
        if character in _ACCIDENTAL_SIGNS:
            x = _accidental(pieces, _ACCIDENTAL_SIGNS[character], x, 0, size)
        else:
            x = _letters(pieces, character, x, 0, font, size)
    return _word(pieces, x)


@lru_cache(maxsize=256)
def tempo_word(feel: str, note: str, dotted: bool, number: int, font: str, size: float) -> OutlinedWord:
    """Set a tempo line such as "Swing ♩ = 132".

    Args:
        feel: the words before the note; "" for none.
        note: "half", "quarter" or "eighth".
        dotted: whether the note has a dot.
        number: beats a minute.
        font: as in `text_word`.
        size: as in `text_word`.
    """
    pieces: list[_Piece] = []
    x = _words(pieces, feel, 0, font, size) + (0.45 * size if feel else 0)
    scale = 1.12 * size / 1000
    pieces.append(_Piece("music", note, x, -0.06 * size, scale))
    x += OUTLINES["music"][note][0] * scale
    if dotted:
        pieces.append(_Piece("music", "dot", x + 0.08 * size, -0.06 * size, scale))
        x += 0.2 * size
    x = _letters(pieces, f" = {number}", x + 0.12 * size, 0, font, size)
    return _word(pieces, x)


@lru_cache(maxsize=16)
def music_word(name: str, scale: float) -> OutlinedWord:
    """Set one glyph of the music font by its name in `tables.outlines`, such as "gclef"."""
    return _word([_Piece("music", name, 0, 0, scale)], OUTLINES["music"][name][0] * scale)


@lru_cache(maxsize=4096)
def symbol_word(parts: SymbolParts, size: float) -> OutlinedWord:
    """Set a chord symbol: root, quality on the base line, alterations raised in brackets, slash bass.

    Args:
        parts: the symbol, as `theory.chord_symbol.symbol_parts` takes it apart.
        size: the em of the root in drawing units.
    """
    pieces: list[_Piece] = []
    if parts.root == "N.C.":
        return _word(pieces, _letters(pieces, "N.C.", 0, 0, "sans-semibold", 0.85 * size))
    pieces, x = _note_name(parts.root[0], parts.root[1:], "sans-semibold", size)
    x = _base(pieces, parts.base, x + (0.025 * size if parts.base else 0), size)
    if parts.raised:
        x = _raised(pieces, parts.raised, x + 0.035 * size, size)
    if parts.bass:
        x = _letters(pieces, "/", x + 0.03 * size, 0.05 * size, "sans", 0.95 * size) + 0.02 * size
        bass, end = _note_name(parts.bass[0], parts.bass[1:], "sans-semibold", 0.88 * size)
        pieces += [_Piece(p.font, p.character, p.x + x, p.y, p.scale) for p in bass]
        x += end
    return _word(pieces, x)


def _letters(pieces: list[_Piece], text: str, x: float, y: float, font: str, size: float) -> float:
    scale = size / 1000
    for face, character in _known(font, text):
        pieces.append(_Piece(face, character, x, y, scale))
        x += OUTLINES[face][character][0] * scale
    return x


def _words(pieces: list[_Piece], text: str, x: float, font: str, size: float) -> float:
    """Add words on the base line, with flats and sharps from the music font; return where they end."""
    spaced = False
    for run in re.split("([♭♯])", text):
        if run in ("♭", "♯"):
            # The stem of an accidental has no white of its own before it.
            x = _accidental(pieces, run, x + (0.1 * size if spaced else 0), 0, size)
        else:
            x = _letters(pieces, run, x, 0, font, size)
            spaced = run.endswith(" ")
    return x


def _accidental(pieces: list[_Piece], sign: str, x: float, y: float, size: float) -> float:
    """Add an accidental before a number, as high as the number; return where it ends."""
    factor, drop = (1.22, 0.19) if sign == "♭" else (1.08, 0.325)
    scale = factor * size / 1000
    _, left, right, _ = OUTLINES["music"][sign]
    pieces.append(_Piece("music", sign, x - left * scale, y - drop * size, scale))
    return x + (right - left) * scale + 0.05 * size


def _note_name(letter: str, accidentals: str, font: str, size: float) -> tuple[list[_Piece], float]:
    pieces: list[_Piece] = []
    x = _letters(pieces, letter, 0, 0, font, size)
    for character in accidentals:
        if character not in _ACCIDENTAL_SIGNS:
            break
        sign = _ACCIDENTAL_SIGNS[character]
        factor, drop = (1.12, 0.215) if sign == "♭" else (1.0, 0.355)
        scale = factor * size / 1000
        _, left, right, _ = OUTLINES["music"][sign]
        pieces.append(_Piece("music", sign, x + 0.02 * size - left * scale, -drop * size, scale))
        x += (right - left) * scale + 0.04 * size
    return pieces, x


def _base(pieces: list[_Piece], text: str, x: float, size: float) -> float:
    """Add the quality of a chord, a little smaller than the root, with proper signs; return where it ends."""
    small = 0.82 * size
    text = text.replace("mmaj", "m(maj").replace("mM", "m(M") if text.startswith(("mmaj", "mM")) else text
    if "(" in text and ")" not in text:
        text += ")"
    text = "°" + text[1:] if text[:1] == "o" else text
    for character in text:
        if character in "♭♯#":
            x = _accidental(pieces, _ACCIDENTAL_SIGNS[character], x, 0, small)
        else:
            x = _symbol_character(pieces, character, x, 0, small)
    return x


def _symbol_character(pieces: list[_Piece], character: str, x: float, y: float, size: float) -> float:
    """Add one character of a chord's quality: a sign of our own, a thin bracket, or a letter."""
    sign = _CHORD_SIGNS.get(character)
    if sign is not None:
        scale = _SIGN_SIZE.get(sign, 1) * size / 1000
        pieces.append(_Piece("sign", sign, x, y, scale))
        return x + CHORD_SIGN_OUTLINES[sign][0] * scale
    if character in "()":
        return _letters(pieces, character, x, y, "sans", size)
    return _letters(pieces, character.replace("-", "–"), x, y, "sans-semibold", size)


def _raised(pieces: list[_Piece], texts: tuple[str, ...], x: float, size: float) -> float:
    """Add the alterations side by side in one pair of thin brackets; return where they end."""
    small, y = 0.66 * size, -0.27 * size
    x = _letters(pieces, "(", x, y, "sans", 1.08 * small)
    for index, text in enumerate(texts):
        x += 0.09 * small if index else 0
        for character in text:
            if character in _ACCIDENTAL_SIGNS and text[:3] != "sub":
                x = _accidental(pieces, _ACCIDENTAL_SIGNS[character], x, y, small)
            else:
                x = _symbol_character(pieces, character, x, y, small)
    return _letters(pieces, ")", x - 0.02 * size, y, "sans", 1.08 * small)
