"""What a book says of itself, from its settings, its edition and what was asked of the build."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from shedbook.book.edition_words import edition_words
from shedbook.book.manuscript import Manuscript
from shedbook.book.pages import BookWords
from shedbook.book.paper import paper_of
from shedbook.book.request import Request
from shedbook.book.words import words_of
from shedbook.editions.instruments.edition import Edition


def book_words(
    manuscript: Manuscript, request: Request, edition: Edition, cards: Sequence[Mapping[str, Any]]
) -> BookWords:
    """Return the words of an edition; `cards` are those of its phrases, as the reader has them."""
    settings = manuscript.settings
    words = words_of(settings.language, dict(settings.pages.words))
    said = edition_words(edition, words, concert_words=any(card.get("names_concert") for card in cards))
    return BookWords(
        title=manuscript.title,
        subtitle=settings.subtitle,
        author=settings.author,
        rights=settings.rights,
        language=settings.language,
        links=settings.links,
        paper=paper_of(settings.page_size, large=settings.pages.large_print),
        large=settings.pages.large_print,
        edition=said.title,
        edition_says=said.says,
        edition_advice=said.advice,
        order=settings.keys if isinstance(settings.keys, str) and not request.keys else "",
        order_written=settings.keys_written,
        degrees=settings.pages.degrees,
        sparse=settings.pages.sparse,
        scale_names=settings.pages.scale_names,
        signature=settings.signatures,
        tempos=settings.tempos,
        own_staves=settings.pages.own_staves,
        parts=settings.pages.parts,
        arrange=settings.pages.arrange,
        licensee=request.licensee,
        sample_of=len(manuscript.phrases) if request.sample else 0,
        own_words=settings.pages.words,
        chapters=manuscript.chapters,
        date=settings.pages.date,
        tablature=edition.tablature is not None,
    )
