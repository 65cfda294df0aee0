"""The still pages of a video with all that is painted over them, and what is seen on each of its frames."""

from __future__ import annotations

import io
from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from shedbook.book.pages.typst_door import card_png
from shedbook.film.captions import Caption
from shedbook.film.card import (
    BLACK,
    CAPTION_LINES,
    WHITE,
    Box,
    Card,
    ScorePicture,
    Words,
    card_of,
    rooms_of,
    score_box,
)
from shedbook.film.frames import Easel, Page, Patch, Shown, patch_of, planes_of
from shedbook.film.marks import Mark, Picture, coloured, marks_of
from shedbook.film.moments import Moments
from shedbook.film.tables.screens import ScreenRow

_NONE = -1
_BREATH_S = 0.15
"""Up to how long a gap between two notes a mark stays, so that it does not flicker (the project's design)."""
_BAR_SHARE = 0.5
"""The share of the foot in which the number of the bar stands."""


@dataclass(frozen=True, slots=True)
class FilmPages:
    """The pages of a video, the notes of each, the patches of captions and then of bars, by their index."""

    pages: tuple[Page, ...]
    page_of_bar: dict[int, int]
    captions: int
    bars: tuple[int, ...]
    others: tuple[Patch, ...]

    def easel(self) -> Easel:
        """Return a canvas to paint them on."""
        return Easel(self.pages, self.others)


def film_pages(
    row: ScreenRow,
    pictures: Sequence[ScorePicture],
    said: tuple[str, str, str],
    captions: Sequence[str],
    bars: Sequence[tuple[int, str]],
    language: str,
) -> FilmPages:
    """Return the pages of a video.

    Args:
        row: the kind of screen.
        pictures: the score, in as many pages as it takes.
        said: what stands on every page, as `card_of` takes it.
        captions: the sentences that are shown at times.
        bars: the numbers of the bars of the phrase, and what they are called.
        language: the tag of the language of the words.

    Raises:
        RenderError: if a page cannot be drawn.
    """
    rooms = rooms_of(row, captions=True)
    pages: list[Page] = []
    page_of_bar: dict[int, int] = {}
    for place, picture in enumerate(pictures):
        card = card_of(row, picture, said, captions=True, language=language)
        own = _pixels(card_png(card))
        drawn = tuple(_pixels(card_png(replace(card, svg=coloured(card.svg, parity)))) for parity in (0, 1))
        marks = marks_of(own, (drawn[0], drawn[1]), picture, score_box(rooms, picture))
        patches = {note: tuple(map(patch_of, found)) for note, found in marks.items()}
        pages.append(Page(planes_of(own), patches))
        for system in picture.systems:
            page_of_bar |= {system.first_bar + step: place for step in range(len(system.edges) - 1)}
    foot = Box(rooms.foot.x, rooms.foot.y, rooms.foot.width * _BAR_SHARE, rooms.foot.height)
    others = [
        *_strips(rooms.caption, captions, row.caption, CAPTION_LINES, language),
        *_strips(foot, [name for _, name in bars], row.words, 1, language),
    ]
    return FilmPages(
        tuple(pages), page_of_bar, len(captions), tuple(number for number, _ in bars), tuple(others)
    )


def _pixels(png: bytes) -> Picture:
    from PIL import Image  # noqa: PLC0415 - only for a video

    return np.array(Image.open(io.BytesIO(png)).convert("RGB"))


def _strips(room: Box, texts: Sequence[str], size: float, lines: int, language: str) -> list[Patch]:
    """Return texts as patches of a room, all drawn on one sheet."""
    if not texts:
        return []
    x, y = int(room.x) // 2 * 2, int(room.y) // 2 * 2
    width, height = int(room.width) // 2 * 2, int(room.height) // 2 * 2
    words = tuple(
        Words(text, 0, place * height, width, height, size, lines=lines) for place, text in enumerate(texts)
    )
    sheet = _pixels(
        card_png(Card(width, height * len(texts), WHITE, BLACK, Box(0, 0, 0, 0), "", words, (), language))
    )
    return [
        patch_of(Mark(x, y, sheet[place * height : (place + 1) * height, :width]))
        for place in range(len(texts))
    ]


def shown_on(
    moments: Moments, captions: Sequence[Caption], pages: FilmPages, fps: int, frames: int
) -> list[Shown]:
    """Return what is seen on each frame of a video: a mark comes on the frame nearest to its onset."""
    notes = np.full(frames, _NONE)
    following = [*(one.start_s for one in moments.notes[1:]), float("inf")]
    for one, then_s in zip(moments.notes, following, strict=True):
        first = round(one.start_s * fps)
        end_s = then_s if 0 <= then_s - one.end_s < _BREATH_S else one.end_s
        notes[first : max(first + 1, round(end_s * fps))] = one.note
    told = np.full(frames, _NONE)
    for place, caption in enumerate(captions):
        told[round(caption.start_s * fps) : round(caption.end_s * fps)] = place
    bars = np.full(frames, 0)
    for bar in moments.bars:
        bars[max(0, round(bar.start_s * fps)) :] = bar.number
    number_of = {number: pages.captions + place for place, number in enumerate(pages.bars)}
    found = []
    ahead = _pages_ahead(bars.tolist(), pages)
    for note, caption, bar, page in zip(notes.tolist(), told.tolist(), bars.tolist(), ahead, strict=True):
        others = (*((caption,) if caption != _NONE else ()), *((number_of[bar],) if bar in number_of else ()))
        found.append(Shown(page, (note,) if note != _NONE else (), others))
    return found


def _pages_ahead(bars: Sequence[int], pages: FilmPages) -> list[int]:
    """Return the page of each frame; where no bar is played, that of the bar that comes next."""
    found, coming = [], 0
    for bar in reversed(bars):
        coming = pages.page_of_bar.get(bar, coming) if bar else coming
        found.append(coming)
    return found[::-1]
