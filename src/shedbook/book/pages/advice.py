"""The words of the page "How to use this book": what a teacher would say before the first lesson."""

from __future__ import annotations

from dataclasses import dataclass

from shedbook.analysis.naming.language import strung
from shedbook.book.ground.words import Words
from shedbook.book.manuscript.settings.pages import BY_KEY
from shedbook.book.manuscript.settings.whole_book import Settings
from shedbook.book.pages.data import Advice
from shedbook.book.scores.signs import CHORD_SIGNS, NOTE_SIGNS


@dataclass(frozen=True, slots=True)
class Habits:
    """What of a book its advice depends on, besides its settings.

    `keys` is how many keys there are; `order` the name of their order, or "" for one of the author's own;
    `signs` are those that its scores show, by their names. `edition_says` are paragraphs on the edition,
    those of the concert edition where there are none.
    """

    settings: Settings
    keys: int = 12
    order: str = ""
    edition_says: tuple[str, ...] = ()
    signs: frozenset[str] = frozenset()


def advice(words: Words, habits: Habits) -> tuple[Advice, ...]:
    """Return the sections in their order."""
    return (
        Advice(words("advice.edition"), habits.edition_says or (words("advice.edition.concert"),)),
        _section(words, "advice.phrase"),
        Advice(words("advice.keys"), (_keys(words, habits), words("advice.method"))),
        Advice(words("advice.signs"), _signs(words, habits), listed=True),
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
        more = habits.keys - (not habits.settings.pages.layout.home_again)
        said = [words("advice.keys.many", keys=words.number(more))]
    if habits.keys > 1 and words.has(f"order.{habits.order}"):
        said.append(words(f"order.{habits.order}"))
    said.append(words("advice.signature" if habits.settings.signatures else "advice.accidentals"))
    return " ".join(said)


def _signs(words: Words, habits: Habits) -> tuple[str, ...]:
    """Return what explains each sign that this book has, and no others."""
    marks = habits.settings.pages.marks
    said = []
    chords = [words(f"signs.{sign}") for sign in CHORD_SIGNS if sign in habits.signs]
    if chords:
        said.append(words("signs.chords", signs=strung(chords, "signs.next", words)))
    if marks.degrees:
        where = [words("signs.sparse")] if marks.sparse else []
        said += [" ".join((words("signs.degrees"), *where)), words("signs.landings")]
    if marks.scales:
        said.append(words("signs.scales"))
    if habits.settings.courtesy != "none":
        said.append(words("signs.courtesy"))
    said += [words(f"signs.{sign}") for sign in NOTE_SIGNS if sign in habits.signs]
    return tuple(said)
