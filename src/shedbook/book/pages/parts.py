"""The parts of a book: its phrases by progression or by scale, or all of them in one. Pure."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from shedbook.book.ground.words import Words

BY_PROGRESSION, BY_SCALE, NONE = "progression", "scale", "none"
PARTS = (BY_PROGRESSION, BY_SCALE, NONE)
"""By what a book may be divided."""


@dataclass(frozen=True, slots=True)
class Part:
    """One part: its name, "" in a book that is not divided, and the numbers of its phrases in order.

    `title` is the name as the book prints it, in its language.
    """

    name: str
    phrases: tuple[int, ...]
    title: str = ""


def parts_of(cards: Sequence[tuple[int, Mapping[str, Any]]], by: str, words: Words) -> tuple[Part, ...]:
    """Return the parts in the order in which their first phrases stand; what has no name comes last.

    A phrase stands in the part of its main progression, or of the scale that it has in mind longest. Its
    number stays what it is in the manuscript.
    """
    if by == NONE:
        return (Part("", tuple(number for number, _ in cards)),)
    field = "progression" if by == BY_PROGRESSION else "scale"
    found: dict[str, list[int]] = {}
    for number, card in cards:
        found.setdefault(str(card.get(field, "")), []).append(number)
    unnamed = found.pop("", None)
    parts = [Part(name, tuple(numbers), words.named(by, name)) for name, numbers in found.items()]
    if unnamed is not None:
        none = words("part.none" if by == BY_PROGRESSION else "part.no scale")
        parts.append(Part(none, tuple(unnamed), none))
    return tuple(parts)
