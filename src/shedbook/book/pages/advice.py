"""The words of the page "How to use this book": what a teacher would say before the first lesson."""

from __future__ import annotations

from dataclasses import dataclass
from typing import NamedTuple

from shedbook.book.ground.words import Words


class Advice(NamedTuple):
    """One paragraph or more under a head in the margin."""

    head: str
    says: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Habits:
    """What of a book its advice depends on.

    `keys` is how many keys there are; `order` the name of their order, or "" for one of the author's own;
    `edition_says` are paragraphs on the edition, those of the concert edition where there are none.
    """

    keys: int = 12
    order: str = ""
    by_key: bool = False
    degrees: bool = True
    sparse: bool = False
    landings: bool = False
    scale_names: bool = True
    signature: bool = False
    own_staves: bool = True
    edition_says: tuple[str, ...] = ()


def advice(words: Words, habits: Habits) -> tuple[Advice, ...]:
    """Return the sections in their order."""
    return (
        Advice(words("advice.edition"), habits.edition_says or (words("advice.edition.concert"),)),
        _section(words, "advice.phrase"),
        Advice(words("advice.keys"), (_keys(words, habits), words("advice.method"))),
        Advice(words("advice.signs"), (_signs(words, habits),)),
        _section(words, "advice.time"),
        Advice(words("advice.yours"), (_yours(words, habits),)),
        _section(words, "advice.body"),
    )


def _section(words: Words, name: str) -> Advice:
    return Advice(words(name), tuple(words(f"{name}.says").split("\n\n")))


def _yours(words: Words, habits: Habits) -> str:
    parts = ["advice.yours.says", *(["advice.yours.staves"] if habits.own_staves else [])]
    return " ".join(words(part) for part in parts)


def _keys(words: Words, habits: Habits) -> str:
    if habits.by_key:
        said = [words("advice.keys.by key")]
    elif habits.keys == 1:
        said = [words("advice.keys.one")]
    else:
        said = [words("advice.keys.many", keys=words.number(habits.keys))]
    if habits.keys > 1 and words.has(f"order.{habits.order}"):
        said.append(words(f"order.{habits.order}"))
    said.append(words("advice.signature" if habits.signature else "advice.accidentals"))
    return " ".join(said)


def _signs(words: Words, habits: Habits) -> str:
    parts = ["signs.symbols"]
    if habits.degrees:
        parts.append("signs.degrees")
        parts += ["signs.sparse"] if habits.sparse else []
        parts += ["signs.landings"] if habits.landings else []
    if habits.scale_names:
        parts.append("signs.scales")
    return " ".join(words(part) for part in [*parts, "signs.ghost"])
