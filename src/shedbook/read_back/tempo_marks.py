"""Feel and tempo over a score, from the letters and the note that stand on its highest base line."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from fractions import Fraction
from types import MappingProxyType

from shedbook.read_back.ink import Glyph
from shedbook.read_back.staves import System

_NOTES: Mapping[str, Fraction] = MappingProxyType(
    {"ECA3": Fraction(2), "ECA5": Fraction(1), "ECA7": Fraction(1, 2)}
)
"""The note of a metronome mark by its SMuFL code point, in quarters."""
_DOT = "ECB7"
_FACES = ("serif-semibold", "sans", "?")
_ABOVE = -1.6
"""Feel and tempo stand higher than this over the staff, in spaces; a bar's number does not."""
_LEFT, _SINK = 0.3, 0.3
"""How far from the left end of the staff the mark begins, and its note from the base line, in spaces."""


@dataclass(frozen=True, slots=True)
class ReadTempo:
    """What is said over a score: the words of the feel, without spaces, the beat in quarters, and the number.

    A letter that no table knows is "?". `beat` and `number` are None where no note stands there.
    """

    feel: str
    beat: Fraction | None = None
    number: str | None = None


def tempo_of(system: System) -> ReadTempo | None:
    """Return the feel and the tempo over a system, None where there are none."""
    opening = [glyph for glyph in system.glyphs if _is_letter(glyph) and abs(glyph.x) < _LEFT]
    note = [glyph for glyph in system.glyphs if _is_note(glyph) and abs(glyph.x) < _LEFT]
    if not opening and not note:
        return None
    base = min(glyph.y for glyph in (*opening, *note))
    level = [glyph for glyph in system.glyphs if abs(glyph.y - base) < _SINK]
    words = sorted((glyph for glyph in level if _is_letter(glyph)), key=lambda glyph: glyph.x)
    beats = [glyph for glyph in level if _is_note(glyph)]
    if not beats:
        return ReadTempo(_text(words))
    beat = beats[0]
    dotted = any(glyph.name == _DOT and glyph.font == beat.font for glyph in level)
    before, after = (
        _text(glyph for glyph in words if (glyph.x < beat.x) is early) for early in (True, False)
    )
    return ReadTempo(before, _NOTES[beat.name] * (Fraction(3, 2) if dotted else 1), after.removeprefix("="))


def _is_letter(glyph: Glyph) -> bool:
    return glyph.y < _ABOVE and glyph.font in _FACES


def _is_note(glyph: Glyph) -> bool:
    return glyph.y < _ABOVE and glyph.font == "music in words" and glyph.name in _NOTES


def _text(glyphs: Iterable[Glyph]) -> str:
    return "".join("?" if glyph.font == "?" else glyph.name for glyph in glyphs)
