"""Which signs a phrase shows, so that a book explains those and no others. Pure.

A sign is a name in `SIGNS`; the words that explain it are the row "signs." and the name.
"""

from __future__ import annotations

from collections.abc import Iterator

from shedbook.phrase.model import Phrase
from shedbook.theory.chord import Chord
from shedbook.theory.chord_symbol import symbol_parts

CHORD_SIGNS = (
    "chord.m", "chord.dash", "chord.maj", "chord.triangle", "chord.ring", "chord.struck ring", "chord.plus",
    "chord.alt", "chord.sus", "chord.raised", "chord.bass",
)  # fmt: skip
"""Signs of chord symbols, in the order in which they are explained."""
NOTE_SIGNS = ("ghost", "grace", "accent", "staccato", "tenuto", "slur")
"""Signs of notes, in the same way."""
_DRAWN_MARKS = frozenset(("ghost", "accent", "staccato", "tenuto"))


def signs_of(phrase: Phrase) -> tuple[str, ...]:
    """Return the signs that a score of the phrase shows, in the order in which they are explained."""
    found = {sign for change in phrase.changes for sign in _in_symbol(change.chord)}
    for bar in phrase.bars:
        for event in bar.events:
            if event.pitch is None:
                continue
            found |= _DRAWN_MARKS & set(event.marks)
            found |= {"grace"} if event.grace else set()
            found |= {"slur"} if event.slurs_open else set()
    return tuple(sign for sign in (*CHORD_SIGNS, *NOTE_SIGNS) if sign in found)


def _in_symbol(chord: Chord) -> Iterator[str]:
    """Yield the signs of a chord symbol."""
    parts = symbol_parts(chord)
    base = parts.base
    if base.startswith("m") and not base.startswith("maj"):
        yield "chord.m"
    if base.startswith(("-", "–", "−")):
        yield "chord.dash"
    if "maj" in base or any("maj" in one for one in parts.raised):
        yield "chord.maj"
    if any(sign in base for sign in "Δ△∆"):
        yield "chord.triangle"
    if base[:1] in ("°", "º", "o", "˚"):
        yield "chord.ring"
    if base[:1] in ("ø", "Ø", "∅"):
        yield "chord.struck ring"
    if base.startswith("+"):
        yield "chord.plus"
    if "alt" in base:
        yield "chord.alt"
    if "sus" in base:
        yield "chord.sus"
    if parts.raised:
        yield "chord.raised"
    if parts.bass:
        yield "chord.bass"
