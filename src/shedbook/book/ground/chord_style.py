"""One way of writing chord symbols for the whole book: maj7 or Δ, m or a dash, ø or m7b5. Pure.

A symbol is rewritten from what the chord means. A rewritten symbol that would be read as another chord is
not used: the author's own stays.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, replace
from functools import lru_cache
from types import MappingProxyType

from shedbook.book.ground.tables.chord_styles import NAMED_STYLES, QUALITY_FORMS
from shedbook.errors import ShedbookError, nearest
from shedbook.phrase.model import Phrase
from shedbook.theory.chord import Chord
from shedbook.theory.chord_symbol import canonical, parse_chord

FORMS: Mapping[str, tuple[str, ...]] = MappingProxyType(dict(QUALITY_FORMS))
STYLES: Mapping[str, Mapping[str, str]] = MappingProxyType(
    {name: dict(pairs) for name, pairs in NAMED_STYLES}
)

_HALF = re.compile(r"m(7|9|11)b5(?=\(|$)|m(7|9|11)\(b5,?")
_MAJOR = re.compile(r"maj(\d+)")
_SIGNS = str.maketrans({"−": "-", "–": "-"})


@dataclass(frozen=True, slots=True)
class ChordStyle:
    """Pairs of a quality and its form; none means that every symbol stays as the author wrote it."""

    forms: tuple[tuple[str, str], ...] = ()


AS_WRITTEN = ChordStyle()
"""Every symbol as the author wrote it."""


def style_of(forms: Mapping[str, str]) -> ChordStyle:
    """Return a style; a quality that is not named takes its usual form.

    Raises:
        ValueError: for a quality or form that is not in the table.
    """
    found = {quality: usual[0] for quality, usual in FORMS.items()}
    for quality, form in forms.items():
        if quality not in FORMS:
            raise ValueError(f'"{quality}" is not a quality: {nearest(quality, FORMS) or ", ".join(FORMS)}')
        plain = form.translate(_SIGNS)
        if plain not in FORMS[quality]:
            raise ValueError(f'"{form}" is not a form of {quality}: {", ".join(FORMS[quality])}')
        found[quality] = plain
    return ChordStyle(tuple(found.items()))


def in_style(phrase: Phrase, style: ChordStyle) -> Phrase:
    """Return a phrase with its chord symbols written in a style; the chords themselves stay what they are.

    A symbol whose form in that style would be read as another chord stays as the author wrote it.
    """
    if not style.forms:
        return phrase
    changes = tuple([replace(change, chord=styled(change.chord, style)) for change in phrase.changes])
    return replace(phrase, changes=changes)


@lru_cache(maxsize=4096)
def styled(chord: Chord, style: ChordStyle) -> Chord:
    """Return a chord with its symbol in a style, or as it is where the style cannot say it."""
    if chord.root is None or not style.forms:
        return chord
    plain = replace(chord, bass=None)
    root = str(chord.root)
    kind = canonical(plain).removeprefix(root)
    text = root + styled_kind(kind, dict(style.forms)) + ("" if chord.bass is None else f"/{chord.bass}")
    try:
        same = replace(parse_chord(text), text="") == replace(chord, text="")
    except ShedbookError:
        same = False
    return replace(chord, text=text) if same else chord


def styled_kind(kind: str, forms: Mapping[str, str]) -> str:
    """Return the canonical text of a quality in the forms of a style."""
    half = _HALF.match(kind)
    if half:
        return _half_diminished(kind, half, forms)
    if kind.startswith("dim"):
        return forms["diminished"] + _majors(kind.removeprefix("dim"), forms)
    if kind.startswith("aug"):
        return forms["augmented"] + kind.removeprefix("aug")
    if kind.startswith("m") and not kind.startswith("maj"):
        return forms["minor"] + _majors(kind.removeprefix("m"), forms)
    return _majors(kind, forms)


def _majors(kind: str, forms: Mapping[str, str]) -> str:
    """Write each major seventh: a bare triangle says its 7 by itself."""
    form = forms["major seventh"]
    sign = form.removesuffix("7")

    def written(found: re.Match[str]) -> str:
        return sign if found[1] == "7" and form == sign else sign + found[1]

    return _MAJOR.sub(written, kind)


def _half_diminished(kind: str, half: re.Match[str], forms: Mapping[str, str]) -> str:
    form = forms["half-diminished"]
    number = half[1] or half[2]
    if not form.startswith("ø"):
        return ("-" if form.startswith("-") else forms["minor"]) + kind.removeprefix("m")
    rest = kind[half.end() :]
    rest = f"({rest}" if half[2] and rest != ")" else "" if half[2] else rest
    return ("ø" if form == "ø" and number == "7" and not rest else f"ø{number}") + rest
