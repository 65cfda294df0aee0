"""Rules on the shape of the line: extreme registers."""

from __future__ import annotations

from analysis.helpers import read
from shedbook.analysis.proof import proof


def test_all_outside_and_extreme_registers_have_an_account() -> None:
    found = read("Cmaj7", "1/8 c#1 d#2 f#7 g#6 a#1 c#7 d#4 f#1", "ionian")
    assert len(found.notes) == 8
    assert proof(found)
