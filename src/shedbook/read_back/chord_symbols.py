"""The chord symbols over a system, as text, from the letters and signs that stand on their base line."""

from __future__ import annotations

from collections.abc import Iterable
from typing import NamedTuple

from shedbook.read_back.ink import Glyph
from shedbook.read_back.staves import System

_SIGNS = {"E260": "b", "E261": "♮", "E262": "#", "E263": "##", "E264": "bb"}
_ROOT_EM, _NO_CHORD_EM = 2.3, 2.0
"""The least size of a root's letter and of "N.C." in spaces an em."""
_ABOVE, _BELOW = 2.2, 0.6
"""How far over and under its base line a symbol's glyphs have their origins, in spaces."""


class ReadSymbol(NamedTuple):
    """A chord symbol as it stands on the page: where it begins, in spaces, and its text with b and #."""

    x: float
    text: str


def symbols_of(system: System) -> list[ReadSymbol]:
    """Return the chord symbols of a system from left to right.

    All stand on one base line, which the roots show: the largest semibold letters over the staff. Symbols in
    a crowded bar may reach over one another; so each is what was drawn from one root to the next.
    """
    opens = [glyph for glyph in system.glyphs if _opens(glyph)]
    if not opens:
        return []
    base = max(opens, key=lambda glyph: glyph.size).y
    words: list[list[Glyph]] = []
    for glyph in system.glyphs:
        if not base - _ABOVE < glyph.y < base + _BELOW or not _belongs(glyph):
            continue
        if not words or (_opens(glyph) and abs(glyph.y - base) < 0.1):
            words.append([])
        words[-1].append(glyph)
    found = [ReadSymbol(min(glyph.x for glyph in word), words_of(word)) for word in words]
    return sorted(found, key=lambda symbol: symbol.x)


def _opens(glyph: Glyph) -> bool:
    em = 1000 * glyph.size
    if glyph.font != "sans-semibold" or glyph.y > -0.5:
        return False
    return (glyph.name in "ABCDEFG" and em > _ROOT_EM) or (glyph.name == "N" and em > _NO_CHORD_EM)


def _belongs(glyph: Glyph) -> bool:
    """Say whether a glyph may stand in a chord symbol; bars' numbers and scales' names are of other fonts."""
    return (
        glyph.font in ("sans-semibold", "sign", "?")
        or (glyph.font == "sans" and glyph.name in "()/,")
        or (glyph.font == "music in words" and glyph.name in _SIGNS)
    )


def _text(glyph: Glyph) -> str:
    if glyph.font == "?":
        return "?"
    if glyph.font == "music in words":
        return _SIGNS[glyph.name]
    return {"–": "-"}.get(glyph.name, glyph.name)


def words_of(glyphs: Iterable[Glyph]) -> str:
    """Return glyphs as text from left to right."""
    return "".join(_text(glyph) for glyph in sorted(glyphs, key=lambda one: one.x))
