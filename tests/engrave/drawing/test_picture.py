"""The picture as a whole: self-contained, small, with nothing cut off."""

from __future__ import annotations

import re
import xml.etree.ElementTree as ET
from collections.abc import Callable
from typing import Any

import pytest

from engrave.drawing.dense_scores import DENSE, EIGHTHS, degrees
from shedbook.engrave.drawing.picture import with_margin
from shedbook.engrave.drawing.score_drawing import draw
from shedbook.engrave.notation.score_style import ScoreStyle
from shedbook.engrave.notation.study_marks import StudyMarks
from shedbook.phrase.model import Phrase

Make = Callable[..., Phrase]


SVG = "{http://www.w3.org/2000/svg}"


def test_the_picture_is_self_contained(make: Make) -> None:
    svg = draw(make(*EIGHTHS), degrees(make(*EIGHTHS)), ScoreStyle(label_mm=16, label="C minor")).svg
    tags = {item.tag.removeprefix(SVG) for item in ET.fromstring(svg).iter()}
    assert tags <= {"svg", "defs", "g", "path", "use", "polygon", "polyline", "circle"}
    assert not re.search(r"font|style=|class=|http(?!://www.w3.org/2000/svg)|url\(|NaN", svg)
    assert set(re.findall(r'(?:fill|stroke)="([^"]*)"', svg)) == {"currentColor"}
    names = re.findall(r'id="([^"]*)"', svg)
    assert len(names) == len(set(names))
    assert all(name.startswith("s") for name in names)
    assert set(re.findall(r'href="#([^"]*)"', svg)) <= set(names)


def test_it_is_small(make: Make) -> None:
    phrase = make(*EIGHTHS)
    assert len(draw(phrase).svg) < 20_000
    assert len(draw(phrase, degrees(phrase)).svg) < 40_000


def test_the_prefix_opens_every_name(make: Make) -> None:
    svg = draw(make("1/1 c4", "C"), StudyMarks(), ScoreStyle(prefix="p7-")).svg
    assert all(name.startswith("p7-") for name in re.findall(r'id="([^"]*)"', svg))


def test_the_staff_begins_where_the_drawing_says(make: Make) -> None:
    for phrase in (make(*EIGHTHS), make("1/1 f6", "C"), make("1/4 c4 d e f", "C")):
        for style in (ScoreStyle(), ScoreStyle(tempo=False)):
            made = draw(phrase, degrees(phrase), style)
            _, top, _, height = (int(n) for n in re.findall(r'viewBox="([^"]*)"', made.svg)[0].split())
            first_line = re.search(r'd="M0 (-?\d+)H\d+M0 ', made.svg)
            assert first_line is not None
            in_units = int(first_line[1]) - top
            assert made.staff_top_mm == pytest.approx(in_units * made.height_mm / height)


@pytest.mark.parametrize(("line", "changes"), DENSE)
def test_nothing_is_cut_off(make: Make, ink: Any, line: str, changes: str) -> None:
    phrase = make(line, changes)
    for marks in (StudyMarks(), degrees(phrase)):
        svg = draw(phrase, marks, ScoreStyle(label="Eb minor", label_mm=18)).svg
        left, top, width, height = (int(n) for n in re.findall(r'viewBox="([^"]*)"', svg)[0].split())
        for box in ink.boxes(svg):
            assert left <= box.left + 10
            assert top <= box.top
            assert box.right <= left + width + 10
            assert box.bottom <= top + height


def test_a_picture_that_stands_alone_has_a_margin_round_it(make: Make, ink: Any) -> None:
    bare = draw(make(*EIGHTHS))
    made = with_margin(bare, 1.5)
    assert made.width_mm == pytest.approx(bare.width_mm + 3)
    assert made.height_mm == pytest.approx(bare.height_mm + 3)
    assert made.staff_top_mm == pytest.approx(bare.staff_top_mm + 1.5)
    left, top, width, height = (int(n) for n in re.findall(r'viewBox="([^"]*)"', made.svg)[0].split())
    assert made.width_mm / width == pytest.approx(made.height_mm / height, rel=0.001)
    margin = 1.4 / ScoreStyle().mm
    for box in ink.boxes(made.svg):
        assert box.left >= left + margin
        assert box.right <= left + width - margin
        assert top + margin <= box.top
        assert box.bottom <= top + height - margin
    assert made.svg.partition("<defs>")[2] == bare.svg.partition("<defs>")[2]
