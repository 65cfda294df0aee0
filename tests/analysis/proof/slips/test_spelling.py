"""What was meant is spelled by its chord; common practice."""

from __future__ import annotations

import pytest

from analysis.helpers import read
from shedbook.analysis.proof.slips.spelling import chord_with_kind, meant_pitch
from shedbook.analysis.proof.slips.tables.chord_kinds import HALF_DIMINISHED, MAJOR, MINOR, MINOR_SEVENTH
from shedbook.theory.chord_symbol import parse_chord


@pytest.mark.parametrize(
    ("symbol", "note", "shift", "name"),
    [
        ("Ab7", "e4", -1, "Eb4"), ("Ab7", "g4", -1, "Gb4"), ("F#maj7", "a4", 1, "A#4"),
        ("E7", "g4", 1, "G#4"), ("Bbm7", "c5", 1, "Db5"), ("E7", "a4", 1, "A#4"),
        ("Db7", "eb5", -1, "D5"), ("N.C.", "a4", 1, "Bb4"),
    ],
)  # fmt: skip
def test_notes(symbol: str, note: str, shift: int, name: str) -> None:
    (only,) = read(symbol, f"1/1 {note}").notes
    assert str(meant_pitch(only, shift)) == name


@pytest.mark.parametrize(
    ("symbol", "kind", "text"),
    [
        ("G7", MINOR_SEVENTH, "Gm7"), ("Bm7", HALF_DIMINISHED, "Bm7b5"), ("C", MINOR, "Cm"),
        ("Cm6", MAJOR, "C6"),
        ("Eb7/Bb", MINOR_SEVENTH, "Ebm7/Bb"),
    ],
)  # fmt: skip
def test_chords(symbol: str, kind: int, text: str) -> None:
    assert chord_with_kind(parse_chord(symbol), kind).text == text
