"""The listing is counted from the cards of a book. Source: our own design."""

from __future__ import annotations

import json
from dataclasses import replace

import pytest

from book.cards import CARD
from shedbook.book.bundle.listing import Counts, listing_of, listing_text
from shedbook.book.bundle.manifest import About
from shedbook.book.ground.json_values import to_json
from shedbook.book.ground.tables.bundle_words import BUNDLE
from shedbook.book.ground.words import words_of

TWELVE = tuple(["C", "F", "Bb", "Eb", "Ab", "Db", "Gb", "B", "E", "A", "D", "G"])
CARDS = [
    (1, replace(CARD, title="Low tide", level=2, keys=TWELVE, progressions=("minor ii–V–i",))),
    (2, replace(CARD, title="Ebb", level=4, keys=TWELVE, progressions=("ii–V–I", "minor ii–V–i"))),
]
COUNTS = Counts({"concert": 40, "bflat": 41}, 48, 3600.0, ("PDF", "MP3"), ("Concert edition", "B♭ edition"))
ABOUT = About("tides", "Tides", "A. N.", "1.2", "en")


def test_what_is_counted() -> None:
    found = listing_of(ABOUT, CARDS, COUNTS, "For low water", "", words_of("en"))
    assert (found.phrases, found.keys, found.levels, found.minutes) == (2, 12, (2, 4), 60)
    assert found.contents == ((1, "Low tide"), (2, "Ebb"))
    assert found.progressions == ("minor ii–V–i", "ii–V–I")  # the most used first
    said = " ".join(found.description)
    for part in (
        "Two phrases in all twelve keys",
        "Levels 2 to 4",
        "48, 60 minutes",
        "B♭ edition",
        "Pages: 41",
    ):
        assert part in said
    assert json.loads(to_json(found))["pages"] == {"concert": 40, "bflat": 41}


def test_eight_names_are_enough_for_a_description() -> None:
    scales = (
        "dorian",
        "lydian",
        "ionian",
        "altered",
        "locrian",
        "phrygian",
        "aeolian",
        "mixolydian",
        "blues",
    )
    cards = [(1, replace(CARD, scale_names=scales)), (2, replace(CARD, scale_names=scales[1:]))]
    found = listing_of(ABOUT, cards, COUNTS, "", "", words_of("en"))
    assert found.scales == (*sorted(scales[1:]), "dorian")
    (said,) = [one for one in found.description if "lydian" in one]
    assert "phrygian" in said
    assert "dorian" not in said.replace("mixolydian", "")


def test_the_authors_own_words_come_first() -> None:
    found = listing_of(ABOUT, CARDS[:1], COUNTS, "", "Buy this.", words_of("en"))
    assert found.description[0] == "Buy this."
    assert "Level 2 of five" in found.description[1]


def test_a_book_without_tracks_says_nothing_of_them() -> None:
    found = listing_of(ABOUT, CARDS, replace(COUNTS, tracks=0), "", "", words_of("en"))
    assert "Tracks" not in " ".join(found.description)


@pytest.mark.parametrize("language", BUNDLE)
def test_the_text_in_every_language(language: str) -> None:
    words = words_of(language)
    text = listing_text(listing_of(ABOUT, CARDS, COUNTS, "", "", words), words)
    assert "2. Ebb" in text
    assert words("listing.notes") in text
    assert "{" not in text
