"""What a book says of its edition. Intervals are those of the table of instruments."""

from __future__ import annotations

import pytest

from shedbook.book.ground.words import words_of
from shedbook.book.pages.edition_words import edition_words, pitch_words
from shedbook.editions.instruments.edition import edition_for, edition_named, group_editions
from shedbook.editions.instruments.instrument import instruments
from shedbook.editions.instruments.own_instruments import read_transposition

ENGLISH = words_of("en")


@pytest.mark.parametrize(
    ("name", "title", "says"),
    [
        ("concert", "Concert edition", "Written as it sounds, for instruments in C"),
        ("bflat", "B♭ edition", "Written a major second above concert pitch"),
        ("eflat", "E♭ edition", "Written a major sixth above concert pitch"),
        ("f", "F edition", "Written a fifth above concert pitch"),
        ("bass", "Bass clef edition", "Written as it sounds"),
        ("tenor sax", "Tenor saxophone edition", "Written an octave and a major second above concert pitch"),
        ("guitar", "Guitar edition", "Written an octave above concert pitch"),
        ("flute", "Flute edition", "Written as it sounds"),
    ],
)
def test_title_and_pitch(name: str, title: str, says: str) -> None:
    said = edition_words(edition_named(name), ENGLISH)
    assert (said.title, said.says) == (title, says)


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("down a minor third", "Written a minor third below concert pitch"),
        ("up two octaves", "Written two octaves above concert pitch"),
        ("A4", "Written an augmented fourth above concert pitch"),
    ],
)
def test_transpositions_of_instruments_of_ones_own(text: str, says: str) -> None:
    assert pitch_words(read_transposition(text), ENGLISH) == says


def test_every_edition_has_its_words() -> None:
    for edition in (*group_editions(), *(edition_for(one) for one in instruments())):
        said = edition_words(edition, ENGLISH)
        (advice,) = said.advice
        assert " flat" not in said.title
        assert ("concert key" in advice) == edition.transposes
        if edition.transposes:
            assert "they are concert pitch" in edition_words(edition, ENGLISH, concert_words=True).advice[0]


@pytest.mark.parametrize(("name", "lower"), [("bflat", True), ("eflat", True), ("bass", True), ("f", False)])
def test_readers_of_one_page_may_sound_in_two_octaves(name: str, *, lower: bool) -> None:
    (advice,) = edition_words(edition_named(name), ENGLISH).advice
    assert ("an octave lower still" in advice) == lower
