"""The skeleton of a line [common practice]."""

from __future__ import annotations

import pytest

from analysis.helpers import read
from shedbook.analysis.devices.skeleton import skeleton


@pytest.mark.parametrize(
    ("changes", "line", "notes"),
    [
        ("Dm7 | G7", "1/8 f4 g a b c5 b4 a g | b4 a g f d e f g", (0, 4, 8, 12)),
        ("Dm7 | G7", "1/8 e4 g a b c5 b4 a g | b4 a g f d e f g", ()),  # E is a colour
        ("Dm7 | G7", "1/2 f4 c5 | b4 d", ()),  # nothing hangs on it
        ("Dm7 | G7", "1/8 f4 g a b f g a g | f4 a g f f e f g", ()),  # one pitch
        ("Dm7 | G7", "1/8 f4 g a b f g a g | b4 a g f d e f g", (0, 8, 12)),  # struck again: told once
        ("N.C. | N.C.", "1/8 f4 g a b c5 b4 a g | b4 a g f d e f g", ()),
    ],
)
def test_skeletons(changes: str, line: str, notes: tuple[int, ...]) -> None:
    assert skeleton(read(changes, line)) == notes
