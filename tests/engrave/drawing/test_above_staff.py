"""What stands above a system: the names of scales over the chord symbols."""

from __future__ import annotations

import re
from collections.abc import Callable
from typing import Any

import pytest

from shedbook.engrave.drawing.score_drawing import draw
from shedbook.engrave.notation.score_style import ScoreStyle
from shedbook.engrave.notation.study_marks import StudyMarks
from shedbook.phrase.model import Phrase

Make = Callable[..., Phrase]


LONG = {0: "half-whole diminished", 1: "lydian dominant", 2: "phrygian dominant", 3: "altered"}


@pytest.mark.parametrize(
    ("line", "changes"),
    [
        ("1/8 c4 d e f g a b c5 | d c b4 a g f e d", "Dm7 G7 | C6 A7"),
        ("1/8 c4 d e f g a b c5", "Dm7 G7 C6 A7"),
        ("1/1 c5", "Dm7 G7 C6 A7"),
    ],
)
@pytest.mark.parametrize("tempo", [True, False])
def test_names_of_scales_are_staggered_where_they_would_meet(
    make: Make, ink: Any, line: str, changes: str, tempo: bool
) -> None:
    svg = draw(make(line, changes), StudyMarks(scales=LONG), ScoreStyle(tempo=tempo)).svg
    words = [box for box in ink.boxes(svg) if box.kind == "word"]
    left, top, width, _ = (int(n) for n in re.findall(r'viewBox="([^"]*)"', svg)[0].split())
    assert len(words) == 8 + tempo
    assert [(a, b) for i, a in enumerate(words) for b in words[i + 1 :] if a.overlaps(b)] == []
    for word in words:
        assert word.top >= top
        assert left <= word.left
        assert word.right <= left + width
    symbols = re.findall(r'<g transform="translate\(\d+ (-?\d+)\)"><use href="#sb', svg)
    assert len(set(symbols)) == 1
    if line.startswith("1/8"):
        names = re.findall(r'<g transform="translate\(\d+ (-?\d+)\)"><use href="#si', svg)
        assert 2 <= len(set(names)) <= 3


def test_a_name_stands_low_over_a_chord_that_has_none(make: Make) -> None:
    phrase = make("1/8 c4 d e f g a b c5", "Dm7 G7")
    low, plain = draw(phrase, StudyMarks(scales={0: "half-whole diminished"})), draw(phrase)
    assert low.height_mm - plain.height_mm == pytest.approx(330 * ScoreStyle().mm, abs=0.05)
