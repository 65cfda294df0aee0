"""Fingerboards: what their tables say, held against an outside library, and tunings as authors write them."""

from __future__ import annotations

import tomllib

import music21
import pytest
from hypothesis import given
from hypothesis import strategies as st

from shedbook.editions.fingering.fingerboard import Fingerboard, fingerboards, read_strings
from shedbook.editions.instruments.edition import edition_named
from shedbook.editions.instruments.instrument import instrument_named
from shedbook.editions.instruments.own_instruments import (
    instruments_from_fields,
    tunings_from_fields,
)
from shedbook.editions.tables.fingerboards import FINGERBOARDS
from shedbook.errors import ManuscriptError
from shedbook.theory.pitch import Pitch


@pytest.mark.parametrize(
    ("name", "theirs"),
    [("guitar", music21.instrument.Guitar), ("electric bass", music21.instrument.ElectricBass)],
)
def test_standard_tunings_are_those_of_music21(name: str, theirs: type[music21.instrument.Guitar]) -> None:
    strings = [string.midi for string in theirs().stringPitches]
    assert [string.midi for string in fingerboards()[name].strings] == strings


def test_a_fingerboard_reaches_as_far_as_the_full_range_of_its_instrument() -> None:
    for row in FINGERBOARDS:
        instrument = instrument_named(row.instrument)
        board = instrument.fingerboard
        assert board is not None
        assert row.source
        up = instrument.transposition.semitones
        assert board.strings[0].midi + up == instrument.bands.full.low.midi
        assert board.strings[-1].midi + board.frets + up == instrument.bands.full.high.midi


def test_what_has_no_frets_has_no_fingerboard() -> None:
    # Common practice: the strings of a double bass, a violin, a viola and a cello are stopped without frets.
    for name in ("double bass", "violin", "viola", "cello", "piano"):
        assert instrument_named(name).fingerboard is None
    assert edition_named("guitar").tablature is None  # only where it is asked for


@given(st.lists(st.integers(21, 90), min_size=3, max_size=8), st.integers(5, 30), st.integers(21, 108))
def test_every_place_of_a_note_sounds_it(opens: list[int], frets: int, midi: int) -> None:
    board = Fingerboard(tuple(_pitch(low) for low in opens), frets)
    places = board.places(midi)
    for string, fret in places:
        assert 0 <= fret <= frets
        assert board.open_midi(string) + fret == midi
    assert len(places) == sum(1 for low in opens if low <= midi <= low + frets)


def _pitch(midi: int) -> Pitch:
    names = ("C", "C#", "D", "Eb", "E", "F", "F#", "G", "Ab", "A", "Bb", "B")
    return Pitch.parse(f"{names[midi % 12]}{midi // 12 - 1}")


TUNINGS = [  # common practice, by the names that players use
    pytest.param("D2 A2 D3 G3 B3 E4", (38, 45, 50, 55, 59, 64), id="drop D"),
    pytest.param("E♭2, A♭2, D♭3, G♭3, B♭3, E♭4", (39, 44, 49, 54, 58, 63), id="half a step down"),
    pytest.param("B0 E1 A1 D2 G2", (23, 28, 33, 38, 43), id="five-string bass"),
    pytest.param("G4 C4 E4 A4", (67, 60, 64, 69), id="ukulele, not from low to high"),
    pytest.param("b1 e2 a2 d3 f#3 b3", (35, 40, 45, 50, 54, 59), id="baritone guitar, small letters"),
]


@pytest.mark.parametrize(("text", "midi"), TUNINGS)
def test_tunings_are_read(text: str, midi: tuple[int, ...]) -> None:
    assert tuple(string.midi for string in read_strings(text)) == midi


OWN = """
[[instrument]]
name = "baritone guitar"
transposition = "up an octave"
range = "B2 to A6"
tuning = "B1 E2 A2 D3 F#3 B3"
frets = 22
"""


def test_an_instrument_of_the_authors_has_a_fingerboard_if_it_has_a_tuning() -> None:
    (own,) = instruments_from_fields(tomllib.loads(OWN)["instrument"])
    assert own.fingerboard == Fingerboard(read_strings("B1 E2 A2 D3 F#3 B3"), 22)
    assert own.fingerboard.tuning == "B1 E2 A2 D3 F#3 B3"
    ((name, board),) = tunings_from_fields({"Baritone Guitar": "A1 D2 G2 C3 E3 A3"}, (own,))
    assert (name, board.frets, board.tuning) == ("baritone guitar", 22, "A1 D2 G2 C3 E3 A3")
    (plain,) = instruments_from_fields([{"name": "oud", "range": "C3 C5"}])
    assert plain.fingerboard is None


@pytest.mark.parametrize(
    ("fields", "field", "said"),
    [
        ({"tuning": "E2 A2 H3"}, "instrument.0.tuning", '"H3" is not a note with its octave'),
        ({"tuning": "E A D G"}, "instrument.0.tuning", '"E" is not a note with its octave'),
        ({"tuning": "E2 A2"}, "instrument.0.tuning", "it names 2 strings, not 3 to 12"),
        ({"tuning": ""}, "instrument.0.tuning", "it names 0 strings"),
        ({"tuning": ["E2", "A2"]}, "instrument.0.tuning", "must be text, but is a list"),
        ({"tuning": "E-1 A2 D3"}, "instrument.0.tuning", "leaves A0 to C8"),
        ({"tuning": "E2 A2 D3", "frets": 3}, "instrument.0.frets", "cannot have these frets: 3"),
        ({"tuning": "E2 A2 D3", "frets": True}, "instrument.0.frets", "cannot have these frets"),
        ({"frets": 22}, "instrument.0.frets", "has frets, but no strings"),
    ],
)
def test_what_is_wrong_with_a_fingerboard_is_said(fields: dict[str, object], field: str, said: str) -> None:
    with pytest.raises(ManuscriptError, match=said.replace("(", r"\(")) as raised:
        instruments_from_fields([{"name": "lute", "range": "E2 E5", **fields}])
    assert raised.value.field == field
    assert raised.value.hint


@pytest.mark.parametrize(
    ("value", "field", "said"),
    [
        ("E2", "tunings", "must be a table"),
        ({"gitar": "E2 A2 D3"}, "tunings.gitar", "no instrument called"),
        ({"violin": "G3 D4 A4 E5"}, "tunings.violin", "The violin has no frets"),
        ({"guitar": "E2 A2 X3"}, "tunings.guitar", '"X3" is not a note'),
        ({"guitar": 6}, "tunings.guitar", "must be text"),
    ],
)
def test_what_is_wrong_with_a_tuning_is_said(value: object, field: str, said: str) -> None:
    with pytest.raises(ManuscriptError, match=said) as raised:
        tunings_from_fields(value, ())
    assert raised.value.field == field
    assert raised.value.hint
