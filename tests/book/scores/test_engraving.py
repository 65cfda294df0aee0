"""The jobs of one phrase: each gives the same, whatever was done before it and is done with it."""

from __future__ import annotations

import pytest

from book import drawings
from book.builds import write_manuscript
from shedbook.book.manuscript.opening import Manuscript, open_manuscript
from shedbook.book.manuscript.settings.whole_book import Settings
from shedbook.book.scores.artefacts import HOME, Picture
from shedbook.book.scores.engraving import Reading, draw_pictures, place_card, read_card
from shedbook.book.scores.inputs import PictureInput, ScalePicture, card_input, placing_input
from shedbook.editions.instruments.edition import edition_named
from shedbook.errors import ShedbookError

EDITIONS = ("concert", "eflat")


@pytest.fixture(scope="module")
def book(tmp_path_factory: pytest.TempPathFactory) -> Manuscript:
    return open_manuscript(write_manuscript(tmp_path_factory.mktemp("engraving") / "tides"))


def every_picture(book: Manuscript, number: int, edition: str) -> dict[str, PictureInput]:
    source = book.phrases[number]
    return drawings.inputs_of(source.text, edition_named(edition), book.settings)[1]


@pytest.mark.parametrize("edition", EDITIONS)
@pytest.mark.parametrize("number", range(3))
def test_a_picture_is_the_same_whichever_others_are_drawn_with_it(
    book: Manuscript, number: int, edition: str
) -> None:
    pictures = every_picture(book, number, edition)
    together = drawings.drawn(pictures)
    assert len(together) >= 1 + 12 + 1
    for name, picture in pictures.items():
        assert drawings.drawn({name: picture}) == {name: together[name]}


@pytest.mark.parametrize("edition", EDITIONS)
def test_drawn_one_after_the_other_pictures_are_the_same(book: Manuscript, edition: str) -> None:
    pictures = list(every_picture(book, 0, edition).values())
    together, singly = (
        {id(picture): made for picture, made in draw_pictures(pictures, Reading(), singly=alone)}
        for alone in (False, True)
    )
    assert singly == together
    assert list(singly) == [id(picture) for picture in pictures]


def test_what_is_kept_of_a_phrase_changes_no_job(book: Manuscript) -> None:
    """One reading serves every job of two phrases, in whatever order; a new one gives the same."""
    kept = Reading()
    for source in (*book.phrases[:2], *book.phrases[1::-1]):
        for name in EDITIONS:
            given = placing_input(source.text, edition_named(name), book.settings)
            assert place_card(given, kept) == place_card(given, Reading())
        card = card_input(source.text, book.settings)
        assert read_card(card, kept) == read_card(card, Reading())


def test_a_picture_is_told_in_the_words_of_its_own_key(book: Manuscript) -> None:
    found = drawings.drawn(every_picture(book, 0, "eflat"))
    assert found[HOME].facts.alt.startswith("Low tide in A minor")
    assert found["D minor"].facts.alt.startswith("Low tide in D minor")


def test_scales_lie_equally_high_beside_one_another(book: Manuscript) -> None:
    for number in range(3):
        pictures = every_picture(book, number, "concert")
        scales = {name: one for name, one in pictures.items() if isinstance(one, ScalePicture)}
        found = [one.facts for one in drawings.drawn(scales).values()]
        assert len({(facts.height_mm, facts.staff_mm) for facts in found}) == 1


def test_an_error_in_one_picture_comes_in_its_place(
    book: Manuscript, monkeypatch: pytest.MonkeyPatch
) -> None:
    pictures = every_picture(book, 0, "concert")

    def refused(*_: object, **__: object) -> None:
        raise ShedbookError("It cannot be drawn.")

    monkeypatch.setattr("shedbook.book.scores.engraving.draw_scales", refused)
    names = {id(picture): name for name, picture in pictures.items()}
    found = {names[id(picture)]: made for picture, made in draw_pictures([*pictures.values()], Reading())}
    assert found.keys() == pictures.keys()
    for name, made in found.items():
        assert isinstance(made, ShedbookError if name.startswith("scale ") else Picture), name


def test_a_card_says_what_a_phrase_is(book: Manuscript) -> None:
    """An invented minor ii–V–i in C minor."""
    card = read_card(card_input(book.phrases[0].text, Settings()), Reading())
    assert (card.title, card.home, card.key_inferred, card.metre) == ("Low tide", "C minor", True, "4/4")
    assert (card.tempo, card.feel, card.progression) == (132, "swing", "minor ii–V–i")
    assert (card.keys[0], len(card.keys)) == ("C minor", 12)
    assert card.commentary == "Listen to bar two."
    assert card.outline.split()[:4] == ["0", "3", "7", "10"]  # f ab c eb
