"""A book divided into what is laid out apart: a frame, and a piece for each phrase or key. Pure.

A piece sees nothing of the others but the number of its first page. That is told beforehand from the planned
pages; where the frame, once it is laid out, has it otherwise, the piece is laid out again.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import accumulate

from shedbook.book.pages.data import About, BookData, KeyPages, PartData, PhraseData
from shedbook.book.scores.artefacts import Score

_NOTHING = Score(0.0, 0.0, 0.0, "", path="", key="")


@dataclass(frozen=True, slots=True, kw_only=True)
class PieceData:
    """Everything that the template of a piece prints: one phrase, or one key of a book that goes key by key.

    `first` is the number on its first page, `skipped` how many pages stand before it that are not printed;
    `place` and `count` say which of how many keys it is.
    """

    about: About
    divided: bool
    phrases: tuple[PhraseData, ...] = ()
    keys: tuple[KeyPages, ...] = ()
    place: int = 0
    count: int = 0
    first: int = 1
    skipped: int = 2

    def starting(self, first: int) -> PieceData:
        """Return the piece with another number on its first page: even numbers stand on left pages."""
        return replace(self, first=first, skipped=2 if first % 2 else 1)


def pieces_of(data: BookData) -> tuple[PieceData, ...]:
    """Return the pieces of a book in their order, each starting where the plan of the pages has it."""
    about = replace(
        data.about, subtitle="", links=(), keywords=(), shop=replace(data.about.shop, isbn=""),
        imprint=(), sample="", edition_says="",
    )  # fmt: skip
    divided = data.parts[0].name != ""
    phrases = [
        PieceData(about=about, divided=divided, phrases=(one,)) for part in data.parts for one in part.phrases
    ]
    keys = [
        PieceData(about=about, divided=divided, keys=(one,), place=place, count=len(data.by_key))
        for place, one in enumerate(data.by_key)
    ]
    starts = starts_of(data, planned(data))
    return tuple(piece.starting(first) for piece, first in zip((*phrases, *keys), starts, strict=True))


def planned(data: BookData) -> tuple[int, ...]:
    """Return how many pages each piece of a book takes, as planned."""
    groups = [one.pages for part in data.parts for one in part.phrases] + [one.pages for one in data.by_key]
    return tuple(max(1, len(pages)) for pages in groups)


def _starts(data: BookData, counts: Sequence[int]) -> Iterator[int]:
    """Yield the number of the first page of each piece, if every opening of a part takes one page."""
    page, openings = 1, data.about.openings and not data.by_key
    left = iter(counts)
    if openings and data.parts[0].name == "":
        page += 1
    for place, part in enumerate(data.parts):
        if part.name:
            page += (page + 1) % 2 if data.about.paper.leaves and place else 0
            page += 1
        for _ in part.phrases:
            page += page % 2 if openings else 0
            yield page
            page += next(left)
    yield from (page + before for before in accumulate(list(left)[:-1], initial=0) if data.by_key)


def starts_of(data: BookData, counts: Sequence[int]) -> tuple[int, ...]:
    """Return the number of the first page of each piece, if every opening of a part takes one page.

    Args:
        data: the book.
        counts: how many pages each piece takes, in their order.
    """
    return tuple(_starts(data, counts))


def frame_data(data: BookData, counts: Sequence[int], starts: Sequence[int]) -> BookData:
    """Return a book that holds pages free in place of its phrases and keys.

    Args:
        data: the book.
        counts: how many pages each piece takes, in their order.
        starts: the number on the first page of each.
    """
    left = iter(counts)
    numbers = [one.number for part in data.parts for one in part.phrases]
    return replace(
        data,
        parts=tuple(_without_music(part, left) for part in data.parts),
        by_key=tuple(replace(key, pages=(), held=next(left)) for key in data.by_key),
        foretold=tuple(zip(numbers, starts, strict=False)),
    )


def _without_music(part: PartData, counts: Iterable[int]) -> PartData:
    held = iter(counts)
    return replace(part, phrases=tuple(_held(phrase, next(held)) for phrase in part.phrases))


def _held(phrase: PhraseData, count: int) -> PhraseData:
    """Return a phrase with nothing but what lists say of it."""
    return replace(
        phrase, head="", facts=(), commentary=(), commentary_note="", explanation=(), home=_NOTHING,
        scales=(), tempos=(), links=(), changes=None, beside=False, text_mm=0.0, white=1.0,
        scale_columns=1, pages=(), chapters=(), held=count,
    )  # fmt: skip
