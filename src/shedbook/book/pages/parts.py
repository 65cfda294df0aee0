"""The parts of a book: its phrases by progression or by scale, or all of them in one. Pure."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from shedbook.book.ground.words import Words
from shedbook.book.manuscript.settings.pages import BY_PROGRESSION, UNDIVIDED
from shedbook.book.scores.artefacts import PhraseCard


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
