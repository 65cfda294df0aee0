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


SHORT = {"half-whole diminished": "half-whole", "phrygian dominant": "phryg. dominant"}


@pytest.mark.parametrize(
    ("line", "changes"),
    [
        ("1/8 c4 d e f g a b c5 | d c b4 a g f e d", "Dm7 G7 | C6 A7"),
        ("1/8 c4 d e f g a b c5", "Dm7 G7 C6 A7"),
        ("1/1 c5", "Dm7 G7 C6 A7"),
    ],
)
@pytest.mark.parametrize("tempo", [True, False])
def test_a_name_ends_before_the_next_chord(
    make: Make, ink: Any, line: str, changes: str, tempo: bool
) -> None:
    svg = draw(make(line, changes), StudyMarks(scales=LONG, shorter=SHORT), ScoreStyle(tempo=tempo)).svg
    words = [box for box in ink.boxes(svg) if box.kind == "word"]
    left, top, width, _ = (int(n) for n in re.findall(r'viewBox="([^"]*)"', svg)[0].split())
    assert [(a, b) for i, a in enumerate(words) for b in words[i + 1 :] if a.overlaps(b)] == []
    for word in words:
        assert word.top >= top
        assert left <= word.left
        assert word.right <= left + width
    symbols = [int(x) for x in re.findall(r'<g transform="translate\((\d+) -?\d+\)"><use href="#sb', svg)]
    names = re.findall(r'<g transform="translate\((\d+) (-?\d+)\)"><use href="#si', svg)
    assert {int(x) for x, _ in names} <= set(symbols)  # each begins over its own chord
    tops = {box.top for box in words}
    assert len(tops) > 1
    places = sorted(set(symbols))
    for x, _ in names:
        after = [place for place in places if place > int(x)]
        own = [box for box in words if abs(box.left - int(x)) < 40]
        assert own
        assert not after or all(box.right <= min(after) for box in own)


@pytest.mark.parametrize(
    ("name", "shorter", "lines"),
    [
        pytest.param("dorian", {}, 1, id="it fits"),
        pytest.param(
            "half-whole diminished", {"half-whole diminished": "half-whole"}, 1, id="its short form"
        ),
        pytest.param("phrygian dominant", {}, 2, id="two lines"),
        pytest.param("a name that no chord leaves any room for at all", {}, 0, id="the written scale has it"),
    ],
)
def test_forms_of_a_name(make: Make, name: str, shorter: dict[str, str], lines: int) -> None:
    phrase = make("1/8 c4 d e f g a b c5", "Dm7 G7")
    svg = draw(phrase, StudyMarks(scales={0: name}, shorter=shorter)).svg
    found = re.findall(r'<g transform="translate\(\d+ (-?\d+)\)"><use href="#si', svg)
    assert len(found) == len(set(found)) == lines


def test_a_name_stands_low_over_a_chord_that_has_none(make: Make) -> None:
    phrase = make("1/8 c4 d e f g a b c5 | c d e f g a b c", "Dm7 | G7")
    low, plain = draw(phrase, StudyMarks(scales={0: "half-whole diminished"})), draw(phrase)
    assert low.height_mm - plain.height_mm == pytest.approx(330 * ScoreStyle().mm, abs=0.05)
