"""Paths become points, and points name a glyph: the same in SVG, in PDF and in the font."""

import re
from importlib.util import find_spec
from pathlib import Path

import pytest

from shedbook.read_back.ink import Arc, Area, Dot, Stroke
from shedbook.read_back.outlines import (
    Placement,
    glyph_of,
    marks_of,
    pdf_subpaths,
    shape_digest,
    svg_glyph,
    svg_subpaths,
)

_HERE = Placement(1, 1, 0, 0)


def test_relative_and_absolute_commands_give_the_same_points() -> None:
    """SVG 1.1, section 8.3."""
    assert svg_subpaths("M10 20l5 0v7h-5z") == svg_subpaths("M10,20 L15,20 L15,27 L10,27 Z")
    assert svg_subpaths("M0 0c1 1 2 2 3 0s2-1 3 0")[0].points[-3:] == ((4, -2), (5, -1), (6, 0))


def test_an_svg_path_and_the_operators_of_a_pdf_have_one_digest() -> None:
    svg = svg_subpaths("M0 -39c0 68 73 172 200 172l5 1z")
    pdf = pdf_subpaths("0 -39 m 0 29 73 133 200 133 c 205 134 l h")
    assert shape_digest(svg) == shape_digest(pdf)


@pytest.mark.parametrize("code", ["E050", "E062", "E0A3", "E0A4", "E240", "E260", "E262", "E4E5", "E883"])
def test_glyphs_of_the_music_font_are_known_by_their_outlines(code: str) -> None:
    """Leipzig, as Verovio carries it: its own files are the truth here."""
    spec = find_spec("verovio")
    assert spec is not None
    assert spec.origin is not None
    text = (Path(spec.origin).parent / "data" / "Leipzig" / f"{code}.xml").read_text("utf-8")
    found = re.search(r' d="([^"]*)"', text)
    assert found is not None
    assert svg_glyph(found[1]) == ("music", code)


def test_an_outline_that_no_table_has_is_unknown() -> None:
    assert glyph_of(svg_subpaths("M0 0L1 2L3 4z")) is None
    assert svg_glyph("M0 0L1 2L3 4z")[0] == "?"


def test_lines_areas_circles_and_curves_are_told_apart() -> None:
    (line,) = marks_of(svg_subpaths("M0 0H10"), _HERE, filled=False, pen=2)
    assert line == Stroke(0, 0, 10, 0, 2)
    (area,) = marks_of(svg_subpaths("M0 0H10V2H0z"), _HERE, filled=True, pen=0)
    assert isinstance(area, Area)
    (tie,) = marks_of(svg_subpaths("M0,5 C3,0 7,0 10,5 C7,1 3,1 0,5"), _HERE, filled=True, pen=1)
    assert tie == Arc(0, 5, 10, 5)
    circle = "M10 5C10 8 8 10 5 10C2 10 0 8 0 5C0 2 2 0 5 0C8 0 10 2 10 5z"
    (dot,) = marks_of(svg_subpaths(circle), _HERE, filled=True, pen=0)
    assert dot == Dot(5, 5)
