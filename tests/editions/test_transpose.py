from __future__ import annotations

from collections.abc import Callable
from dataclasses import fields, replace

import music21
import pytest
from hypothesis import given
from hypothesis import strategies as st

import strategies
from shedbook.editions.transpose import renamed, transpose, with_pitches
from shedbook.phrase.line_text import print_line
from shedbook.phrase.model import Event, Phrase, Value, sounding_notes
from shedbook.theory.interval import Interval, degree_interval
from shedbook.theory.pitch import NoteName, Pitch

Make = Callable[..., Phrase]

LINE = "1/8 f4 (ab.accent c5) eb 1/4 d grace:f# g | + 1/8 1/8t e f g 1/8 - d 1/8+1/4 b4"


@pytest.mark.parametrize(
    ("home", "changes", "line", "tonic", "renamed_changes", "renamed_line"),
    [
        # Common practice: seven flats as five sharps, and back.
        ("Cb", "Cbmaj7 | Gb7/Fb", "1/2 cb5 bb4 | 1/1 fb5", "B", "Bmaj7 F#7/E", "1/2 b4 a# | 1/1 e5"),
        ("B", "Bmaj7 | F#7/E", "1/2 b4 a# | 1/1 e5", "Cb", "Cbmaj7 Gb7/Fb", "1/2 cb5 bb4 | 1/1 fb5"),
        ("F# minor", "F#m | N.C.", "1/1 f#4 | c#5", "Gb", "Gbm N.C.", "1/1 gb4 | db5"),
    ],
)
def test_a_key_by_its_other_name_takes_all_letters_with_it(
    make: Make, home: str, changes: str, line: str, tonic: str, renamed_changes: str, renamed_line: str
) -> None:
    phrase = make(home, changes, line)
    found = renamed(phrase, NoteName.parse(tonic))
    assert str(found.key.tonic) == tonic
    assert " ".join(change.chord.text for change in found.changes) == renamed_changes
    assert print_line(found.bars) == renamed_line
    assert renamed(phrase, phrase.key.tonic) is phrase


def test_everything_moves(make: Make) -> None:
    phrase = make("C minor", "Dm7b5 G7b9/B | Cm6", LINE, "locrian, half-whole diminished | melodic minor")
    moved = transpose(phrase, degree_interval("4"))
    assert str(moved.key) == "F minor"
    assert [change.chord.text for change in moved.changes] == ["Gm7b5", "C7b9/E", "Fm6"]
    assert [str(scale) for scale in moved.scales] == [
        "G locrian",
        "C half-whole diminished",
        "F melodic minor",
    ]
    assert print_line(moved.bars) == (
        "1/8 bb4 (db5.accent f) ab 1/4 g grace:b c6 | + 1/8 1/8t a5 bb c6 1/8 - g5 1/8+1/4 e"
    )
    assert (moved.title, moved.metre, moved.tempo_bpm) == (phrase.title, phrase.metre, phrase.tempo_bpm)


@given(strategies.phrases(), strategies.intervals)
def test_there_and_back(phrase: Phrase, interval: Interval) -> None:
    there = transpose(phrase, interval)
    back = transpose(there, -interval)
    assert (back.bars, back.scales, back.key) == (phrase.bars, phrase.scales, phrase.key)
    assert [
        (change.bar, change.beat, change.chord.root, change.chord.degrees) for change in back.changes
    ] == [(change.bar, change.beat, change.chord.root, change.chord.degrees) for change in phrase.changes]
    assert [replace(note, pitch=note.pitch + interval) for note in sounding_notes(phrase)] == list(
        sounding_notes(there)
    )


def test_no_field_of_an_event_is_lost() -> None:
    event = Event(Pitch.parse("C4"), (Value(8, 1),), True, ("accent",), (Pitch.parse("B3"),), 2, 1)
    assert all(getattr(event, field.name) != field.default for field in fields(Event))
    assert with_pitches(event, event.pitch, event.grace) == event


NAMES = st.builds(
    "{}{}{}".format, st.sampled_from("CDEFGAB"), st.sampled_from(("", "#", "b")), st.integers(2, 6)
)


@given(
    st.lists(NAMES, min_size=8, max_size=8),
    st.sampled_from(
        (("b2", "m2"), ("2", "M2"), ("b3", "m3"), ("#4", "A4"), ("5", "P5"), ("b6", "m6"), ("7", "M7"))
    ),
)
def test_music21_transposes_to_the_same_names(
    make: Make, names: list[str], interval: tuple[str, str]
) -> None:
    # music21 10: an independent implementation of transposition by interval.
    ours = transpose(make("C", "C", "1/8 " + " ".join(names)), degree_interval(interval[0]))
    theirs = [music21.pitch.Pitch(name.replace("b", "-")).transpose(interval[1]) for name in names]
    written = [(pitch.nameWithOctave.replace("-", "b"), pitch.midi) for pitch in theirs]
    assert [(str(note.pitch), note.pitch.midi) for note in sounding_notes(ours)] == written
