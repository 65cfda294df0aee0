"""Figures: arpeggios, runs, sequences, enclosures, delayed resolutions: common practice."""

from __future__ import annotations

import pytest

from analysis.helpers import read
from shedbook.analysis.account.figures import DELAYED


@pytest.mark.parametrize(
    ("line", "kind", "first", "last"),
    [
        ("1/8 c4 e4 g4 b4 a4 g4 f4 e4", "arpeggio", 0, 3),
        ("1/8 c4 e4 g4 b4 a4 g4 f4 e4", "run", 3, 7),
        ("1/8 c4 d4 e4 c4 d4 e4 f4 d4", "sequence", 0, 7),
        ("1/8 c4 g4 d4 b3 1/2 c4", "enclosure", 2, 3),
        ("1/8 c5 d#4 g4 e4 1/2 c4", "delayed resolution", 1, 3),
    ],
)
def test_figures(line: str, kind: str, first: int, last: int) -> None:
    found = read("Cmaj7", line, "ionian")
    assert (kind, first, last) in {(one.kind, one.first, one.last) for one in found.figures}


def test_a_seventh_that_resolves_after_other_notes_is_a_delayed_resolution() -> None:
    found = read("Cm7 | F7", "1/8 c4 eb g bb 1/4 bb g | 1/8 c5 g4 a c5 1/2 f", "dorian | mixolydian")
    assert [(one.first, one.target) for one in found.figures if one.kind == DELAYED] == [(4, 8)]
    at_once = read("Cm7 | F7", "1/8 c4 eb g bb 1/4 g bb | 1/8 a4 c5 g4 a 1/2 f", "dorian | mixolydian")
    assert not [one for one in at_once.figures if one.kind == DELAYED]
