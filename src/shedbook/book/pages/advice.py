"""The words of the page "How to use this book": what a teacher would say before the first lesson."""

from __future__ import annotations

from dataclasses import dataclass

from shedbook.book.ground.words import Words
from shedbook.book.manuscript.settings.pages import BY_KEY
from shedbook.book.manuscript.settings.whole_book import Settings
from shedbook.book.pages.data import Advice


@dataclass(frozen=True, slots=True)
class Habits:
    """What of a book its advice depends on, besides its settings.

    `keys` is how many keys there are; `order` the name of their order, or "" for one of the author's own;
    `edition_says` are paragraphs on the edition, those of the concert edition where there are none.
    """

    settings: Settings
    keys: int = 12
    order: str = ""
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
    parts = ["advice.yours.says", *(["advice.yours.staves"] if habits.settings.pages.own_staves else [])]
    return " ".join(words(part) for part in parts)


def _keys(words: Words, habits: Habits) -> str:
    if habits.settings.pages.arrange == BY_KEY:
        said = [words("advice.keys.by key")]
    elif habits.keys == 1:
        said = [words("advice.keys.one")]
    else:
        said = [words("advice.keys.many", keys=words.number(habits.keys))]
    if habits.keys > 1 and words.has(f"order.{habits.order}"):
        said.append(words(f"order.{habits.order}"))
    said.append(words("advice.signature" if habits.settings.signatures else "advice.accidentals"))
    return " ".join(said)


def _signs(words: Words, habits: Habits) -> str:
    marks = habits.settings.pages.marks
    parts = ["signs.symbols"]
    if marks.degrees:
        parts += ["signs.degrees", *(["signs.sparse"] if marks.sparse else []), "signs.landings"]
    if marks.scales:
        parts.append("signs.scales")
    return " ".join(words(part) for part in [*parts, "signs.ghost"])
