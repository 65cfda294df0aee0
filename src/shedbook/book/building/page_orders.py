"""What is to be laid out of an edition: its book for a screen, for the press, or its proof sheet."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path

from shedbook.book.ground.paper import paper_of
from shedbook.book.manuscript.opening import Manuscript
from shedbook.book.manuscript.request import Request, pdf_path
from shedbook.book.pages.book_pages import BLEED_MM, cover_of, for_press, page_data, proof_data
from shedbook.book.pages.book_text import book_text
from shedbook.book.pages.layout import PagesOrder
from shedbook.book.pages.phrase_pages import PhrasePages
from shedbook.book.pages.shop_pictures import ShopPicture, check_sharp, shop_picture
from shedbook.book.scores.artefacts import CHANGES, HOME
from shedbook.book.scores.inputs import scale_name
from shedbook.book.scores.shelf import Shelf
from shedbook.book.scores.worker import PhraseOrder
from shedbook.book.tracks.orders import is_called
from shedbook.book.workshop.store import Seal, Store, file_seal
from shedbook.book.workshop.versions import score_fingerprint
from shedbook.editions.instruments.edition import Edition

_PICTURES = ("logo", "cover", "back_cover")
"""The keys of the manuscript that name pictures of a book that is sold."""


@dataclass(frozen=True, slots=True)
class Books:
    """What all books of a build have in common; `pictures` are those of cover and title page by key."""

    manuscript: Manuscript
    request: Request
    store: Store
    out: Path
    orders: tuple[PhraseOrder, ...]
    pictures: Mapping[str, ShopPicture]


def pages_orders(
    books: Books, edition: Edition, shelves: Sequence[Shelf], place: int, *, proof: bool
) -> Iterator[PagesOrder]:
    """Yield the orders of an edition's PDFs.

    Args:
        books: what the books have in common.
        edition: the edition.
        shelves: what the store holds of each phrase.
        place: the place of the edition on each shelf.
        proof: whether every page says that it is not final.

    Raises:
        RenderError: if a code cannot be made.
    """
    request, settings = books.request, books.manuscript.settings
    cards = [shelf.editions[place].card for shelf in shelves]
    book = book_text(books.manuscript, request, edition, cards, books.pictures)
    phrases = _phrases(books, shelves, place)
    store, versions = str(books.store.folder.resolve()), score_fingerprint()

    def target(kind: str) -> str:
        named = f"{edition.slug}{request.kind}{kind}"
        return str(pdf_path(books.manuscript.root, books.out, named).resolve())

    if request.proof_sheet:
        yield PagesOrder(store, target(""), "proof.typ", proof_data(book, phrases), versions)
        return
    data = page_data(book, phrases, proof=proof)
    yield PagesOrder(store, target(""), "book.typ", data, versions)
    if settings.press.wanted and not request.kind and book.paper.leaves:
        pressed = for_press(data, settings)
        cover = cover_of(pressed, book)
        yield PagesOrder(store, target("-print"), "book.typ", pressed, versions, cover, target("-cover"))


def _phrases(books: Books, shelves: Sequence[Shelf], place: int) -> list[PhrasePages]:
    tracks = books.manuscript.settings.tracks
    found = []
    for order, shelf in zip(books.orders, shelves, strict=True):
        one, source = shelf.editions[place], order.source
        named = not tracks.phrases or any(is_called(source, name) for name in tracks.phrases)
        found.append(
            PhrasePages(
                source.number,
                shelf.card,
                one.card,
                one.scores[HOME],
                tuple(one.scores[key.written] for key in one.card.keys),
                tuple(one.scores[scale_name(number)] for number in range(len(one.card.scales))),
                one.scores[CHANGES],
                bool(tracks.kinds) and named,
            )
        )
    return found


def _named_pictures(manuscript: Manuscript) -> dict[str, str]:
    """Return the picture files that a manuscript names, by their keys."""
    return {key: name for key in _PICTURES if (name := getattr(manuscript.settings.shop, key))}


def shop_pictures(
    manuscript: Manuscript, store: Store
) -> tuple[dict[str, ShopPicture], list[tuple[str, str]]]:
    """Return the pictures of cover and title page by their keys, and warnings where one is not quite sharp.

    Raises:
        ManuscriptError: if one is no picture, or much too small for print.
        OutputError: if the disk refuses it.
    """
    paper = paper_of(manuscript.settings.page_size)
    found, told = {}, []
    for key, name in _named_pictures(manuscript).items():
        found[key] = shop_picture(manuscript.root, name, store)
        if key != "logo" and manuscript.settings.press.wanted:
            says = check_sharp(found[key], name, paper.width_mm + BLEED_MM, paper.height_mm + 2 * BLEED_MM)
            told += [(says, "")] if says else []
    return found, told


def seals_of_pictures(manuscript: Manuscript) -> dict[str, Seal | None]:
    """Return the seals of the pictures, which are too long to be read at every build."""
    root = manuscript.root.resolve()
    return {str(root / name): file_seal(root / name) for name in _named_pictures(manuscript).values()}
