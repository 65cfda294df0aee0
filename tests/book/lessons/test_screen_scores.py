"""Scores for the screen: as large as their room bears, marks that come without moving anything."""

from __future__ import annotations

import re
from pathlib import Path
from types import SimpleNamespace
from typing import Any

import pytest

from shedbook.book.lessons.reader_scores import STAGES, marks_at, reader_score
from shedbook.book.lessons.screen_scores import ScreenScore, _shares, screen_scores
from shedbook.book.manuscript.opening import open_manuscript
from shedbook.film.card import SCREEN_NAMES, rooms_of, screen_named
from shedbook.phrase.fields import phrase_from_fields
from shedbook.phrase.model import sounding_notes

DEMO = open_manuscript(Path(__file__).parents[3] / "examples/tidewater")


@pytest.mark.parametrize("screen", SCREEN_NAMES)
@pytest.mark.parametrize("number", [7, 39, 59, 66])
def test_a_score_goes_into_its_room_and_can_be_read(screen: str, number: int) -> None:
    row = screen_named(screen)
    room = rooms_of(row).score
    score = reader_score(DEMO.phrases[number - 1], DEMO)
    pictures = screen_scores(ScreenScore(score.written, score.marks), row, room)
    heads = [note for picture in pictures for system in picture.systems for note in system.heads]
    assert sorted(heads) == list(range(len(sounding_notes(score.written))))
    for picture in pictures:
        assert row.least_staff <= picture.staff <= row.most_staff
        assert picture.height <= room.height
        assert picture.width <= room.width * 1.01
        for system in picture.systems:
            assert 0 < system.top < system.top + system.staff < picture.height


@pytest.mark.parametrize("screen", SCREEN_NAMES)
def test_a_score_that_has_room_is_as_large_as_its_screen_lets_it_be(screen: str) -> None:
    phrase = phrase_from_fields({"title": "A", "changes": "C6", "line": "1/4 c4 e g c5"})
    row = screen_named(screen)
    (picture,) = screen_scores(ScreenScore(phrase), row, rooms_of(row).score)
    assert picture.staff == row.most_staff


@pytest.mark.parametrize(
    ("heights", "room", "shares"),
    [
        ([10], 10, [(0, 0)]),
        ([10, 10], 20, [(0, 1)]),
        ([10, 10], 19, [(0, 0), (1, 1)]),
        ([10, 10, 10], 20, [(0, 1), (2, 2)]),
        ([10, 10, 10, 10], 30, [(0, 1), (2, 3)]),
        ([10] * 5, 20, [(0, 1), (2, 2), (3, 4)]),
        ([10, 30, 10], 20, [(0, 0), (1, 1), (2, 2)]),  # one that is too high stands alone, and is cut
    ],
)
def test_systems_are_shared_out_on_as_few_pictures_as_can_be(
    heights: list[float], room: float, shares: list[tuple[int, int]]
) -> None:
    """Source: by hand; of the ways with the fewest pictures the one that fills them most evenly."""
    edges = [sum(heights[:count]) for count in range(1, len(heights) + 1)]
    drawing: Any = SimpleNamespace(cuts_mm=tuple(edges[:-1]), height_mm=edges[-1])
    assert _shares(drawing, room) == shares


def test_a_long_phrase_is_shared_out_on_several_cards_evenly() -> None:
    bar = "1/8 c4 d e f g a b c5"
    phrase = phrase_from_fields({
        "title": "A", "changes": " | ".join(["C6"] * 16), "line": " | ".join([bar] * 16)
    })  # fmt: skip
    row = screen_named("wide")
    pictures = screen_scores(ScreenScore(phrase), row, rooms_of(row).score)
    counts = [len(picture.systems) for picture in pictures]
    assert len(pictures) > 1
    assert max(counts) - min(counts) <= 1
    firsts = [system.first_bar for picture in pictures for system in picture.systems]
    assert firsts == sorted(firsts)
    assert {picture.staff for picture in pictures} == {row.least_staff}


def heads_of(svg: str) -> list[str]:
    """Return where the heads of the notes are drawn."""
    return re.findall(r'<g id="sn\d+"><use href="#\w+" x="(-?\d+)" y="-?\d+"', svg)


def test_a_build_up_stands_still_and_gains_marks() -> None:
    """Every stage has the same box and the same heads; each has more in it than the one before."""
    row = screen_named("wide")
    score = reader_score(DEMO.phrases[6], DEMO)
    drawn = [
        screen_scores(ScreenScore(score.written, score.marks, marks_at(score.marks, stage)), row,
                      rooms_of(row).score)[0]
        for stage in STAGES
    ]  # fmt: skip
    boxes = {re.search(r'viewBox="[^"]+"', one.svg)[0] for one in drawn}  # type: ignore[index]
    assert len(boxes) == 1
    assert len({tuple(heads_of(one.svg)) for one in drawn}) == 1
    assert all(heads_of(one.svg) for one in drawn)
    lengths = [len(one.svg) for one in drawn]
    assert lengths == sorted(set(lengths))
    full = screen_scores(ScreenScore(score.written, score.marks), row, rooms_of(row).score)[0]
    assert drawn[-1].svg == full.svg
