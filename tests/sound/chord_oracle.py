"""Chord tones from functools import lru_cache

from music21, for the symbols that it reads rightly (flats written "-", no alt, no slash)."""

from __future__ import annotations

from functools import lru_cache

from music21 import harmony

from shedbook.theory.chord import Chord

_KINDS = {
    "maj7": "maj7", "m7": "m7", "7": "7", "m7b5": "m7b5", "dim7": "dim7", "6": "6",
    "m6": "m6", "9": "9", "m9": "m9",
}  # fmt: skip
"""Our kinds to music21's names; "9" and "13" chords are read as far as their ninth."""


@lru_cache(maxsize=512)
def chord_classes(chord: Chord) -> frozenset[int] | None:
    """Return the pitch classes of a chord, or None where music21 is not to be trusted."""
    kind = chord.split_text()[1]
    if kind not in _KINDS or chord.root is None or chord.bass is not None:
        return None
    symbol = harmony.ChordSymbol(f"{str(chord.root).replace('b', '-')}{_KINDS[kind]}")
    return frozenset(pitch.pitchClass for pitch in symbol.pitches)


def third_and_seventh(chord: Chord) -> frozenset[int] | None:
    """Return third and seventh (or sixth) as music21 gives them, or None."""
    known = chord_classes(chord)
    if known is None or chord.root is None:
        return None
    above = {(pitch_class - chord.root.pitch_class) % 12 for pitch_class in known}
    pair = {step for step in above if step in (3, 4)} | {step for step in above if step in (9, 10, 11)}
    return frozenset((chord.root.pitch_class + step) % 12 for step in pair)
