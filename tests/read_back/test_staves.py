"""Systems: a clef opens one, and its staff has five lines a staff space apart (common practice)."""

import pytest

from shedbook.read_back.ink import Glyph, Ink, Stroke
from shedbook.read_back.staves import UnreadableError, systems_of


def _ink(gaps: tuple[float, ...] = (10, 10, 10, 10), clef: str = "E050") -> Ink:
    marks: list[Glyph | Stroke] = [Glyph("music", clef, 105, 230, 0.04)]
    y = 200.0
    for gap in (*gaps, 0):
        marks.append(Stroke(100, y, 300, y, 0.7))
        y += gap
    return Ink([*marks, Glyph("music", "E0A4", 150, 240, 0.04)])


def test_places_are_measured_in_staff_spaces_from_the_top_line() -> None:
    (system,) = systems_of(_ink())
    assert system.width == 20
    assert (system.clef.x, system.clef.y) == (0.5, 3)
    assert (system.glyphs[0].x, system.glyphs[0].y) == (5, 4)


def test_the_lowest_line_is_e4_under_a_treble_clef() -> None:
    """Common practice: E4 is two steps over C4, which is 28 here."""
    (system,) = systems_of(_ink())
    assert system.step_at(4) == 30


def test_a_staff_of_uneven_lines_is_refused() -> None:
    with pytest.raises(UnreadableError, match="five staff lines"):
        systems_of(_ink((10, 10, 12, 10)))


def test_ink_without_a_clef_has_no_system() -> None:
    assert systems_of(Ink([Stroke(0, 0, 9, 0, 1)])) == []
