"""Our own marks under a staff: wedges for landings, brackets for links."""

import re

import pytest

from shedbook.engrave.drawing.below_staff import marks_below
from shedbook.engrave.drawing.score_drawing import draw
from shedbook.engrave.notation.score_style import ScoreStyle
from shedbook.engrave.notation.study_marks import StudyMarks
from shedbook.phrase.fields import phrase_from_fields

PLACES = {0: 1000, 1: 2000, 2: 3000}


def numbers(element: str) -> list[float]:
    return [float(number) for number in re.findall(r"-?\d+", re.findall(r' d="([^"]*)"', element)[0])]


def test_nothing_is_drawn_without_marks() -> None:
    assert marks_below(StudyMarks(), PLACES, 800, 4000) == ((), 0)
    assert marks_below(StudyMarks(landings=frozenset((9,)), links=((8, 9),)), PLACES, 800, 4000) == ((), 0)


def test_a_wedge_stands_under_the_middle_of_its_head_and_below_all_ink() -> None:
    (wedge,), depth = marks_below(StudyMarks(landings=frozenset((1,))), PLACES, 800, 4000)
    x, y, *_ = numbers(wedge)
    assert x == 2000 + 113
    assert 800 < y < 800 + depth


def test_a_bracket_goes_from_one_note_to_the_other_and_turns_up_at_both_ends() -> None:
    (bracket,), depth = marks_below(StudyMarks(links=((0, 2),)), PLACES, 800, 4000)
    left, top, low, right, end = numbers(bracket)
    assert 1000 < left < right < 3000 + 226
    assert top == end < low <= 800 + depth
    assert 'fill="none"' in bracket


def test_a_link_into_the_next_system_is_open_on_both_sides_of_the_break() -> None:
    links = StudyMarks(links=((1, 7),))
    (out,), _ = marks_below(links, PLACES, 800, 4000)
    (into,), _ = marks_below(links, {7: 1500}, 800, 4000)
    assert out.count("V") == into.count("V") == 1  # one hook each
    assert max(numbers(out)) == 4000
    assert numbers(into)[0] == 0


def test_wedge_and_hook_do_not_touch() -> None:
    marks = StudyMarks(landings=frozenset((0, 2)), links=((0, 2),))
    *wedges, bracket = marks_below(marks, PLACES, 800, 4000)[0]
    edges = [numbers(wedge)[0] for wedge in wedges]
    left, right = numbers(bracket)[0], numbers(bracket)[3]
    assert left - edges[0] > 62 + 10
    assert edges[1] - right > 62 + 10


@pytest.mark.parametrize("bars", [2, 8])
def test_marks_make_the_picture_higher_and_stay_inside(bars: int) -> None:
    phrase = phrase_from_fields(
        {"changes": " | ".join(["G7"] * bars), "line": " | ".join(["1/8 g4 b d5 f e d c b4"] * bars)}
    )
    degrees = {0: "1", 4: "13"}
    plain = draw(phrase, StudyMarks(under=degrees), ScoreStyle())
    marked = draw(phrase, StudyMarks(degrees, {}, frozenset((0, 4)), ((3, 4), (7, 8))), ScoreStyle())
    assert marked.height_mm > plain.height_mm + 1.5
    assert marked.width_mm == plain.width_mm
    assert marked.staff_top_mm == plain.staff_top_mm
