"""Chords over a bass that is none of their tones."""

from __future__ import annotations

import pytest

from shedbook.errors import TableError
from shedbook.theory.chord_symbol import parse_chord
from shedbook.theory.interval import Interval
from shedbook.theory.pitch import NoteName
from shedbook.theory.slash_chords import index, over_bass
from shedbook.theory.tables.slash_chords import SLASH_CHORDS, SlashChordRow


@pytest.mark.parametrize("row", SLASH_CHORDS, ids=[row.example for row in SLASH_CHORDS])
def test_every_row_is_heard_on_its_bass_and_holds_what_is_written(row: SlashChordRow) -> None:
    """Source: our own design; the example of a row stands over C."""
    written = parse_chord(row.example)
    sounding = over_bass(written)
    assert sounding.root == NoteName(0)
    assert sounding.bass is None
    assert sounding.meaning == parse_chord(f"C{row.heard}").meaning
    assert row.source
    # D/C names neither third nor fifth of what is heard, but nothing that is written may speak against it.
    wrong = {"3": "b3", "b3": "3", "7": "b7", "b7": "7"}
    assert all(wrong.get(sounding.degree_of(one)) not in sounding.degrees for one in written.pitch_classes)


# Common practice.
@pytest.mark.parametrize(
    ("symbol", "heard"),
    [
        ("F/G", "G9sus4"), ("C/D", "D9sus4"), ("Bbmaj7/C", "C13sus4"), ("Dm7/G", "G9sus4"),
        ("Gb/Ab", "Ab9sus4"), ("E/A#", "A#7(b9,#11)"),
        ("C/E", "C/E"), ("C/G", "C/G"), ("C7/Bb", "C7/Bb"), ("Am7/G", "Am7/G"),
        ("C7", "C7"), ("N.C.", "N.C."),
    ],
)  # fmt: skip
def test_what_sounds(symbol: str, heard: str) -> None:
    assert over_bass(parse_chord(symbol)).meaning == parse_chord(heard).meaning


def test_it_moves_with_the_chord() -> None:
    up = Interval(2, 4)
    for row in SLASH_CHORDS:
        chord = parse_chord(row.example)
        assert over_bass(chord.transposed(up)).meaning == over_bass(chord).transposed(up).meaning


@pytest.mark.parametrize(
    ("row", "message"),
    [
        (SLASH_CHORDS[0], "has two rows"),
        (SLASH_CHORDS[0]._replace(above="4", example="F/C"), "stands over one of its own tones"),
        (SLASH_CHORDS[0]._replace(above="b6", uppers=("m",), source=""), "has no source"),
    ],
)
def test_half_a_row_is_refused(row: SlashChordRow, message: str) -> None:
    """Source: our own design."""
    with pytest.raises(TableError, match=message):
        index((*SLASH_CHORDS, row))
