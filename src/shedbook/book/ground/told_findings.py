"""What is found, put into words: in English for the command line, and in the language of the book.

On the command line keys and scales are called as they are typed. A book in English has no other words than
that, unless its author has written rows anew.
"""

from __future__ import annotations

from typing import NamedTuple

from shedbook.analysis.naming.sayings import COMMAND_LINE_ROWS, Saying
from shedbook.book.ground.findings import PhraseFinding
from shedbook.book.ground.tables.words import ENGLISH
from shedbook.book.ground.words import EN, Words

COMMAND_LINE = Words({**ENGLISH, **COMMAND_LINE_ROWS})
"""The words of the command line."""


class Sentences(NamedTuple):
    """A message and a mend in English, and the same in the language of a book, "" where that is English."""

    message: str
    mend: str
    own_message: str = ""
    own_mend: str = ""


def sentences(message: Saying, mend: Saying, words: Words) -> Sentences:
    """Return what is said of something, in the words of the command line and in those of a book."""
    return Sentences(_said(message, COMMAND_LINE), _said(mend, COMMAND_LINE), *own(message, mend, words))


def own(message: Saying, mend: Saying, words: Words) -> tuple[str, str]:
    """Return a message and a mend in the words of a book, two empty texts where it has none of its own."""
    return ("", "") if words is EN else (_said(message, words), _said(mend, words))


def _said(one: Saying, words: Words) -> str:
    return words.sentence(one.said(words))


def told_finding(rule: str, severity: str, message: Saying, mend: Saying, words: Words) -> PhraseFinding:
    """Return what is found of a book as a whole."""
    said = sentences(message, mend, words)
    return PhraseFinding(
        rule, severity, None, "", said.message, said.mend,
        own_message=said.own_message, own_mend=said.own_mend,
    )  # fmt: skip
