from __future__ import annotations

import music21
import pytest

from shedbook.editions.instruments.edition import group_editions, group_of
from shedbook.editions.instruments.instrument import (
    Instrument,
    instrument_named,
    instruments,
    plain_words,
)
from shedbook.editions.tables.editions import EDITIONS
from shedbook.editions.tables.instruments import CLEFS, INSTRUMENTS
from shedbook.engrave.notation.mei_score import CLEFS as ENGRAVED
from shedbook.errors import UnknownNameError

EVERY = pytest.mark.parametrize("instrument", instruments(), ids=lambda one: one.name)


@EVERY
def test_ranges_lie_inside_one_another(instrument: Instrument) -> None:
    bands = instrument.bands
    assert bands.extreme.holds(bands.full)
    assert bands.full.holds(bands.comfortable)
    assert bands.comfortable.high.midi - bands.comfortable.low.midi >= 12
    assert instrument.source


@EVERY
def test_clefs_can_be_engraved_and_suit_the_comfortable_range(instrument: Instrument) -> None:
    assert set(instrument.clefs) <= set(ENGRAVED)
    # Middle line by clef: B4, B3 (octave treble), D3, C4 (alto). More than three ledger lines lie badly.
    middle = {"G2": 71, "G2-8": 59, "F4": 50, "C3": 60}[instrument.clef]
    comfortable = instrument.bands.comfortable
    assert comfortable.low.midi - middle >= -21
    assert comfortable.high.midi - middle <= 21


def test_no_name_means_two_things() -> None:
    seen: set[str] = set()
    tables = [(row.name, *row.aliases) for row in EDITIONS] + [
        (row.name, *row.aliases) for row in INSTRUMENTS
    ]
    for names in tables:
        plain = [plain_words(name) for name in names]
        assert not seen & set(plain)
        assert len(set(plain)) == len(plain)
        seen |= set(plain)
    assert len({name for row in CLEFS for name in row.names}) == sum(len(row.names) for row in CLEFS)


# music21 10.5's table, where it knows the instrument; its guitar and its basses lack the octave.
MUSIC21 = [
    ("flute", music21.instrument.Flute),
    ("clarinet", music21.instrument.Clarinet),
    ("bass clarinet", music21.instrument.BassClarinet),
    ("soprano saxophone", music21.instrument.SopranoSaxophone),
    ("alto saxophone", music21.instrument.AltoSaxophone),
    ("tenor saxophone", music21.instrument.TenorSaxophone),
    ("baritone saxophone", music21.instrument.BaritoneSaxophone),
    ("trumpet", music21.instrument.Trumpet),
    ("trombone", music21.instrument.Trombone),
    ("horn in F", music21.instrument.Horn),
    ("violin", music21.instrument.Violin),
    ("viola", music21.instrument.Viola),
    ("cello", music21.instrument.Violoncello),
    ("double bass", music21.instrument.Contrabass),
    ("piano", music21.instrument.Piano),
]


@pytest.mark.parametrize(("name", "theirs"), MUSIC21, ids=[name for name, _ in MUSIC21])
def test_transposition_is_music21s(name: str, theirs: type[music21.instrument.Instrument]) -> None:
    written_to_sounding = theirs().transposition or music21.interval.Interval("P1")
    ours = instrument_named(name).transposition
    assert ours.semitones == -written_to_sounding.semitones
    assert ours.steps == -written_to_sounding.generic.staffDistance


# Lowest written notes in music21 10.5's table. Its saxophones have no low A; its horn's is a pedal note.
LOWEST = [(name, kind) for name, kind in MUSIC21 if name not in ("baritone saxophone", "horn in F", "piano")]


@pytest.mark.parametrize(("name", "theirs"), LOWEST, ids=[name for name, _ in LOWEST])
def test_lowest_note_is_music21s(name: str, theirs: type[music21.instrument.Instrument]) -> None:
    lowest = theirs().lowestNote
    assert lowest is not None
    assert instrument_named(name).bands.full.low.midi == lowest.midi


# Written above sounding: handbook values, from memory (Adler), for all that music21 has and has not.
WRITTEN_ABOVE = {
    "flute": (0, 0), "clarinet": (1, 2), "bass clarinet": (8, 14), "soprano saxophone": (1, 2),
    "alto saxophone": (5, 9), "tenor saxophone": (8, 14), "baritone saxophone": (12, 21), "trumpet": (1, 2),
    "flugelhorn": (1, 2), "trombone": (0, 0), "horn in F": (4, 7), "violin": (0, 0), "viola": (0, 0),
    "cello": (0, 0), "guitar": (7, 12), "double bass": (7, 12), "electric bass": (7, 12), "piano": (0, 0),
    "vibraphone": (0, 0), "soprano voice": (0, 0), "mezzo-soprano voice": (0, 0), "alto voice": (0, 0),
    "tenor voice": (0, 0), "baritone voice": (0, 0), "bass voice": (0, 0),
}  # fmt: skip


@EVERY
def test_written_above_sounding(instrument: Instrument) -> None:
    assert (instrument.transposition.steps, instrument.transposition.semitones) == WRITTEN_ABOVE[
        instrument.name
    ]


# Sounding ranges in which 97.5 % or more of the notes of transcribed solos lie, as MIDI numbers.
SOUNDING = {
    "soprano saxophone": (56, 88), "alto saxophone": (49, 80), "tenor saxophone": (44, 75),
    "baritone saxophone": (36, 69), "trumpet": (52, 82), "flugelhorn": (52, 82), "clarinet": (50, 94),
    "trombone": (40, 77), "vibraphone": (53, 89), "guitar": (40, 88), "flute": (60, 96), "violin": (55, 100),
    "double bass": (28, 67), "electric bass": (28, 67),
}  # fmt: skip


@pytest.mark.parametrize("name", SOUNDING)
def test_full_range_is_that_of_solos(name: str) -> None:
    instrument = instrument_named(name)
    band = instrument.bands.extreme if name == "clarinet" else instrument.bands.full
    up = instrument.transposition.semitones
    assert (band.low.midi - up, band.high.midi - up) == SOUNDING[name]


@pytest.mark.parametrize(
    ("text", "name"),
    [
        ("Tenor Sax", "tenor saxophone"),
        ("bari sax", "baritone saxophone"),
        ("horn", "horn in F"),
        ("French horn", "horn in F"),
        ("mezzo-soprano voice", "mezzo-soprano voice"),
        ("Upright  Bass", "double bass"),
        ("Clarinet in B♭", "clarinet"),
        ("Flügelhorn", "flugelhorn"),
    ],
)
def test_names(text: str, name: str) -> None:
    assert instrument_named(text).name == name


@pytest.mark.parametrize(
    ("text", "hint"),
    [
        ("tenor", 'Did you mean "tenor saxophone" or "tenor voice"?'),
        ("trumpt", 'Did you mean "trumpet"'),
        ("kazoo", "Known are flute, clarinet"),
    ],
)
def test_an_unknown_name_brings_the_nearest(text: str, hint: str) -> None:
    with pytest.raises(UnknownNameError, match="no instrument") as caught:
        instrument_named(text)
    assert caught.value.hint.startswith(hint)


def test_every_instrument_has_its_group() -> None:
    groups = {edition.name for edition in group_editions()}
    found = {instrument.name: group_of(instrument) for instrument in instruments()}
    assert set(found.values()) == groups
    assert found["bass clarinet"] == "bflat"
    assert found["baritone saxophone"] == "eflat"
    assert found["guitar"] == found["viola"] == found["tenor voice"] == "concert"
    assert found["trombone"] == found["electric bass"] == "bass"
