"""What is seen on each frame: marks, captions, bars and pages. Source: our own design."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest

from shedbook.book.lessons.film_pages import FilmPages, film_pages, shown_on
from shedbook.book.lessons.film_talk import points_of
from shedbook.book.lessons.reader_scores import reader_score
from shedbook.book.lessons.screen_scores import ScreenScore, screen_scores
from shedbook.book.manuscript.opening import open_manuscript
from shedbook.film.captions import Caption
from shedbook.film.card import rooms_of, screen_named
from shedbook.film.frames import Page, planes_of
from shedbook.film.moments import BarAt, Moments, Sounding
from shedbook.phrase.fields import phrase_from_fields
from shedbook.phrase.model import sounding_notes

DEMO = open_manuscript(Path(__file__).parents[3] / "examples/tidewater")
PLAIN = Page(planes_of(np.full((4, 4, 3), 255, np.uint8)), {})
PAGES = FilmPages((PLAIN, PLAIN), {1: 0, 2: 0, 3: 1}, 1, (1, 2, 3), ())
MOMENTS = Moments(
    (Sounding(0, 1.0, 1.5), Sounding(1, 1.6, 2.0), Sounding(2, 2.6, 3.9)),
    (BarAt(1, 1.0), BarAt(2, 2.0), BarAt(3, 3.0), BarAt(0, 4.0), BarAt(1, 5.0)), 6.0,
)  # fmt: skip


def test_what_is_seen_when() -> None:
    """At ten frames a second; 0 is the caption, 1 to 3 are the bars."""
    shown = shown_on(MOMENTS, [Caption(1.0, 2.5, "a")], PAGES, 10, 60)
    assert (shown[0].page, shown[0].notes, shown[0].others) == (0, (), ())
    assert (shown[10].notes, shown[10].others) == ((0,), (0, 1))
    assert shown[15].notes == (0,)  # the gap of a tenth of a second is bridged
    assert shown[16].notes == (1,)
    assert shown[21].notes == ()  # that of six tenths is not
    assert (shown[25].others, shown[25].notes) == ((2,), ())
    assert (shown[35].page, shown[35].notes, shown[35].others) == (1, (2,), (3,))


def test_between_rounds_the_page_of_what_comes_is_there() -> None:
    shown = shown_on(MOMENTS, [], PAGES, 10, 60)
    assert [shown[frame].page for frame in (0, 25, 30, 39, 41, 55)] == [0, 0, 1, 1, 0, 0]
    assert shown[45].others == ()


@pytest.mark.parametrize("number", [7, 39])
def test_every_note_has_its_mark_on_its_page(number: int) -> None:
    score = reader_score(DEMO.phrases[number - 1], DEMO)
    row = screen_named("square")
    pictures = screen_scores(ScreenScore(score.written, score.marks), row, rooms_of(row, captions=True).score)
    pages = film_pages(row, pictures, ("T", "", ""), ["A caption."], [(1, "Bar 1")], "en")
    marked = [note for page in pages.pages for note, patches in page.marks.items() if patches]
    assert sorted(marked) == list(range(len(sounding_notes(score.written))))
    assert len(pages.others) == 2
    assert sorted(pages.page_of_bar) == [bar.number for bar in score.written.bars]


def test_a_note_that_is_tied_over_to_the_next_system_has_a_mark_in_both() -> None:
    bar = "1/8 c5 d e f g f e d"
    phrase = phrase_from_fields({
        "title": "A", "changes": "C6 | F6 | G7 | C6",
        "line": f"{bar} | 1/8 c5 d e f 1/2 g | + 1/2 1/8 e d c4 d | 1/1 c5",
    })  # fmt: skip
    row = screen_named("square")
    pictures = screen_scores(ScreenScore(phrase), row, rooms_of(row, captions=True).score)
    assert [len(picture.systems) for picture in pictures] == [2]
    assert pictures[0].systems[1].first_bar == 3
    pages = film_pages(row, pictures, ("T", "", ""), [], [], "en")
    tied = next(index for index, note in enumerate(sounding_notes(phrase)) if note.quarters == 4)
    first, second = pages.pages[0].marks[tied]
    assert second.y > first.y
    assert second.x < first.x


def test_talking_points_follow_the_bars() -> None:
    for source in DEMO.phrases[::7]:
        score = reader_score(source, DEMO)
        points = points_of(score.account, score.words)
        told = [point.text for point in points]
        assert len(told) == len(set(told)) >= 1
        assert all(0 <= point.bar <= score.written.full_bars for point in points)
