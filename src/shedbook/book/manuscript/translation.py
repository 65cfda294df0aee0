"""What is said of a book in a language for which there is no table of the pages' fixed words."""

from __future__ import annotations

from collections.abc import Mapping

from shedbook.book.ground.findings import BookFinding, PhraseFinding, of_book
from shedbook.book.ground.words import WORD_NAMES, has_table
from shedbook.book.manuscript.settings.whole_book import Settings

UNTRANSLATED = "untranslated"
"""The rule of this module; a book may silence it like any other."""
SEVERITY = "advice"
MEND = "Translate the rows of docs/language.md under [words], or silence this if English is meant."


def untranslated(language: str, own: Mapping[str, str]) -> str:
    """Return a sentence for the fixed words that stay English in a book of this language, "" if none does."""
    left = sum(name not in own for name in WORD_NAMES)
    if not left or has_table(language):
        return ""
    return f'The book is in "{language}", and {left} of its {len(WORD_NAMES)} fixed words are English.'


def translation_findings(settings: Settings, file: str) -> tuple[BookFinding, ...]:
    """Return what is said of a whole book about words that it prints in English."""
    message = untranslated(settings.language, dict(settings.pages.words))
    if not message or UNTRANSLATED in settings.silenced:
        return ()
    return (of_book(file, PhraseFinding(UNTRANSLATED, SEVERITY, None, "", message, MEND)),)
