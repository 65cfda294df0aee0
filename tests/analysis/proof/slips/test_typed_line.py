"""The line in whole numbers; what is expected is common practice."""

from __future__ import annotations

import pytest

from analysis.helpers import read
from shedbook.analysis.proof.slips.tables.chord_kinds import ROWS
from shedbook.analysis.proof.slips.typed_line import LANDING, OFF, ON_BEAT, chord_kind, typed_line
from shedbook.theory.chord_symbol import parse_chord


@pytest.mark.parametrize(
    ("symbol", "kind"),
    [
        ("Cmaj7", "major seventh"), ("C", "major"), ("C6", "major"), ("C7", "dominant"), ("C13", "dominant"),
        ("C7b9", "altered dominant"), ("C7alt", "altered dominant"), ("Cm", "minor seventh"),
        ("Cm7", "minor seventh"), ("Cm6", "minor"), ("Cm(maj7)", "minor"), ("Cm7b5", "half-diminished"),
        ("Cdim7", "diminished"), ("C7sus4", "suspended"), ("N.C.", "no chord"),
    ],
)  # fmt: skip
def test_kinds_of_chord(symbol: str, kind: str) -> None:
    assert ROWS[chord_kind(parse_chord(symbol))].name == kind


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
