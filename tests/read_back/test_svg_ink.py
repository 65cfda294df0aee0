"""The ink of an SVG: groups move what is in them, and a glyph is named by its outline, not by its id."""

import pytest

from shedbook.errors import RenderError
from shedbook.read_back.ink import Dot, Glyph, Stroke
from shedbook.read_back.svg_ink import ink_of_svg

_HEAD = "M0 -39c0 68 73 172 200 172c66 0 114 -37 114 -95c0 -84 -106 -171 -218 -171c-64 0 -96 30 -96 94z"


def _svg(body: str) -> str:
    head = f'<path id="wrongname" transform="scale(0.72 -0.72)" d="{_HEAD}"/>'
    return f"<svg><defs>{head}</defs>{body}</svg>"


def test_a_glyph_is_named_by_its_outline_and_moved_by_its_groups() -> None:
    body = '<g transform="translate(0 1000)"><g id="n0"><use href="#wrongname" x="90" y="-40"/></g></g>'
    assert ink_of_svg(_svg(body)).marks == [Glyph("music", "E0A4", 90, 960, 0.72)]


def test_a_smaller_glyph_has_its_size() -> None:
    (glyph,) = ink_of_svg(_svg('<use href="#wrongname" transform="translate(5 6)scale(0.5)"/>')).marks
    assert glyph == Glyph("music", "E0A4", 5, 6, 0.36)


def test_strokes_and_circles_are_read() -> None:
    body = '<path d="M0 0H9M0 5V8" stroke="currentColor" stroke-width="2"/><circle cx="3" cy="4" r="1"/>'
    assert ink_of_svg(_svg(body)).marks == [Stroke(0, 0, 9, 0, 2), Stroke(0, 5, 0, 8, 2), Dot(3, 4)]


def test_a_glyph_that_is_not_defined_or_oddly_placed_is_refused() -> None:
    with pytest.raises(RenderError, match="does not define"):
        ink_of_svg(_svg('<use href="#none" x="0" y="0"/>'))
    with pytest.raises(RenderError, match="not understood"):
        ink_of_svg(_svg('<use href="#wrongname" transform="rotate(5)"/>'))
