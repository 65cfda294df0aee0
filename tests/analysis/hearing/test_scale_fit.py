"""The scale that the notes ask for over a chord."""

from __future__ import annotations

import pytest

from analysis.helpers import read
from shedbook.analysis.proof import proof


@pytest.mark.parametrize(
    ("changes", "line", "scale"),
    [
        # Common practice: b13 tells altered, natural 13 half-whole.
        ("G7b9 | Cm6", "1/4 g4 bb4 eb5 db5 | 1/1 c5", "altered"),
        ("G7b9 | Cm6", "1/4 g4 bb4 e5 db5 | 1/1 c5", "half-whole diminished"),
        ("G7 | Cmaj7", "1/4 g4 a4 b4 d5 | 1/1 c5", "mixolydian"),
    ],
)
def test_the_notes_choose_the_scale(changes: str, line: str, scale: str) -> None:
    found = read(changes, line)
    assert found.fits[0].scale is not None
    assert found.fits[0].scale.name == scale
    assert not found.fits[0].stated


def test_a_scale_that_does_not_fit_is_said() -> None:
    found = read("G7", "1/4 g4 ab4 bb4 c#5", "mixolydian")
    assert found.fits[0].better is not None
    assert found.fits[0].stated
    assert "scale-does-not-fit" in {finding.rule for finding in proof(found)}


# A plain dominant is half-whole only with its b9 or #11, and b9 with b13 is the fifth mode (common practice).
@pytest.mark.parametrize(
    ("changes", "line", "scale"),
    [
        ("G7 | Cmaj7", "1/8 g4 ab4 b4 d5 eb5 d5 ab4 g4 | 1/1 c5", "phrygian dominant"),
        ("G7 | Cmaj7", "1/8 e5 d5 bb4 ab4 c#5 bb4 ab4 g4 | 1/1 c5", "half-whole diminished"),
        ("G7 | Cmaj7", "1/8 g4 bb4 b4 d5 e5 d5 bb4 g4 | 1/1 c5", "mixolydian"),
        ("Dm7 | %", "1/8 d5 bb4 a4 bb4 g4 bb4 a4 f4 | 1/1 d4", "aeolian"),
        ("Cmaj7 | %", "1/8 c5 f#5 e5 f#5 g5 f#5 e5 d5 | 1/1 b4", "lydian"),
        ("F/G | Cmaj7", "1/8 g4 a4 b4 c5 d5 f5 e5 d5 | 1/1 c5", "mixolydian"),
    ],
)
def test_function_and_notes_choose_together(changes: str, line: str, scale: str) -> None:
    fit = read(changes, line).fits[0]
    assert fit.scale is not None
    assert fit.scale.name == scale


def test_a_bebop_scale_is_named_only_where_its_note_passes() -> None:  # common practice
    passing = read("G7 | Cmaj7", "1/8 g5 f# f e d c b4 a | 1/8 g4 f# f e d c b3 a")
    leapt = read("G7 | Cmaj7", "1/8 f#5 d f# a f# d b4 g | 1/1 c5")
    twice = read("G7 | %", "1/8 g5 f# f e d c b4 a | g f# f e 1/2 d")
    for found in (passing, leapt, twice):
        names = [fit.scale.name for fit in found.fits if fit.scale is not None]
        assert ("bebop dominant" in names) == (found is twice)
    notes = [note for note in twice.notes if note.degree == "7"]
    assert {note.role for note in notes} == {"passing note"}
    assert {note.membership for note in notes} == {"outside"}
