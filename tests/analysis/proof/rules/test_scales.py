"""Rules on scales: what they only pass through."""

from __future__ import annotations

import pytest

from analysis.helpers import read
from shedbook.analysis.proof import proof


# A half step above a chord tone: b9 and b13 of a dominant are colours, the project's design.
@pytest.mark.parametrize(
    ("changes", "scales", "line", "fires"),
    [
        ("Cmaj7", "ionian", "1/2 e4 f4", True),
        ("Cm7", "aeolian", "1/2 eb4 ab4", True),
        ("Cm7b5", "locrian", "1/2 eb4 db4", True),
        ("C7", "half-whole diminished", "1/2 e4 db4", False),
        ("C7", "mixolydian b6", "1/2 e4 ab4", False),
        ("Cmaj7", "ionian", "1/2 g4 1/8 f4 e4 1/4 c4", False),
    ],
)
def test_notes_to_pass_through(changes: str, scales: str, line: str, fires: bool) -> None:
    found = {one.rule for one in proof(read(changes, line, scales))}
    assert ("pass-through-held" in found) == fires
