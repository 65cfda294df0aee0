"""Marks: what is coloured in a score, and what is cut out of the pages. Source: our own design."""

from __future__ import annotations

import numpy as np

from shedbook.film.card import Box, ScorePicture, SystemPlace
from shedbook.film.marks import COLOUR, coloured, marks_of

SVG = '<svg><g id="sn0"><path/></g><g id="sn1"><path/></g><g id="sn1t1"><path/></g><g id="sn12"/></svg>'


def test_every_second_note_is_in_colour_with_what_is_tied_to_it() -> None:
    even, odd = coloured(SVG, 0), coloured(SVG, 1)
    assert f'<g id="sn0" fill="{COLOUR}" color="{COLOUR}">' in even
    assert '<g id="sn1">' in even
    assert f'<g id="sn1t1" fill="{COLOUR}"' in odd
    assert even.count(COLOUR) == 2
    assert odd.count(COLOUR) == 4


HEADS = {0: 40.0, 1: 80.0, 2: 120.0}
SYSTEM = SystemPlace(1, (0, 160), 30, 40, HEADS)
SCORE = ScorePicture("", 160, 100, 40, (SYSTEM,))


def pages() -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    """Return a page with three squares for notes, and the same with some of them red."""
    page = np.full((100, 160, 3), 255, np.uint8)
    drawn = []
    for parity in (None, 0, 1):
        one = page.copy()
        for note, x in HEADS.items():
            colour = (179, 38, 30) if parity is not None and note % 2 == parity else (0, 0, 0)
            one[46:54, int(x) - 4 : int(x) + 4] = colour
        drawn.append(one)
    return drawn[0], drawn[1], drawn[2]


def test_a_mark_has_its_own_note_in_colour_and_no_other() -> None:
    page, even, odd = pages()
    marks = marks_of(page, (even, odd), SCORE, Box(0, 0, 160, 100))
    assert sorted(marks) == [0, 1, 2]
    for note, (mark,) in marks.items():
        whole = page.copy()
        height, width = mark.pixels.shape[:2]
        whole[mark.y : mark.y + height, mark.x : mark.x + width] = mark.pixels
        red = (whole[..., 0] > 100) & (whole[..., 1] < 60)
        columns = np.flatnonzero(red.any(axis=0))
        assert columns.min() == HEADS[note] - 4
        assert columns.max() == HEADS[note] + 3
        assert (mark.x % 2, mark.y % 2, height % 2, width % 2) == (0, 0, 0, 0)
        assert mark.y <= 30
        assert mark.y + height >= 70


def test_a_page_without_the_note_has_no_mark() -> None:
    page, _, odd = pages()
    assert marks_of(page, (page, odd), SCORE, Box(0, 0, 160, 100))[0] == ()
