"""The order to lay out an edition: by what its PDF is named, and when one that lies there will do."""

from dataclasses import replace
from pathlib import Path

import pytest

from book.cards import CARD, PLACING
from shedbook.book.ground.words import EN
from shedbook.book.manuscript.settings.whole_book import Settings
from shedbook.book.pages.book_pages import page_data
from shedbook.book.pages.book_text import BookText
from shedbook.book.pages.data import BookData
from shedbook.book.pages.edition_words import edition_words
from shedbook.book.pages.layout import LaidOut, PagesOrder, laid_out_before, note_laid_out
from shedbook.book.pages.phrase_pages import PhrasePages
from shedbook.book.scores.artefacts import Score
from shedbook.book.workshop.naming import content_hash
from shedbook.book.workshop.store import Store
from shedbook.editions.instruments.edition import edition_named


def data(picture: str = "svg/a1.svg", *, proof: bool = False) -> BookData:
    score = Score(100.0, 30.0, 10.0, "alt", path=picture, key="C minor")
    book = BookText("T", Settings(author="A"), edition_words(edition_named("concert"), EN))
    return page_data(book, [PhrasePages(1, CARD, PLACING, score, (score,))], proof=proof)


@pytest.fixture
def order(tmp_path: Path) -> PagesOrder:
    store = Store(tmp_path / ".store")
    with store.held():
        pass
    return PagesOrder(str(store.folder), str(tmp_path / "tides-concert.pdf"), "book.typ", data(), "1")


def test_what_is_printed_and_by_what_names_the_pdf(order: PagesOrder) -> None:
    assert replace(order, data=data()).job == order.job
    assert replace(order, store="elsewhere", target="/out/other.pdf").job == order.job
    for other in (
        replace(order, data=data(proof=True)),
        replace(order, data=data("svg/b2.svg")),  # the name of a picture tells its content
        replace(order, template="proof.typ"),
        replace(order, versions="2"),
    ):
        assert other.job != order.job


def test_each_pdf_has_a_note_of_its_own(order: PagesOrder) -> None:
    assert replace(order, target="/elsewhere/tides-concert.pdf").note_name == order.note_name
    assert replace(order, target=order.target.replace("concert", "bflat")).note_name != order.note_name
    assert replace(order, data=data(proof=True)).note_name == order.note_name


def test_a_pdf_that_is_what_the_order_would_make_is_left_alone(order: PagesOrder) -> None:
    store, target = Store(Path(order.store)), Path(order.target)
    assert laid_out_before(store, order) is None
    target.write_bytes(b"%PDF-1.7 of ours")
    assert laid_out_before(store, order) is None  # nobody knows what it was made from
    note = LaidOut(order.job, (content_hash(target.read_bytes()),), ("a part",))
    note_laid_out(store, order, note)
    assert laid_out_before(store, order) == note
    assert laid_out_before(store, replace(order, versions="2")) is None
    target.write_bytes(b"%PDF-1.7 of another's")
    assert laid_out_before(store, order) is None
    target.unlink()
    assert laid_out_before(store, order) is None
