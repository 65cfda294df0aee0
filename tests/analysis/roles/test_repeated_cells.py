"""Cells that come again get the same explanation; the lines are our own, the law the project's design."""

from __future__ import annotations

import pytest

from analysis.helpers import both_keys


@pytest.mark.parametrize(
    ("changes", "scales", "line"),
    [
        ("G7", "mixolydian", "1/8 a4 ab bb a c5 b4 db5 c5"),
        ("C6", "ionian", "1/8 g4 f ab g a g bb a"),
        ("Dm7", "dorian", "1/8 ab4 b g a e g eb f"),
    ],
)
def test_an_enclosure_in_sequence_stays_one(changes: str, scales: str, line: str) -> None:
    for found in both_keys(changes, scales, line):
        roles = [note.role for note in found.notes]
        assert "enclosure" in roles[:4]
        assert [role == "enclosure" for role in roles[:4]] == [role == "enclosure" for role in roles[4:]]
        places = [note.target for note in found.notes]
        assert all(
            later == early + 4
            for early, later in zip(places[:4], places[4:], strict=True)
            if early is not None and early < 4 and later is not None
        )
