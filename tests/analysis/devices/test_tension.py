"""Tension: the sharp colours of a dominant, and the step that lets it go [common practice]."""

from __future__ import annotations

import pytest

from analysis.helpers import read
from shedbook.analysis.devices.tension import tension


@pytest.mark.parametrize(
    ("changes", "scales", "line", "found"),
    [
        ("C7alt | Fm6", "altered | melodic minor", "1/8 bb4 db5 eb e eb db bb4 db5 | 1/1 c5", (0, (1, 2), 8)),
        (
            "C7alt | Fm6",
            "altered | melodic minor",
            "1/8 bb4 db5 eb e eb db bb4 db5 | 1/1 f5",
            None,
        ),  # leaps away
        ("C7 | Fm6", "mixolydian | melodic minor", "1/8 c5 d e f g f e d | 1/1 c5", None),  # nothing pulls
        ("C7alt", "altered", "1/8 bb4 db5 eb e eb db bb4 db5", None),  # it goes nowhere
        ("C7b9 | Fm6", "half-whole diminished | ", "1/8 c5 db c bb4 g bb c5 db | 1/1 c5", None),  # one colour
    ],
)
def test_tension(
    changes: str, scales: str, line: str, found: tuple[int, tuple[int, ...], int] | None
) -> None:
    one = tension(read(changes, line, scales))
    assert (None if one is None else (one.span, one.notes, one.release)) == found
