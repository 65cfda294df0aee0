"""Pitches and note names: MIDI numbers, frequencies, spelling, transposition."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from music21 import interval as music21_interval
from music21 import pitch as music21_pitch

from shedbook.theory.chord import easy_name, name_over, plain_name
from shedbook.theory.interval import OCTAVE, Interval, degree_interval
from shedbook.theory.pitch import (
    HIGHEST_MIDI,
    LOWEST_MIDI,
    NoteName,
    Pitch,
    accidental_text,
    frequency_hz,
    spellings,
)

pitches = st.builds(
    Pitch.of,
    st.builds(NoteName.of, st.sampled_from("CDEFGAB"), st.integers(-2, 2)),
    st.integers(0, 8),
)
# Interval names of music21, all that are in common use.
INTERVALS = [
    "P1", "m2", "M2", "A2", "d3", "m3", "M3", "d4", "P4", "A4", "d5", "P5", "A5", "m6", "M6", "d7", "m7",
    "M7", "P8", "m9", "M9", "A11", "M13",
]  # fmt: skip


def theirs(pitch: Pitch) -> music21_pitch.Pitch:
    return music21_pitch.Pitch(str(pitch).replace("b", "-"))


@pytest.mark.parametrize(
    ("text", "midi"),
    [
        ("C4", 60),
        ("A4", 69),
        ("A0", 21),
        ("C8", 108),
        ("C-1", 0),
        ("Cb4", 59),
        ("B#3", 60),
        ("f##2", 43),
        ("Ebb5", 74),
    ],
)
def test_midi_number(text: str, midi: int) -> None:  # scientific pitch notation; the number changes at C
    assert Pitch.parse(text).midi == midi


# ISO 16:1975: A4 is 440 Hz; the rest by equal temperament, 2^(1/12) a half step.
@pytest.mark.parametrize(
    ("midi", "hertz"),
    [(69, 440.0), (60, 261.6255653), (21, 27.5), (108, 4186.009045), (57, 220.0), (81, 880.0)],
)
def test_frequency_at_the_standard_pitch(midi: int, hertz: float) -> None:
    assert frequency_hz(midi) == pytest.approx(hertz, rel=1e-9)


@pytest.mark.parametrize("a4_hz", [392.0, 415.0, 430.0, 440.0, 442.0, 443.5])
def test_frequency_at_any_pitch(a4_hz: float) -> None:
    assert frequency_hz(69, a4_hz=a4_hz) == a4_hz
    assert frequency_hz(81, a4_hz=a4_hz) == pytest.approx(2 * a4_hz)
    for midi in range(21, 109):
        assert frequency_hz(midi, a4_hz=a4_hz) == pytest.approx(a4_hz * 2 ** ((midi - 69) / 12), rel=1e-12)
        pitch = music21_pitch.Pitch(midi=midi)
        assert frequency_hz(midi) == pytest.approx(pitch.frequency, rel=1e-9)


@given(pitches)
def test_text_and_back(pitch: Pitch) -> None:
    assert Pitch.parse(str(pitch)) == pitch
    assert Pitch.of(pitch.name, pitch.octave) == pitch
    assert NoteName.parse(str(pitch.name)) == pitch.name
    assert pitch.letter == pitch.name.letter
    assert pitch.alteration == pitch.name.alteration
    assert pitch.pitch_class == pitch.name.pitch_class


@given(pitches)
def test_midi_and_octave_agree_with_music21(pitch: Pitch) -> None:
    assert pitch.midi == theirs(pitch).ps
    assert pitch.octave == theirs(pitch).octave


@given(pitches, st.sampled_from(INTERVALS), st.booleans())
def test_transposition_agrees_with_music21(pitch: Pitch, name: str, down: bool) -> None:
    their_interval = music21_interval.Interval(f"-{name}" if down and name != "P1" else name)
    moved = theirs(pitch).transpose(their_interval)
    steps, semitones = their_interval.generic.staffDistance, int(their_interval.semitones)

    ours = pitch + Interval(steps, semitones)

    assert ours.midi == moved.ps
    if abs(ours.alteration) <= 4:  # beyond four accidentals music21 respells
        assert ours.letter == moved.step
        assert ours.alteration == moved.alter
    assert ours.name == pitch.name + Interval(steps, semitones)


@given(pitches, pitches)
def test_the_distance_added_leads_there(one: Pitch, other: Pitch) -> None:
    assert one + (other - one) == other
    assert (other - one) == -(one - other)
    assert one + (one - one) == one


@given(pitches, st.integers(-20, 20), st.integers(-30, 30))
def test_there_and_back(pitch: Pitch, steps: int, semitones: int) -> None:
    interval = Interval(steps, semitones)

    assert pitch + interval + -interval == pitch
    assert (pitch + OCTAVE).name == pitch.name


def test_the_compass_is_the_pianos() -> None:
    """Common practice: 88 keys, from A0 to C8."""
    assert (Pitch.parse("A0").midi, Pitch.parse("C8").midi) == (LOWEST_MIDI, HIGHEST_MIDI)
    assert HIGHEST_MIDI - LOWEST_MIDI + 1 == 88


# Common practice: every note has three names with at most two sharps or flats, G sharp two.
NAMES = (
    "C Dbb B#", "Db C# B##", "D Ebb C##", "Eb D# Fbb", "E Fb D##", "F Gbb E#", "Gb F# E##", "G Abb F##",
    "Ab G#", "A Bbb G##", "Bb A# Cbb", "B Cb A##",
)  # fmt: skip


@pytest.mark.parametrize("pitch_class", range(12))
def test_spellings_sound_alike_and_the_plainest_comes_first(pitch_class: int) -> None:
    for midi in range(12 + pitch_class, 120, 12):
        found = spellings(midi)
        assert {pitch.midi for pitch in found} == {midi}
        assert sorted(str(pitch.name) for pitch in found) == sorted(NAMES[pitch_class].split())
        assert str(found[0].name) == NAMES[pitch_class].split()[0]
        assert [abs(pitch.alteration) for pitch in found] == sorted(abs(pitch.alteration) for pitch in found)


@pytest.mark.parametrize("text", ["", "H", "C#b", "Cbbb", "C###", "C 4", "c4", "1"])
def test_what_is_no_note_name(text: str) -> None:
    with pytest.raises(ValueError, match="not a note name"):
        NoteName.parse(text)


@pytest.mark.parametrize("text", ["", "C", "C10", "H4", "C-2", "C4 ", "Cb#4"])
def test_what_is_no_pitch(text: str) -> None:
    with pytest.raises(ValueError, match="not a pitch"):
        Pitch.parse(text)


@pytest.mark.parametrize(("alteration", "text"), [(0, ""), (1, "#"), (-1, "b"), (2, "##"), (-3, "bbb")])
def test_accidental_text(alteration: int, text: str) -> None:
    assert accidental_text(alteration) == text


@given(st.integers(-14, 14).map(NoteName))
def test_a_plain_name_sounds_the_same(name: NoteName) -> None:
    assert plain_name(name).pitch_class == name.pitch_class
    assert abs(plain_name(name).alteration) <= 1


@pytest.mark.parametrize(
    ("name", "easy"),
    [
        ("E#", "F"), ("B#", "C"), ("Cb", "B"), ("Fb", "E"), ("F##", "G"), ("Abb", "G"), ("B##", "C#"),
        ("Fbb", "Eb"), ("Gb", "Gb"), ("A#", "A#"), ("C", "C"), ("B", "B"),
    ],
)  # fmt: skip
def test_the_name_that_is_read_most_quickly(name: str, easy: str) -> None:
    """Common practice: no double accidental, and no black key's sign on a white key."""
    assert str(easy_name(NoteName.parse(name))) == easy


@given(st.integers(-7, 7).map(NoteName), st.integers(-7, 7).map(NoteName))
def test_the_interval_between_names_leads_from_one_to_the_other(one: NoteName, other: NoteName) -> None:
    assert one + one.interval_to(other) == other
    assert 0 <= one.interval_to(other).steps <= 6


def test_the_sharp_ninth_is_the_plain_minor_third() -> None:  # common practice
    assert str(name_over(NoteName.parse("E"), "#9")) == "G"
    assert str(NoteName.parse("E") + degree_interval("#9")) == "F##"


@pytest.mark.parametrize(
    ("text", "name"), [("B♭", "Bb"), ("f♯", "F#"), ("A♭♭", "Abb"), ("G♯♯", "G##"), ("Bb", "Bb")]
)
def test_names_may_be_written_with_signs(text: str, name: str) -> None:
    assert str(NoteName.parse(text)) == name


@pytest.mark.parametrize("text", ["", "H", "B♭#", "♭B", "Bb4", "B b"])
def test_what_is_no_name_is_refused(text: str) -> None:
    with pytest.raises(ValueError, match="is not a note name"):
        NoteName.parse(text)


def test_names_stand_in_the_order_of_fifths() -> None:
    """Common practice: F C G D A E B, flats before them and sharps after."""
    names = [NoteName.parse(text) for text in ("F#", "C", "Bb", "B", "F", "Ebb")]
    assert [str(name) for name in sorted(names)] == ["Ebb", "Bb", "F", "C", "B", "F#"]
