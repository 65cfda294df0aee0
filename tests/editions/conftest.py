"""Phrases for the tests of editions, built from text."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from shedbook.phrase.changes_text import parse_changes, parse_scales
from shedbook.phrase.line_text import parse_line
from shedbook.phrase.model import Phrase
from shedbook.theory.key import Key
from shedbook.theory.metre import Metre


def build(key: str, changes: str, line: str, scales: str = "") -> Phrase:
    metre = Metre()
    bars = parse_line(line, metre)
    read = parse_changes(changes, metre).changes
    chosen = parse_scales(scales, read, len(bars)) if scales else (None,) * len(read)
    return Phrase("test", Key.parse(key), metre, bars, read, chosen)


@pytest.fixture(scope="session")
def make() -> Callable[..., Phrase]:
    return build
