"""Degrees under notes, as text. Source: our own design of the page."""

from __future__ import annotations

import pytest

from read_back.printed import hard_phrase, printed
from shedbook.read_back.comparison import degree_mismatches
from shedbook.read_back.degrees import degrees_of
from shedbook.read_back.ink import Glyph
from shedbook.read_back.staves import System

_EM = 0.0015


def system(*glyphs: Glyph) -> System:
    return System(40, Glyph("music", "E050", 0, 3, 0.004), list(glyphs))


def figures(text: str, x: float, y: float = 6.7) -> list[Glyph]:
    return [Glyph("sans", one, x + 0.745 * place, y, _EM) for place, one in enumerate(text)]


def test_figures_and_signs_become_degrees_from_left_to_right() -> None:
    flat, sharp = (Glyph("music in words", name, 9.6, 6.4, 0.0018) for name in ("E260", "E262"))
    found = degrees_of(
        system(*figures("13", 20), flat, *figures("9", 10), sharp._replace(x=14.5), *figures("11", 15))
    )
    assert [one.text for one in found] == ["b9", "#11", "13"]
    assert found[2].x == pytest.approx(20.745, abs=0.01)


def test_two_degrees_side_by_side_are_two() -> None:
    assert [one.text for one in degrees_of(system(*figures("1", 20), *figures("3", 21)))] == ["1", "3"]
    double = [Glyph("music in words", "E260", x, 6.4, 0.0018) for x in (9.0, 9.5)]
    assert [one.text for one in degrees_of(system(*double, *figures("7", 10)))] == ["bb7"]


def test_what_stands_over_the_staff_or_in_another_face_is_none() -> None:
    over, bold = figures("9", 10, -2), [Glyph("sans-semibold", "5", 10, 6.7, _EM)]
    assert degrees_of(system(*over, *bold)) == []


@pytest.mark.parametrize(
    ("change", "says"),
    [
        ({0: "b9"}, "the degree b9 under"), ({0: ""}, "no further degree"), ({}, ""),
    ],
)  # fmt: skip
def test_degrees_are_held_against_those_that_should_stand(change: dict[int, str], says: str) -> None:
    score = printed(hard_phrase("ties"), degrees=True)
    under = {note: degree for note, degree in {**score.under, **change}.items() if degree}
    said = [str(one) for one in degree_mismatches(score.read(), score.phrase, under)]
    assert len(said) == bool(says)
    assert all(says in one for one in said)
