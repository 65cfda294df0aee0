"""What a student reads first, in every language. Source: our own design."""

from __future__ import annotations

import pytest

from shedbook.book.bundle.manifest import BOOK, MANIFEST, MIDI, MUSICXML, PRACTICE, TRACK, About
from shedbook.book.bundle.student_readme import CHANGES, LICENCE, readme
from shedbook.book.ground.tables.bundle_words import BUNDLE
from shedbook.book.ground.words import words_of

ABOUT = About("tides", "Tides", "A. N.", "1.2", "en", "Ada Reader")
ROLES = (BOOK, TRACK, MIDI, MUSICXML, PRACTICE, LICENCE, CHANGES, MANIFEST)


@pytest.mark.parametrize("language", BUNDLE)
def test_it_says_what_opens_with_what_in_every_language(language: str) -> None:
    words = words_of(language)
    text = readme(ABOUT, "B♭", "tides-bflat.pdf", ROLES, words, transposes=True)
    for name in (
        "tides-bflat.pdf:",
        "tracks/:",
        "midi/:",
        "musicxml/:",
        "practice/:",
        "licence.txt:",
        "changes.txt:",
    ):
        assert name in text
    for row in ("bundle.unpack", "bundle.sounds", "bundle.care", "bundle.midi"):
        assert words(row) in text
    assert "1.2" in text
    assert "Ada Reader" in text
    assert "{" not in text


def test_it_names_nothing_that_is_not_there() -> None:
    text = readme(ABOUT, "Concert", "tides.pdf", (BOOK, LICENCE), words_of("en"), transposes=True)
    assert "tracks/" not in text
    assert "practice" not in text.replace("Practise", "")
    assert "changes.txt" not in text
    assert words_of("en")("bundle.sounds") not in text


def test_it_says_when_to_stop() -> None:
    """A page that makes somebody play says what to do when it hurts (common practice)."""
    text = readme(ABOUT, "Concert", "tides.pdf", ROLES, words_of("en"), transposes=False)
    assert "doctor" in text
    assert "headphones low" in text
