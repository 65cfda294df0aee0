"""The lists of a book: its parts, its indexes, and the checklist of keys. Pure."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass

from shedbook.book.ground.printed_text import printed, printed_tonic
from shedbook.book.ground.words import EN, Words
from shedbook.book.manuscript.settings.pages import BY_PROGRESSION, UNDIVIDED
from shedbook.book.pages.data import Checklist, ChecklistRow, IndexData, IndexEntry
from shedbook.book.scores.artefacts import PhraseCard
from shedbook.theory.pitch import NoteName


@dataclass(frozen=True, slots=True)
class Part:
    """One part: its name, "" in a book that is not divided, and the numbers of its phrases in order.

    `title` is the name as the book prints it, in its language.
    """

    name: str
    phrases: tuple[int, ...]
    title: str = ""


def parts_of(cards: Sequence[tuple[int, PhraseCard]], by: str, words: Words) -> tuple[Part, ...]:
    """Return the parts in the order in which their first phrases stand; what has no name comes last.

    A phrase stands in the part of its main progression, or of the scale that it has in mind longest. Its
    number stays what it is in the manuscript.
    """
    if by == UNDIVIDED:
        return (Part("", tuple(number for number, _ in cards)),)
    found: dict[str, list[int]] = {}
    for number, card in cards:
        found.setdefault(card.progression if by == BY_PROGRESSION else card.scale, []).append(number)
    unnamed = found.pop("", None)
    parts = [Part(name, tuple(numbers), words.named(by, name)) for name, numbers in found.items()]
    if unnamed is not None:
        none = words("part.none" if by == BY_PROGRESSION else "part.no scale")
        parts.append(Part(none, tuple(unnamed), none))
    return tuple(parts)


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


@dataclass(frozen=True, slots=True)
class ListedPhrase:
    """What the checklist shows of a phrase: number, title, and the written keys that the book has it in."""

    number: int
    title: str
    keys: tuple[str, ...]


def checklist(phrases: Sequence[ListedPhrase], words: Words = EN) -> Checklist:
    """Return the columns, each with the names that its key has in the book, and the rows.

    The columns go in the order of the first phrase's keys, begun at C where that is among them. A phrase that
    lacks a key has no box there.
    """
    order: dict[int, dict[str, None]] = {}
    for phrase in phrases:
        for key in phrase.keys:
            tonic = key.partition(" ")[0]
            order.setdefault(NoteName.parse(tonic).pitch_class, {})[tonic] = None
    classes = list(order)
    if 0 in classes:
        start = classes.index(0)
        classes = classes[start:] + classes[:start]
    return Checklist(
        tuple(
            tuple(
                printed_tonic(words.short_note(NoteName.parse(tonic)))
                for tonic in sorted(order[one], key=_flats_first)
            )
            for one in classes
        ),
        tuple(ChecklistRow(one.number, one.title, _boxes(one, classes)) for one in phrases),
    )


def _boxes(phrase: ListedPhrase, classes: Sequence[int]) -> tuple[bool, ...]:
    there = {NoteName.parse(key.partition(" ")[0]).pitch_class for key in phrase.keys}
    return tuple(one in there for one in classes)


def _flats_first(tonic: str) -> tuple[bool, str]:
    return "#" in tonic, tonic
