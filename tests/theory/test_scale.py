"""Scales: the table's notes, names and set classes, and how they are spelled."""

from __future__ import annotations

from itertools import combinations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from music21 import chord as music21_chord
from music21 import scale as music21_scale

from shedbook.errors import TableError, UnknownNameError
from shedbook.theory.interval import degree_interval
from shedbook.theory.pitch import NoteName
from shedbook.theory.scale import Scale, index, parse_scale, scale_row
from shedbook.theory.tables.scales import SCALES, ScaleRow

C = NoteName(0)
_MAJOR_MODES = ["ionian", "dorian", "phrygian", "lydian", "mixolydian", "aeolian", "locrian"]
_MELODIC_MODES = [
    "melodic minor", "dorian b2", "lydian augmented", "lydian dominant", "mixolydian b6",
    "locrian natural 2", "altered",
]  # fmt: skip
_HARMONIC_MINOR_MODES = [
    "harmonic minor", "locrian natural 6", "ionian augmented", "dorian #4", "phrygian dominant", "lydian #2",
    "altered bb7",
]  # fmt: skip
_HARMONIC_MAJOR_MODES = [
    "harmonic major", "dorian b5", "phrygian b4", "lydian b3", "mixolydian b2", "lydian augmented #2",
    "locrian bb7",
]  # fmt: skip

# Forte 1973, The Structure of Atonal Music, appendix 1: set class and interval vector.
FORTE = [
    *((name, "7-35", "254361") for name in _MAJOR_MODES),
    *((name, "7-34", "254442") for name in _MELODIC_MODES),
    *((name, "7-32", "335442") for name in _HARMONIC_MINOR_MODES + _HARMONIC_MAJOR_MODES),
    ("half-whole diminished", "8-28", "448444"),
    ("whole-half diminished", "8-28", "448444"),
    ("whole tone", "6-35", "060603"),
    ("augmented", "6-20", "303630"),
    ("bebop dominant", "8-23", "465472"),
    ("bebop dorian", "8-23", "465472"),
    ("bebop major", "8-26", "456562"),
    ("bebop melodic minor", "8-27", "456553"),
    ("major pentatonic", "5-35", "032140"),
    ("minor pentatonic", "5-35", "032140"),
    ("blues", "6-Z47", "233241"),
    ("major blues", "6-Z47", "233241"),
    ("chromatic", "12-1", "CCCCC6"),
]


def classes(name: str) -> list[int]:
    """Return the pitch classes of a scale on C, worked out from the printed degrees."""
    return [degree_interval(degree).semitones % 12 for degree in scale_row(name).degrees]


def interval_vector(pitch_classes: list[int]) -> str:
    """Return the interval vector by its definition: how often each of the six interval classes occurs."""
    found = [0] * 6
    for one, other in combinations(pitch_classes, 2):
        distance = abs(one - other) % 12
        found[min(distance, 12 - distance) - 1] += 1
    return "".join(f"{count:X}" for count in found)


@pytest.mark.parametrize(("name", "forte", "vector"), FORTE, ids=[row[0] + " [Forte 1973]" for row in FORTE])
def test_set_class_and_interval_vector(name: str, forte: str, vector: str) -> None:
    notes = classes(name)
    found = music21_chord.Chord(notes)

    assert interval_vector(notes) == vector
    # music21 writes Z classes without the Z and adds A or B for the inversion.
    assert found.forteClass.rstrip("AB") == forte.replace("Z", "")
    assert found.intervalVector == [int(digit, 16) for digit in vector]


def test_every_scale_has_a_row_here() -> None:
    assert {row[0] for row in FORTE} == {row.name for row in SCALES}


# How many transpositions a scale has before it repeats: Forte 1973, appendix 1.
@pytest.mark.parametrize(
    ("name", "count"),
    [
        ("half-whole diminished", 3),
        ("whole-half diminished", 3),
        ("whole tone", 2),
        ("augmented", 4),
        ("dorian", 12),
    ],
)
def test_how_many_transpositions_a_scale_has(name: str, count: int) -> None:
    notes = classes(name)

    assert len({frozenset((note + up) % 12 for note in notes) for up in range(12)}) == count


@pytest.mark.parametrize(
    ("parent", "modes"),
    [
        ("ionian", _MAJOR_MODES),
        ("melodic minor", _MELODIC_MODES),
        ("harmonic minor", _HARMONIC_MINOR_MODES),
        ("harmonic major", _HARMONIC_MAJOR_MODES),
    ],
)
def test_the_modes_are_rotations_in_order(parent: str, modes: list[str]) -> None:  # by definition
    notes = classes(parent)

    for place, name in enumerate(modes):
        rotated = [(note - notes[place]) % 12 for note in notes[place:] + notes[:place]]
        assert classes(name) == rotated


@pytest.mark.parametrize(
    ("name", "degrees", "notes"),
    [
        ("half-whole diminished", "1 b9 #9 3 #11 5 13 b7", "C Db Eb E F# G A Bb"),  # common practice
        ("altered", "1 b9 #9 3 #11 b13 b7", "C Db Eb E Gb Ab Bb"),
        ("whole tone", "1 9 3 #11 b13 b7", "C D E F# G# Bb"),
        ("whole-half diminished", "1 9 b3 11 b5 b13 bb7 7", "C D Eb F Gb Ab A B"),
        ("lydian dominant", "1 2 3 #4 5 6 b7", "C D E F# G A Bb"),
        ("locrian natural 2", "1 2 b3 4 b5 b6 b7", "C D Eb F Gb Ab Bb"),
        ("phrygian dominant", "1 b2 3 4 5 b6 b7", "C Db E F G Ab Bb"),
        ("bebop dominant", "1 2 3 4 5 6 b7 7", "C D E F G A Bb B"),
        ("bebop major", "1 2 3 4 5 #5 6 7", "C D E F G G# A B"),
        ("augmented", "1 #2 3 5 #5 7", "C Eb E G G# B"),
        ("blues", "1 b3 4 b5 5 b7", "C Eb F Gb G Bb"),
    ],
)
def test_degrees_and_notes(name: str, degrees: str, notes: str) -> None:
    row = scale_row(name)

    assert " ".join(row.degrees) == degrees
    assert " ".join(str(note) for note in Scale(C, row).notes) == notes


@pytest.mark.parametrize(
    ("text", "notes"),
    [
        ("F half-whole diminished", "F Gb Ab A B C D Eb"),  # A flat over F, the plain minor third
        ("E half-whole diminished", "E F G G# A# B C# D"),  # G over E, never F double sharp
        ("G half-whole diminished", "G Ab Bb B C# D E F"),
        ("F# half-whole diminished", "F# G A A# C C# D# E"),
        ("C# whole-half diminished", "C# D# E F# G A Bb C"),
        ("Ab altered", "Ab A Cb C D Fb Gb"),
        ("Eb half-whole diminished", "Eb Fb Gb G A Bb C Db"),  # F flat as Eb7b9 spells it
        ("F# altered", "F# G A A# C D E"),
        ("Eb whole-half diminished", "Eb F Gb Ab A B C D"),
        ("D# altered", "D# E F# G A B C#"),
        ("G# harmonic minor", "G# A# B C# D# E G"),
        ("Gb ionian", "Gb Ab Bb Cb Db Eb F"),
        ("C# lydian", "C# D# E# G G# A# B#"),
        ("bb whole tone", "Bb C D E F# Ab"),
    ],
)
def test_letters_are_the_players(text: str, notes: str) -> None:  # common practice
    assert " ".join(str(note) for note in parse_scale(text).notes) == notes


def test_whole_half_from_b_is_half_whole_from_g() -> None:  # common practice
    assert parse_scale("B whole-half").pitch_classes == parse_scale("G half-whole").pitch_classes


def test_half_whole_and_altered_differ_in_fifth_and_thirteenth_only() -> None:  # common practice
    half_whole, altered = set(scale_row("half-whole").degrees), set(scale_row("altered").degrees)

    assert {"b9", "#9", "#11"} <= half_whole & altered
    assert half_whole - altered == {"5", "13"}
    assert altered - half_whole == {"b13"}


@pytest.mark.parametrize(
    ("alias", "name"),
    [  # common practice
        ("major", "ionian"),
        ("natural minor", "aeolian"),
        ("jazz minor", "melodic minor"),
        ("phrygian #6", "dorian b2"),
        ("Lydian b7", "lydian dominant"),
        ("overtone", "lydian dominant"),
        ("acoustic scale", "lydian dominant"),
        ("half-diminished", "locrian natural 2"),
        ("half diminished scale", "locrian natural 2"),
        ("Locrian #2", "locrian natural 2"),
        ("locrian ♮2", "locrian natural 2"),
        ("diminished whole-tone", "altered"),
        ("super-locrian", "altered"),
        ("Superlocrian", "altered"),
        ("fifth mode of harmonic minor", "phrygian dominant"),
        ("5th mode of harmonic minor", "phrygian dominant"),
        ("mixolydian b9 b13", "phrygian dominant"),
        ("mixolydian ♭9 ♭13", "phrygian dominant"),
        ("dominant diminished", "half-whole diminished"),
        ("half-whole", "half-whole diminished"),
        ("HALF WHOLE", "half-whole diminished"),
        ("diminished", "whole-half diminished"),
        ("whole-tone", "whole tone"),
        ("pentatonic", "major pentatonic"),
        ("blues scale", "blues"),
        ("lydian #5", "lydian augmented"),
        ("mixolydian b13", "mixolydian b6"),
    ],
)
def test_names_of_the_trade(alias: str, name: str) -> None:
    assert scale_row(alias).name == name


@pytest.mark.parametrize("row", SCALES, ids=[row.name for row in SCALES])
def test_rows_are_whole(row: ScaleRow) -> None:
    assert row.degrees[0] == row.spelled[0] == "1"
    assert len(row.degrees) == len(row.spelled)
    printed = [degree_interval(degree).semitones % 12 for degree in row.degrees]
    assert printed == [degree_interval(degree).semitones for degree in row.spelled]
    assert printed == sorted(set(printed))
    assert row.source
    for name in (row.name, *row.aliases):
        assert scale_row(name) is row


@given(st.integers(-9, 9).map(NoteName), st.sampled_from(SCALES))
def test_no_note_has_a_double_accidental_and_the_sound_is_kept(root: NoteName, row: ScaleRow) -> None:
    notes = Scale(root, row).notes

    assert notes[0] == root
    assert all(abs(note.alteration) <= 1 for note in notes[1:])
    expected = [(root.pitch_class + degree_interval(degree).semitones) % 12 for degree in row.spelled]
    assert [note.pitch_class for note in notes] == expected


# music21's own scales; its OctatonicScale is the whole-half form only.
@pytest.mark.parametrize(
    ("name", "theirs"),
    [
        ("ionian", music21_scale.MajorScale),
        ("dorian", music21_scale.DorianScale),
        ("phrygian", music21_scale.PhrygianScale),
        ("lydian", music21_scale.LydianScale),
        ("mixolydian", music21_scale.MixolydianScale),
        ("aeolian", music21_scale.MinorScale),
        ("locrian", music21_scale.LocrianScale),
        ("harmonic minor", music21_scale.HarmonicMinorScale),
        ("melodic minor", music21_scale.MelodicMinorScale),
        ("whole tone", music21_scale.WholeToneScale),
        ("whole-half diminished", music21_scale.OctatonicScale),
    ],
)
def test_agrees_with_music21(name: str, theirs: type[music21_scale.ConcreteScale]) -> None:
    for root in ("C", "Eb", "F#", "A"):
        pitches = theirs(root.replace("b", "-")).getPitches(
            f"{root.replace('b', '-')}4", f"{root.replace('b', '-')}5"
        )

        assert parse_scale(f"{root} {name}").pitch_classes == {pitch.pitchClass for pitch in pitches}


def test_a_scale_may_carry_its_own_root() -> None:
    scale = parse_scale("C melodic minor", root=NoteName.parse("G"))

    assert str(scale) == "C melodic minor"
    assert str(parse_scale("melodic minor", root=NoteName.parse("G"))) == "G melodic minor"
    assert str(scale.transposed(degree_interval("b3"))) == "Eb melodic minor"
    assert scale.name == "melodic minor"


@pytest.mark.parametrize(
    ("text", "hint"),
    [("doriann", "dorian"), ("C mixolidian", "mixolydian"), ("xyzzy", "half-whole"), ("", "")],
)
def test_an_unknown_scale_is_named_with_what_is_near(text: str, hint: str) -> None:
    with pytest.raises(UnknownNameError) as raised:
        parse_scale(text, root=C)

    assert hint in raised.value.hint


def test_a_name_for_two_scales_is_refused() -> None:
    twice = SCALES[1]._replace(aliases=("Ionian scale",))

    with pytest.raises(TableError, match=r'"Ionian scale" stands twice.*scales\.py'):
        index((SCALES[0], twice))


HALVES = [
    pytest.param({"name": ""}, "a scale without a name", id="no name"),
    pytest.param({"source": ""}, "has no source", id="no source"),
    pytest.param({"degrees": ("2", "3")}, "do not begin with 1", id="without its root"),
    pytest.param({"spelled": ("1", "2")}, "more or fewer than its letters", id="spelled otherwise"),
    pytest.param({"degrees": ("1", "x"), "spelled": ("1", "x")}, 'a degree "x"', id="no degree"),
]


@pytest.mark.parametrize(("changed", "message"), HALVES)
def test_half_a_scale_is_refused(changed: dict[str, object], message: str) -> None:
    """The message says what is missing, the hint where to write it. Source: our own design."""
    with pytest.raises(TableError) as caught:
        index((SCALES[1]._replace(**changed),))  # type: ignore[arg-type]
    assert message in caught.value.message
    assert "src/shedbook/theory/tables/scales.py" in caught.value.hint


def test_a_scale_without_a_root_is_refused() -> None:
    with pytest.raises(UnknownNameError, match="root"):
        parse_scale("dorian")
