"""Chord tones against two general-purpose libraries, where both read the symbol and agree.

music21's ChordSymbol and pychord read different ways of writing, and each is wrong on a few symbols
(the natural 11 of a thirteenth chord; music21 on 69 and on 13b9): a symbol stands here only where the two
agree, or where one of them cannot read it and the note beside it says so.
"""

from __future__ import annotations

import pychord
import pytest
from music21 import harmony

from shedbook.theory.chord_symbol import parse_chord
from shedbook.theory.pitch import NoteName

BOTH = (
    "", "m", "7", "maj7", "m7", "m7b5", "dim", "dim7", "aug", "6", "m6", "sus4", "sus2", "7sus4", "9",
    "m9", "M9", "m11", "add9", "madd9", "7b9", "7#9", "7#5", "7b5", "7#11", "9b5", "9#5", "9#11", "mM7",
    "5", "7b13", "M7#11", "add11", "7b9#11", "7#9#5",
)  # fmt: skip
PYCHORD_ONLY = ("69", "m69", "9sus4", "M7+5", "13#11", "m7-5", "maj9")
"""Symbols that music21 refuses or is known to read wrongly."""
MUSIC21_ONLY = ("+", "+M7", "m13")
"""Symbols that pychord refuses."""
ROOTS = ("C", "G", "Eb", "F#", "Ab", "B")


def pychord_classes(symbol: str) -> set[int]:
    names = pychord.Chord(symbol).components(visible=True)
    return {NoteName.parse(name).pitch_class for name in names}


def music21_classes(root: str, kind: str) -> set[int]:
    symbol = harmony.ChordSymbol(root.replace("b", "-") + kind)
    return {pitch.pitchClass for pitch in symbol.pitches}


@pytest.mark.parametrize("kind", BOTH + PYCHORD_ONLY)
@pytest.mark.parametrize("root", ROOTS)
def test_tones_agree_with_pychord(root: str, kind: str) -> None:
    assert parse_chord(root + kind).pitch_classes == pychord_classes(root + kind)


@pytest.mark.parametrize("kind", BOTH + MUSIC21_ONLY)
@pytest.mark.parametrize("root", ROOTS)
def test_tones_agree_with_music21(root: str, kind: str) -> None:
    assert parse_chord(root + kind).pitch_classes == music21_classes(root, kind)


@pytest.mark.parametrize(
    "kind", ["", "m", "7", "maj7", "m7", "m7b5", "dim7", "aug", "6", "m6", "sus4", "9", "7b5"]
)
def test_names_agree_with_music21(kind: str) -> None:
    for root in ROOTS:
        expected = {
            pitch.name.replace("-", "b")
            for pitch in harmony.ChordSymbol(root.replace("b", "-") + kind).pitches
        }

        assert {str(tone) for tone in parse_chord(root + kind).tones} == expected
