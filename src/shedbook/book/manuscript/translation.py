"""What is said of a book in a language for which there is no table of the pages' fixed words."""

from __future__ import annotations

from collections.abc import Mapping

from shedbook.analysis.naming.sayings import Saying, saying
from shedbook.book.ground.findings import BookFinding, of_book
from shedbook.book.ground.told_findings import COMMAND_LINE, told_finding
from shedbook.book.ground.words import WORD_NAMES, has_table, words_of
from shedbook.book.manuscript.settings.whole_book import Settings

UNTRANSLATED = "untranslated"
"""The rule of this module; a book may silence it like any other."""
SEVERITY = "advice"


def untranslated(language: str, own: Mapping[str, str]) -> str:
    """Return a sentence for the fixed words that stay English in a book of this language, "" if none does."""
    said = _untranslated(language, own)
    return "" if said is None else said.said(COMMAND_LINE)


def _untranslated(language: str, own: Mapping[str, str]) -> Saying | None:
    left = sum(name not in own for name in WORD_NAMES)
    if not left or has_table(language):
        return None
    return saying("finding.untranslated", language=language, left=left, all=len(WORD_NAMES))


def translation_findings(settings: Settings, file: str) -> tuple[BookFinding, ...]:
    """Return what is said of a whole book about words that it prints in English."""
    own = dict(settings.pages.words)
    message = _untranslated(settings.language, own)
    if message is None or UNTRANSLATED in settings.silenced:
        return ()
    mend = saying("finding.untranslated.mend")
    words = words_of(settings.language, own)
    return (of_book(file, told_finding(UNTRANSLATED, SEVERITY, message, mend, words)),)
