"""A book of one edition as its pages see it: the settings, the edition, and what was asked of the build."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from types import MappingProxyType

from shedbook.book.ground.paper import Paper, paper_of
from shedbook.book.ground.words import Words, words_of
from shedbook.book.manuscript.chapters import Chapter
from shedbook.book.manuscript.opening import Manuscript
from shedbook.book.manuscript.request import Request
from shedbook.book.manuscript.settings.whole_book import Settings
from shedbook.book.pages.edition_words import EditionWords, edition_words
from shedbook.book.pages.shop_pictures import ShopPicture
from shedbook.book.scores.artefacts import PlacingCard
from shedbook.editions.instruments.edition import Edition


@dataclass(frozen=True, slots=True)
class BookText:
    """A book of one edition.

    `some_keys` says that the build was asked for some keys only, `sample_of` is the number of phrases of the
    whole book where this is a sample of it, else 0. `pictures` are those of cover and title page by their
    keys. `last_phrase` is the number of the manuscript's last phrase; drills come after it. `largest` is the
    largest number of all, `keys` the largest number of keys of a phrase.
    """

    title: str
    settings: Settings
    edition: EditionWords
    chapters: tuple[Chapter, ...] = ()
    licensee: str = ""
    some_keys: bool = False
    sample_of: int = 0
    isbn: str = ""
    pictures: tuple[tuple[str, ShopPicture], ...] = ()
    last_phrase: int | None = None
    largest: int = 1
    keys: int = 12

    def is_drill(self, number: int) -> bool:
        """Say whether the phrase with a number is a drill."""
        return self.last_phrase is not None and number > self.last_phrase

    @property
    def words(self) -> Words:
        """The fixed words in the book's language, the author's own in their places."""
        return words_of(self.settings.language, dict(self.settings.pages.words))

    @property
    def paper(self) -> Paper:
        """The paper of the book."""
        return paper_of(self.settings.page_size, large=self.settings.pages.large_print)

    @property
    def openings(self) -> bool:
        """Whether phrases begin on openings of two facing pages."""
        return self.paper.leaves and self.settings.pages.layout.on_openings(self.keys)

    @property
    def order(self) -> str:
        """The name of the order of keys, or "" for an order or a choice of the author's own."""
        return self.settings.keys if isinstance(self.settings.keys, str) and not self.some_keys else ""


def book_text(
    manuscript: Manuscript,
    request: Request,
    edition: Edition,
    cards: Sequence[PlacingCard],
    pictures: Mapping[str, ShopPicture] = MappingProxyType({}),
) -> BookText:
    """Return the book of one edition.

    Args:
        manuscript: the author's book.
        request: what was asked of this build: some keys, a sample, a licensee.
        edition: whose book it is.
        pictures: those of cover and title page by their keys.
        cards: the cards of its phrases in that edition; they say whether the author's words name notes.
    """
    settings = manuscript.settings
    words = words_of(settings.language, dict(settings.pages.words))
    return BookText(
        manuscript.title,
        settings,
        edition_words(edition, words, concert_words=any(card.names_concert for card in cards)),
        manuscript.chapters,
        request.licensee,
        bool(request.keys),
        len(manuscript.phrases) if request.sample else 0,
        settings.shop.isbn_of(edition.name),
        tuple(pictures.items()),
        manuscript.last_phrase,
        max((source.number for source in manuscript.phrases), default=1),
        max((len(card.keys) for card in cards), default=0),
    )
