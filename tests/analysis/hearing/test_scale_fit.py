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
