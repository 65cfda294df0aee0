"""What is read from the picture that Verovio draws, and what is drawn anew in it."""

from __future__ import annotations

import re
from collections.abc import Callable
from typing import Any

import pytest

from shedbook.engrave.drawing.score_drawing import draw
from shedbook.engrave.engraver import verovio_door
from shedbook.engrave.engraver.verovio_svg import MUSIC_SCALE
from shedbook.engrave.notation.mei_score import mei
from shedbook.engrave.notation.score_style import SPACE, ScoreStyle
from shedbook.engrave.notation.study_marks import StudyMarks
from shedbook.errors import RenderError
from shedbook.phrase.model import Phrase

Make = Callable[..., Phrase]


def test_own_marks_are_drawn(make: Make) -> None:
    svg = draw(make("1/4 c5.fall d.scoop eb.ghost f.accent", "C")).svg
    assert svg.count('fill="none" stroke="currentColor" stroke-width="24"') == 2
    assert "sE26A" in svg
    assert "sE4A0" in svg


def test_a_picture_that_lacks_notes_is_an_error(make: Make, monkeypatch: pytest.MonkeyPatch) -> None:
    """Verovio may draw less than it was given, or the score before; neither may pass for this one."""
    short = verovio_door.svg(mei(make("1/1 c4", "C")), width=6000)
    monkeypatch.setattr(verovio_door, "svg", lambda *_args, **_more: short)
    with pytest.raises(RenderError, match="3 of 4 notes"):
        draw(make("1/4 c4 d e f", "C"))
    monkeypatch.setattr(verovio_door, "svg", lambda *_args, **_more: "<svg></svg>")
    with pytest.raises(RenderError, match="expected kind"):
        draw(make("1/4 c4 d e f", "C"))


def test_brackets_of_tuplets_lie_level_and_the_number_between_them(make: Make, ink: Any) -> None:
    line = "1/8t c5 - eb5 g5 - a4 c4 - a5 e5 - c4 | 1/2t g4 g g | 1/4t c4 - c6 g4 - e4"
    svg = draw(make(line, "C | C | C")).svg
    halves = [
        [tuple(map(int, point.split(","))) for point in points.split()]
        for points in re.findall(r'<polyline points="([^"]*)"', svg)
    ]
    numbers = [int(y) for y in re.findall(r'href="#sE883" x="-?\d+" y="(-?\d+)"', svg)]
    assert len(halves) == 2 * len(numbers) == 14
    for number, left, right in zip(numbers, halves[::2], halves[1::2], strict=True):
        assert left[1][1] == left[2][1] == right[1][1] == right[2][1]
        assert abs(number - left[1][1]) < 130
    top, height = (int(n) for n in re.findall(r'viewBox="\S+ (\S+) \S+ (\S+)"', svg)[0])
    for box in ink.boxes(svg):
        assert top <= box.top
        assert box.bottom <= top + height


def test_a_ghost_note_with_a_courtesy_accidental_has_one_pair_of_brackets(make: Make) -> None:
    phrase = make("1/2 c#5 1/2 d | c.ghost e", "A7 | D7")
    svg = draw(phrase, StudyMarks(), ScoreStyle(courtesy="after-bar")).svg
    assert len(re.findall(r'href="#sE26A"', svg)) == len(re.findall(r'href="#sE26B"', svg)) == 1
    assert svg.count('href="#sE261"') == 1
    plain = draw(make("1/2 c#5 1/2 d | c e", "A7 | D7"), StudyMarks(), ScoreStyle(courtesy="after-bar")).svg
    assert plain.count('href="#sE26A"') == 1


SIXTEENTHS = "1/16 c5 d e f g a b c d e f g a b c5 d"


@pytest.mark.parametrize(("before", "after"), [("g4", "e4"), ("d5", "eb5"), ("a5", "d4"), ("d5", "a5")])
def test_the_end_of_a_slur_on_the_next_system_is_an_arc_and_no_comma(
    make: Make, before: str, after: str
) -> None:
    end = f"1/16 c5 d e f g a b c d e f g a b 1/8 ({before}"
    start = f"{after}) 1/16 e f g a b c d e f g a b c5 d"
    svg = draw(
        make(f"{SIXTEENTHS} | {end} | {start}", "C | C | C"), StudyMarks(), ScoreStyle(width_mm=110)
    ).svg
    ends = re.findall(r'<path d="M(\d+),(-?\d+) C\S+ \S+ (\d+),(-?\d+) C', svg)
    assert len(ends) == 2
    x1, y1, x2, y2 = map(int, ends[1])
    assert x2 - x1 > 300
    assert abs(y2 - y1) <= 0.45 * (x2 - x1)


@pytest.mark.parametrize(
    "line",
    [
        "1/8t c5 d e f e d 1/2 c",
        "1/8t g4 a b c5 b4 a 1/2 g",
        "1/8t e5 g f a g f 1/2 e",
        "1/8t c4 e d f e d 1/2 c",
    ],
)
def test_numbers_of_tuplets_stand_clear_of_the_staff(make: Make, line: str) -> None:
    """No staff line crosses a number (Gould 2011, Behind Bars, from memory)."""
    svg = draw(make(line, "C")).svg
    numbers = re.findall(r'<use href="#sE883" x="\d+" y="(-?\d+)"/>', svg)
    assert len(numbers) == 2
    for y in map(int, numbers):
        below, above = 0, 250  # the figure 3 stands on its base line and is about a space and a half high
        assert y - MUSIC_SCALE * below <= 0 or y - MUSIC_SCALE * above >= 4 * SPACE
