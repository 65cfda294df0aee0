"""How bars are shared out on systems, and how far notes stand apart in them."""

from __future__ import annotations

import re
from collections.abc import Callable
from itertools import pairwise
from statistics import median
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shedbook.engrave.drawing.score_drawing import draw
from shedbook.engrave.score.score_style import ScoreStyle
from shedbook.engrave.score.study_marks import StudyMarks
from shedbook.engrave.score.system_breaks import first_bars, shares
from shedbook.phrase.model import Phrase

Make = Callable[..., Phrase]

SHARES = [  # common practice: fours, evenly, and no bar alone on the last line
    (1, [(1,)]),
    (2, [(2,), (1, 1)]),
    (3, [(3,), (2, 1)]),
    (4, [(4,), (2, 2)]),
    (5, [(3, 2), (2, 2, 1)]),
    (6, [(3, 3), (2, 2, 2)]),
    (7, [(4, 3), (3, 2, 2)]),
    (8, [(4, 4), (2, 2, 2, 2)]),
    (9, [(3, 3, 3)]),
    (10, [(4, 3, 3), (2, 2, 2, 2, 2)]),
    (12, [(4, 4, 4), (3, 3, 3, 3)]),
    (16, [(4, 4, 4, 4)]),
]


@pytest.mark.parametrize(("bars", "expected"), SHARES)
def test_bars_are_shared_out_evenly(bars: int, expected: list[tuple[int, ...]]) -> None:
    assert list(shares(bars)[: len(expected)]) == expected


@given(st.integers(1, 64))
def test_every_way_holds_every_bar_and_no_system_is_much_shorter(bars: int) -> None:
    ways = shares(bars)
    assert (1,) * bars in ways
    for way in ways:
        assert sum(way) == bars
        assert max(way) <= 4
        assert max(way) - min(way) <= 1
        assert first_bars(way)[0] == 1


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
