"""Notes, degrees and chords in words: common practice."""

from __future__ import annotations

import pytest

from shedbook.analysis.naming.spoken_names import (
    chord_words,
    degree_words,
    name_words,
    pitch_words,
    voiced_chord,
)
from shedbook.theory.chord_symbol import parse_chord
from shedbook.theory.pitch import NoteName, Pitch


@pytest.mark.parametrize(
    ("name", "words"), [("Bb", "B♭"), ("F#", "F♯"), ("C", "C"), ("Bbb", "A"), ("F##", "G")]
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
    ("symbol", "words"),
    [
        ("Bbm", "B♭\u00a0minor"),
        ("F7b9", "F7♭9"),
        ("N.C.", "no chord"),
        ("Bbmaj7", "B♭maj7"),
        ("F#m7b5", "F♯m7♭5"),
        ("Ab/C", "A♭/C"),
        ("C/Bb", "C/B♭"),
        ("G7(#5)", "G7(♯5)"),
    ],
)
def test_chords_in_words(symbol: str, words: str) -> None:
    assert chord_words(parse_chord(symbol)) == words


@pytest.mark.parametrize(
    ("symbol", "words"),
    [
        ("Ebm7b5", "E flat m7 flat 5"), ("F7#9", "F 7 sharp 9"), ("C", "C"), ("F#", "F sharp"),
        ("N.C.", "N.C."),
        ("Ab/C", "A flat over C"), ("Bb7(b9)", "B flat 7 flat 9"),
    ],
)  # fmt: skip
def test_chords_for_a_voice_that_reads(symbol: str, words: str) -> None:
    assert voiced_chord(parse_chord(symbol)) == words
