"""Quotation marks, apostrophes and dashes as printers of each language set them (common practice)."""

from __future__ import annotations

import pytest

from shedbook.book.ground.typography import typeset


@pytest.mark.parametrize(
    ("text", "language", "found"),
    [
        ('He said "play", and I did.', "en", "He said “play”, and I did."),
        ('("so")', "en", "(“so”)"),
        ("it's the player's, isn't it", "en", "it’s the player’s, isn’t it"),
        ("the 'blue' third", "en", "the ‘blue’ third"),
        ("the phrases' ends", "en", "the phrases’ ends"),
        ("in the '50s", "en", "in the ’50s"),
        ('"Los!"', "de", "„Los!“"),
        ('"Los!"', "de-CH", "„Los!“"),
        ('"oui"', "fr", "«\u202foui\u202f»"),
        ('"sí"', "es", "«sí»"),
        ('"sim"', "pt-BR", "“sim”"),
        ('"what"', "xx", "“what”"),
        ("bars 5-8 and 1-2", "en", "bars 5–8 and 1–2"),
        ("first - then -- last", "en", "first – then – last"),
        ("half-whole, b9-13 and C-7", "en", "half-whole, b9-13 and C-7"),
        ("and so on...", "en", "and so on…"),
        ("“printed” – already’s", "en", "“printed” – already’s"),
        ("", "en", ""),
    ],
)
def test_marks(text: str, language: str, found: str) -> None:
    assert typeset(text, language) == found


@pytest.mark.parametrize("language", ["en", "de", "fr", "es", "pt"])
def test_nothing_is_set_twice(language: str) -> None:
    once = typeset("\"It's 'so'\" - 5-8...", language)
    assert typeset(once, language) == once
