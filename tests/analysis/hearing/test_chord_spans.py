"""Chord tones and degrees over a chord, against music21.

music21 10.5 reads only some chord symbols rightly; those are used here.
"""

from __future__ import annotations

from dataclasses import replace

import pytest
from music21 import harmony, pitch

from analysis.helpers import phrase, read
from shedbook.analysis.hearing.chord_spans import spans_of
from shedbook.theory.pitch import spellings

# Symbols that music21's ChordSymbol reads as the trade does; B flat and so on are "B-" there.
ROOTS = (("C", "C"), ("Bb", "B-"), ("F#", "F#"), ("Eb", "E-"), ("A", "A"))


KINDS = ("", "m", "7", "maj7", "m7", "m7b5", "dim7", "6", "m6", "9", "7b9", "7#11", "m9", "dim", "sus4")


MUSIC21_KINDS = {"m7b5": "m7b5", "dim7": "dim7", "7b9": "7 addb9", "7#11": "7 add#11"}


# Semitones above the root for music21's generic interval names of a chord's degrees.
_CHROMATIC = [str(spellings(midi)[0]).lower() for midi in range(60, 72)]


@pytest.mark.parametrize("kind", KINDS)
def test_chord_tones_against_music21(kind: str) -> None:
    """music21 10.5, harmony.ChordSymbol: its pitches are the notes whose membership is "chord"."""
    for ours, theirs in ROOTS:
        expected = {
            one.pitchClass for one in harmony.ChordSymbol(theirs + MUSIC21_KINDS.get(kind, kind)).pitches
        }
        line = "1/4 " + " | ".join(" ".join(_CHROMATIC[bar * 4 : bar * 4 + 4]) for bar in range(3))
        found = read(f"{ours}{kind} | % | %", line)
        assert {note.midi % 12 for note in found.notes if note.in_chord} == expected


@pytest.mark.parametrize("kind", KINDS)
def test_degrees_against_music21(kind: str) -> None:
    """music21 10.5, interval from the root: its size agrees with the degree of every chord tone."""
    sizes = {"1": 0, "b9": 1, "9": 2, "b3": 3, "3": 4, "4": 5, "#11": 6, "b5": 6, "5": 7, "6": 9, "bb7": 9,
             "b7": 10, "7": 11}  # fmt: skip
    for ours, theirs in ROOTS:
        symbol = harmony.ChordSymbol(theirs + MUSIC21_KINDS.get(kind, kind))
        root = symbol.root()
        for one in symbol.pitches:
            name = spellings(60 + pitch.Pitch(one.name).pitchClass)[0]
            (note,) = read(f"{ours}{kind}", f"1/1 {str(name).lower()}").notes
            assert sizes[note.degree] == (one.pitchClass - root.pitchClass) % 12


def test_a_scale_on_another_root_is_named_with_it() -> None:
    found = read("F7", "1/1 f4", "C melodic minor")
    assert found.notes[0].span.scale_name == "C melodic minor"


def test_no_chord() -> None:
    found = read("N.C. | Cmaj7", "1/4 c4 d4 eb4 f#4 | 1/1 g4", key="C major")
    assert [note.degree for note in found.notes[:4]] == [""] * 4
    assert [note.membership for note in found.notes[:4]] == ["scale", "scale", "outside", "outside"]


def test_the_core_of_a_chord_over_a_bass_holds_only_what_is_there() -> None:
    """F over G is heard as G9sus4, whose fifth is not there [common practice]."""
    (span,) = read("F/G", "1/1 c5").spans
    assert span.heard.text != span.chord.text
    assert span.core == {7, 0, 5}  # G, C, F


def test_a_phrase_without_changes_is_one_span_over_no_chord() -> None:
    written = replace(phrase("C | %", "1/1 c4 | c"), changes=(), scales=())
    (span,) = spans_of(written, ())
    assert (int(span.start), int(span.end)) == (0, 8)
    assert span.chord.root is None
    assert (span.first_change, span.last_change) == (-1, -1)
    assert span.scale_classes == {0, 2, 4, 5, 7, 9, 11}


def test_where_no_chord_sounds_the_key_has_its_notes() -> None:
    """In minor with both sixths and both sevenths [common practice]."""
    (span,) = read("N.C.", "1/1 c5", key="C minor").spans
    assert span.scale_classes == {0, 2, 3, 5, 7, 8, 9, 10, 11}
