"""How long the lines of a score are, and what their length depends on."""

from __future__ import annotations

import re
from collections.abc import Callable
from itertools import pairwise
from statistics import median

import pytest

from shedbook.engrave.drawing.score_drawing import draw
from shedbook.engrave.notation.study_marks import StudyMarks
from shedbook.phrase.model import Phrase

Make = Callable[..., Phrase]


def places(svg: str) -> list[list[int]]:
    """Return where the heads of each system stand."""
    systems = re.split(r'<g(?: transform="translate\(0 \d+\)")?><use href="#sE05', svg)[1:]
    return [
        [
            int(x)
            for x in re.findall(
                r'<g id="sn\d+">(?:<use href="#sE26\w"[^>]*>)*<use href="#sE0A\w" x="(\d+)"', one
            )
        ]
        for one in systems
    ]


LONG = {0: "half-whole diminished", 1: "lydian dominant", 2: "phrygian dominant", 3: "altered"}


def test_names_of_scales_do_not_move_the_notes(make: Make) -> None:
    phrase = make("1/8 c4 d e f g a b c5 | d c b4 a g f e d", "Dm7 G7 | C6 A7")
    assert places(draw(phrase, StudyMarks(scales=LONG)).svg) == places(draw(phrase).svg)


EIGHTHS = "1/8 c4 d e f g a b c5"


def gaps(row: list[int]) -> float:
    return median(after - before for before, after in pairwise(row))


@pytest.mark.parametrize(
    ("line", "rows"),
    [
        pytest.param(" | ".join([EIGHTHS] * 6 + ["1/1 c5"]), 2, id="four and three bars"),
        pytest.param(
            " | ".join([EIGHTHS.replace("1/8", "1/16") + " d e f g a b c6 b"] * 3), 2, id="two and one"
        ),
    ],
)
def test_a_last_system_is_not_stretched(make: Make, line: str, rows: int) -> None:
    found = places(draw(make(line, "C" + " | %" * line.count("|"))).svg)
    assert len(found) == rows
    assert gaps(found[-1]) == pytest.approx(gaps(found[0]), rel=0.12)


def test_a_last_system_that_is_nearly_full_is_filled(make: Make) -> None:
    svg = draw(make(" | ".join([EIGHTHS] * 8), "C" + " | %" * 7)).svg
    ends = re.findall(r"M0 0H(\d+)", svg)
    assert len(set(ends)) == 1


def test_eighths_stand_as_far_apart_in_every_phrase(make: Make) -> None:
    """In drawing units; with chords that need little room, whatever the number of bars."""
    found = [
        gaps(places(draw(make(" | ".join([EIGHTHS] * bars), "C" + " | %" * (bars - 1))).svg)[0])
        for bars in (1, 2, 3, 4)
    ]
    assert max(found) < 1.12 * min(found)
