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
NOTE_SIGNS = ("ghost", "grace", "accent", "staccato", "tenuto", "fall", "scoop", "slur")
"""Signs of notes, in the same way."""
_DRAWN_MARKS = frozenset(("ghost", "accent", "staccato", "tenuto", "fall", "scoop"))


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
    for sign, openings in _OPENINGS:
        if parts.base.startswith(openings) and not (sign == "chord.m" and parts.base.startswith("maj")):
            yield sign
    whole = " ".join((parts.base, *parts.raised))
    for sign, texts in _ANYWHERE:
        if any(text in whole for text in texts):
            yield sign
    if parts.raised:
        yield "chord.raised"
    if parts.bass:
        yield "chord.bass"


_OPENINGS = (
    ("chord.m", ("m",)), ("chord.dash", ("-", "–", "−")), ("chord.ring", ("°", "º", "o", "˚")),
    ("chord.struck ring", ("ø", "Ø", "∅")), ("chord.plus", ("+",)),
)  # fmt: skip
"""Signs with which the quality of a chord opens."""
_ANYWHERE = (
    ("chord.maj", ("maj",)), ("chord.triangle", ("Δ", "△", "∆")), ("chord.alt", ("alt",)),
    ("chord.sus", ("sus",)),
)  # fmt: skip
"""Signs that may stand anywhere in a quality."""
