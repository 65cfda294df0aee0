"""Indexes: in which phrases a progression, a scale, a device stands, and how hard each phrase is. Pure."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence

from shedbook.book.ground.printed_text import printed
from shedbook.book.ground.words import Words
from shedbook.book.pages.data import IndexData, IndexEntry
from shedbook.book.scores.artefacts import PhraseCard

Entries = dict[str, list[int]]
"""The numbers of phrases by the term under which they stand."""


def indexes(cards: Sequence[tuple[int, PhraseCard]], words: Words) -> tuple[IndexData, ...]:
    """Return the indexes that have entries; `cards` are phrases by number.

    Under each term the phrases stand in the order of `cards`, which is that of the pages.
    """
    by_name: tuple[tuple[str, Entries], ...] = (
        ("index.progression", _entries(cards, lambda card: card.progressions, words, "progression")),
        ("index.scale", _entries(cards, lambda card: card.scale_names, words, "scale")),
        ("index.device", _entries(cards, lambda card: card.devices, words, "device")),
        ("index.difficulty", _entries(cards, lambda card: (str(card.level),), words, "level", in_order=True)),
    )
    return tuple(
        IndexData(words(name), tuple(IndexEntry(term, tuple(found)) for term, found in entries.items()))
        for name, entries in by_name
        if entries
    )


def _entries(
    cards: Iterable[tuple[int, PhraseCard]],
    terms: Callable[[PhraseCard], Iterable[str]],
    words: Words,
    prefix: str,
    *,
    in_order: bool = False,
) -> Entries:
    """Return the terms with their phrases, in the order of the alphabet or of the terms' own names."""
    found: Entries = {}
    for number, card in cards:
        for term in dict.fromkeys(terms(card)):
            found.setdefault(term, []).append(number)
    names = {term: printed(words.named(prefix, term)) for term in found}
    order = sorted(found) if in_order else sorted(found, key=lambda term: sort_key(names[term]))
    return {names[term]: found[term] for term in order}


def sort_key(term: str) -> tuple[str, str]:
    """Return what a term is ordered by: its letters without regard to case, then itself."""
    return "".join(character for character in term.casefold() if character.isalnum()), term
