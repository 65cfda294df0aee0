"""Notes, degrees and chords in words: common practice."""

from __future__ import annotations

import pytest

from shedbook.analysis.naming.spoken_names import chord_words, degree_words, name_words, pitch_words
from shedbook.theory.chord_symbol import parse_chord
from shedbook.theory.pitch import NoteName, Pitch


@pytest.mark.parametrize(
    ("name", "words"), [("Bb", "B flat"), ("F#", "F sharp"), ("C", "C"), ("Bbb", "A"), ("F##", "G")]
)
def test_names_in_words(name: str, words: str) -> None:
    assert name_words(NoteName.parse(name)) == words
    assert pitch_words(Pitch.of(NoteName.parse(name), 4)) == words


@pytest.mark.parametrize(
    ("symbol", "degree", "words"),
    [
        ("Cm7", "b3", "the third"),
        ("Cm7", "3", "the major third"),
        ("C7", "b7", "the seventh"),
        ("C7", "7", "the major seventh"),
        ("G7b9", "b9", "the flat 9"),
        ("Cm7b5", "b5", "the fifth"),
        ("Cm7b5", "5", "the natural fifth"),
        ("C6", "6", "the sixth"),
        ("C7sus4", "4", "the fourth"),
    ],
)
def test_degrees_in_words(symbol: str, degree: str, words: str) -> None:
    assert degree_words(degree, parse_chord(symbol)) == words


@pytest.mark.parametrize(
    ("symbol", "words"), [("Bbm", "B flat minor"), ("F7b9", "F7b9"), ("N.C.", "no chord")]
)
def test_chords_in_words(symbol: str, words: str) -> None:
    assert chord_words(parse_chord(symbol)) == words
