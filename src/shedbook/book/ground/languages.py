"""The tables of words by language, each brought together when it is first used."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from shedbook.book.ground.tables.languages import SHIPPED
from shedbook.book.ground.tables.words import ENGLISH


class _Languages(Mapping[str, dict[str, str]]):
    """English, and the tables that ship beside it."""

    def __init__(self) -> None:
        self._found = {"en": ENGLISH}

    def __getitem__(self, tag: str) -> dict[str, str]:
        if tag not in self._found:
            table = SHIPPED[tag]
            pending = {name: text for name, text in table.pending.items() if name in ENGLISH}
            self._found[tag] = {**table.words, **pending}
        return self._found[tag]

    def __iter__(self) -> Iterator[str]:
        return iter(("en", *SHIPPED))

    def __len__(self) -> int:
        return 1 + len(SHIPPED)

    def __contains__(self, tag: object) -> bool:
        return tag == "en" or tag in SHIPPED


LANGUAGES: Mapping[str, dict[str, str]] = _Languages()
"""The tables there are, by language."""
