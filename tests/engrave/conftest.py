"""Phrases for the tests of the engraver, built from text."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction

import pytest

from shedbook.phrase.changes_text import parse_changes
from shedbook.phrase.line_text import parse_line
from shedbook.phrase.model import Phrase
from shedbook.theory.key import Key
from shedbook.theory.metre import Metre


def build(line: str, changes: str, metre: str = "4/4", pickup: str = "0", key: str = "C major") -> Phrase:
    """Read a phrase; `pickup` is in quarters."""
    read = Metre.parse(metre)
    bars = parse_line(line, read, Fraction(pickup))
    found = parse_changes(changes, read).changes
    return Phrase("test", Key.parse(key), read, bars, found, (None,) * len(found), 132, "swing")


@pytest.fixture(scope="session")
def make() -> Callable[..., Phrase]:
    return build
