"""The key-cycle checklist: a row a phrase, a column a key, a box to tick. Pure."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from shedbook.book.ground.printed_text import printed_tonic
from shedbook.book.ground.words import EN, Words
from shedbook.book.pages.data import Checklist, ChecklistRow
from shedbook.theory.pitch import NoteName


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
