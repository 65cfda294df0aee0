"""The instruments of the band: programs against music21's, ranges against those of the editions."""

from __future__ import annotations

import pytest
from music21 import instrument

from shedbook.editions.tables.instruments import INSTRUMENTS
from shedbook.sound.arranging.tables.band_instruments import BAND_INSTRUMENTS, BandInstrumentRow
from shedbook.theory.pitch import Pitch

PROGRAMS = {
    "piano": instrument.Piano, "organ": instrument.ElectricOrgan, "vibraphone": instrument.Vibraphone,
    "guitar": instrument.ElectricGuitar, "nylon-string guitar": instrument.AcousticGuitar,
    "acoustic bass": instrument.AcousticBass, "electric bass": instrument.ElectricBass,
    "fretless bass": instrument.FretlessBass, "trumpet": instrument.Trumpet, "trombone": instrument.Trombone,
    "soprano saxophone": instrument.SopranoSaxophone, "alto saxophone": instrument.AltoSaxophone,
    "tenor saxophone": instrument.TenorSaxophone, "baritone saxophone": instrument.BaritoneSaxophone,
    "clarinet": instrument.Clarinet, "flute": instrument.Flute,
}  # fmt: skip
"""Names to music21's instruments of the same General MIDI program."""

KEYBOARDS = {"piano": (88, "A0"), "electric piano": (73, "E1"), "organ": (61, "C2")}
"""How many keys there are from which key on: common practice, from memory."""


def row_of(name: str) -> BandInstrumentRow:
    return next(row for row in BAND_INSTRUMENTS if row.name == name)


@pytest.mark.parametrize("row", BAND_INSTRUMENTS, ids=lambda row: row.name)
def test_programs_are_those_of_general_midi(row: BandInstrumentRow) -> None:
    """Electric Piano 1 is 4, counted from 0 (General MIDI 1): music21 has another electric piano."""
    kind = PROGRAMS.get(row.name)
    assert row.program == (4 if kind is None else kind().midiProgram)


@pytest.mark.parametrize("row", INSTRUMENTS, ids=lambda row: row.name)
def test_an_instrument_has_the_range_that_its_edition_has(row: object) -> None:
    """As it sounds: the ends are those of the full or of the widest range (Adler, from memory)."""
    name = {"double bass": "acoustic bass"}.get(row.name, row.name)  # type: ignore[attr-defined]
    own = next((one for one in BAND_INSTRUMENTS if one.name == name), None)
    if own is None or name in KEYBOARDS:
        return
    full, widest = (
        [Pitch.parse(text).midi - row.written_above[1] for text in both.split()]  # type: ignore[attr-defined]
        for both in (row.full, row.extreme)  # type: ignore[attr-defined]
    )
    assert own.lowest in (full[0], widest[0])
    assert own.highest in (full[1], widest[1])


@pytest.mark.parametrize("name", KEYBOARDS)
def test_keyboards_have_their_keys(name: str) -> None:
    keys, first = KEYBOARDS[name]
    row = row_of(name)
    assert (row.lowest, row.highest - row.lowest + 1) == (Pitch.parse(first).midi, keys)


def test_other_basses_and_the_nylon_strings_reach_as_far_as_their_kind() -> None:
    """Four strings from E1; six strings from E2, nineteen frets (common practice, from memory)."""
    assert row_of("fretless bass")[2:4] == row_of("electric bass")[2:4]
    assert row_of("nylon-string guitar")[2:4] == (40, 64 + 19)
