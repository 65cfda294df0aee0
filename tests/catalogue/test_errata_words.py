"""The change list as customers read it."""

from __future__ import annotations

from pathlib import Path

import pytest

from catalogue.books import PHRASES, UP_A_STEP
from catalogue.bundles import CHANGED, bundle
from shedbook.book.ground.tables.bundle_words import BUNDLE
from shedbook.book.ground.words import words_of
from shedbook.catalogue.book_state import state_of_bundle
from shedbook.catalogue.errata import Errata, compared
from shedbook.catalogue.errata_words import change_list, changes_text


def between(place: Path, language: str, before: dict[str, str], now: dict[str, str]) -> Errata:
    old = bundle(place / "old", "1.0", language, **before)
    return compared(state_of_bundle(old), state_of_bundle(bundle(place / "new", "1.1", language, **now)))


def test_a_note_is_told_with_place_keys_pages_and_what_to_download(tmp_path: Path) -> None:
    said = changes_text(between(tmp_path, "en", PHRASES, CHANGED))
    assert said.startswith("Tides\nWhat has changed\nFrom version 1.0 to version 1.1\n\n1. Quay\n")
    assert "  Bar 1, beat 2: note A flat 5 is now A5\n" in said
    assert "  In the keys: C minor, F minor\n" in said
    assert "  B♭ edition: pages 5, 6\n" in said
    assert "To download again\n  Concert edition: tides-concert-1.1.zip" in said
    assert said.endswith("phrases keep their names in the new version.\n")


@pytest.mark.parametrize("language", BUNDLE)
def test_every_language_says_it_in_its_words(language: str, tmp_path: Path) -> None:
    now = {"00-pier": UP_A_STEP, **CHANGED}
    del now["02-mole"]
    words = words_of(language)
    found = change_list(between(tmp_path, language, PHRASES, now))
    text = repr(found)
    for row in ("errata.title", "errata.new", "errata.gone", "errata.note", "errata.download"):
        assert words(row) in text
    assert "{" not in text
    assert words("errata.moved", number=1) in text  # the first phrase is now the second


def test_nothing_changed(tmp_path: Path) -> None:
    found = between(tmp_path, "de", PHRASES, PHRASES)
    assert words_of("de")("errata.none") in changes_text(found)


def test_german_names_its_notes(tmp_path: Path) -> None:
    said = changes_text(between(tmp_path, "de", PHRASES, CHANGED))
    assert "Takt 1, Schlag 2: Note As5 ist jetzt A5" in said
