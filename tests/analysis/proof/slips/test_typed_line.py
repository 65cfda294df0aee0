"""The line in whole numbers; what is expected is common practice."""

from __future__ import annotations

import pytest

from analysis.helpers import read
from shedbook.analysis.proof.slips.tables.chord_kinds import ROWS, ChordKindRow
from shedbook.analysis.proof.slips.typed_line import LANDING, OFF, ON_BEAT, chord_kind, typed_line
from shedbook.theory.chord import name_over
from shedbook.theory.chord_symbol import parse_chord
from shedbook.theory.pitch import NoteName
from shedbook.theory.scale import parse_scale

C = NoteName.parse("C")


@pytest.mark.parametrize(
    ("symbol", "kind"),
    [
        ("Cmaj7", "major seventh"), ("C", "major"), ("C6", "major"), ("C7", "dominant"), ("C13", "dominant"),
        ("C7b9", "altered dominant"), ("C7alt", "altered dominant"), ("C7#5", "altered dominant"),
        ("C7b5", "altered dominant"), ("C7#9", "altered dominant"), ("C7b13", "altered dominant"),
        ("C7#11", "dominant"), ("C9", "dominant"), ("Cm", "minor seventh"),
        ("Cm7", "minor seventh"), ("Cm6", "minor"), ("Cm(maj7)", "minor"), ("Cm7b5", "half-diminished"),
        ("Cdim7", "diminished"), ("C7sus4", "suspended"), ("N.C.", "no chord"),
    ],
)  # fmt: skip
def test_kinds_of_chord(symbol: str, kind: str) -> None:
    assert ROWS[chord_kind(parse_chord(symbol))].name == kind


# For each kind its chords and its scales, all from C; which go together is common practice.
KINDS = [
    ("no chord", "", "ionian"),
    ("major seventh", "Cmaj7", "ionian, lydian"),
    ("major", "C6", "ionian, lydian"),
    ("dominant", "C7", "mixolydian, lydian dominant"),
    ("altered dominant", "C7b9", "half-whole diminished, altered"),
    ("minor seventh", "Cm7", "dorian, aeolian"),
    ("minor", "Cm6, Cm(maj7)", "melodic minor"),
    ("half-diminished", "Cm7b5", "locrian, locrian #2"),
    ("diminished", "Cdim7", "whole-half diminished"),
    ("suspended", "C7sus4", "mixolydian"),
]


@pytest.mark.parametrize(("row", "kind"), list(zip(ROWS, KINDS, strict=True)))
def test_what_the_sounds_are_over_a_kind_of_chord(row: ChordKindRow, kind: tuple[str, str, str]) -> None:
    name, symbols, scales = kind
    chords = [parse_chord(symbol) for symbol in symbols.split(", ") if symbol]
    tones = {tone for chord in chords for tone in chord.pitch_classes}
    inside = {tone for scale in scales.split(", ") for tone in parse_scale(scale, root=C).pitch_classes}
    guides = {
        name_over(C, degree).pitch_class
        for chord in chords
        for degree in (chord.third, chord.fifth, chord.seventh)
        if degree
    }
    assert row.name == name
    assert (set(row.chord), set(row.scale), set(row.guides)) == (tones, inside - tones, guides)


def test_what_stands_beside_a_chord() -> None:
    line = typed_line(read("C | Fm7 | G7", "1/1 c4 | f | g"))
    sounds = [[sound for sound in range(12) if bits >> sound & 1] for bits in line.beside]
    f_minor, beside_it, again = [0, 3, 5, 8], [0, 2, 4, 5, 7, 9, 11], [0, 3, 5, 8]
    assert sounds == [f_minor, beside_it, again]


def test_how_notes_stand() -> None:
    line = typed_line(read("Dm7 | G7", "1/8 d4 e f g a b 1/4 c5 | 1/4 - 1/8 d5 c 1/2 b4"))
    assert line.stress == (LANDING, OFF, ON_BEAT, OFF, LANDING, OFF, ON_BEAT, LANDING, OFF, LANDING)
    assert [at for at, parted in enumerate(line.parted) if parted] == [6, 9]
    assert line.span == (0,) * 7 + (1,) * 3


def test_the_scale_that_the_author_names() -> None:
    free = typed_line(read("Dm7 | G7", "1/1 d4 | g4"))
    named = typed_line(read("Dm7 | G7", "1/1 d4 | g4", "dorian | mixolydian"))
    assert free.named == (0, 0)
    assert [bin(bits).count("1") for bits in named.named] == [7, 7]
    second = typed_line(read("Dm7 | G7", "1/1 d4 | g4", " | mixolydian"))
    assert [bin(bits).count("1") for bits in second.named] == [0, 7]
    assert typed_line(read("N.C.", "1/1 d4")).named == (0,)
