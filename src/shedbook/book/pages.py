"""From what was read and engraved to the data that the page template takes. Pure: no file is touched.

The data is one JSON object: the book's words, the paper, the parts, and a list of phrases, each with its home
score, its words, and its keys shared out over pages. `templates/book.typ` and `templates/proof.typ` are its
only readers.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import asdict, dataclass, field
from typing import Any

from shedbook.book.advice import Habits, advice
from shedbook.book.alt import tempo_words
from shedbook.book.chapters import BACK, FRONT, PART, PHRASE, Chapter, at_place
from shedbook.book.checklist import ListedPhrase, checklist
from shedbook.book.indexes import indexes
from shedbook.book.page_settings import BY_KEY, BY_PHRASE
from shedbook.book.paper import PAGE_SIZES, Paper, paper_of
from shedbook.book.parts import BY_PROGRESSION, NONE, parts_of
from shedbook.book.phrase_pages import (
    PhrasePages,
    PhraseSetting,
    Score,
    key_scores,
    phrase_data,
    share_out,
    shortened,
)
from shedbook.book.signs import printed
from shedbook.book.tables.words import PAGES
from shedbook.book.words import Words, inside, opened, words_of
from shedbook.editions.keys.key_cycle import key_cycle
from shedbook.theory.key import Key
from shedbook.theory.pitch import NoteName

__all__ = [
    "BY_KEY", "BY_PHRASE", "PAGE_SIZES", "BookWords", "PhrasePages", "Score", "key_words", "page_data",
    "proof_data",
]  # fmt: skip

_GUTTER_CHARACTERS = 32
"""How much of a title stands beside its score, where a book goes key by key: three or four lines."""
_KEY_HEAD_MM = 16.0
"""What the head of a key takes of its first page, where a book goes key by key."""


@dataclass(frozen=True, slots=True)
class BookWords:
    """What the book says of itself, and its paper.

    `edition` is its title for people ("B flat edition"), `edition_says` where its notes are written, and
    `edition_advice` paragraphs for its readers. `order` is the name of the order of keys, or "";
    `order_written` says that it is one of the readers' keys, not of concert keys. `sample_of` is the number
    of phrases of the whole book where this is a sample of it, else 0. `date` is year, month and day, or
    empty. `own_staves` asks for empty staves after each phrase; `tablature` says that the scores have it.
    """

    title: str
    subtitle: str = ""
    author: str = ""
    rights: str = ""
    language: str = "en"
    links: tuple[tuple[str, str], ...] = ()
    paper: Paper = field(default_factory=lambda: paper_of("a4"))
    large: bool = False
    edition: str = "Concert edition"
    edition_says: str = ""
    edition_advice: tuple[str, ...] = ()
    order: str = ""
    order_written: bool = False
    degrees: bool = True
    sparse: bool = True
    scale_names: bool = True
    signature: bool = False
    tempos: tuple[int, ...] = ()
    own_staves: bool = True
    parts: str = NONE
    arrange: str = BY_PHRASE
    licensee: str = ""
    sample_of: int = 0
    own_words: tuple[tuple[str, str], ...] = ()
    chapters: tuple[Chapter, ...] = ()
    date: tuple[int, ...] = ()
    tablature: bool = False


def page_data(book: BookWords, phrases: Sequence[PhrasePages], *, proof: bool) -> dict[str, Any]:
    """Return everything the template of the book prints."""
    words = words_of(book.language, dict(book.own_words))
    cards = [(phrase.number, phrase.card) for phrase in phrases]
    by_number = {phrase.number: phrase for phrase in phrases}
    parts = parts_of(cards, book.parts, words)
    in_order = [(number, by_number[number].card) for part in parts for number in part.phrases]
    setting = PhraseSetting(words, book.paper, book.tempos, book.own_staves)
    return {
        **_about(book, words, phrases, proof=proof),
        "advice": [section._asdict() for section in advice(words, _habits(book, phrases))],
        "front": [asdict(chapter) for chapter in at_place(book.chapters, FRONT)],
        "back": [asdict(chapter) for chapter in at_place(book.chapters, BACK)],
        "parts": [
            {
                "name": part.title,
                "head": printed(opened(part.title, words)),
                "label": words("part", n=place) if part.name else "",
                "chapters": [asdict(one) for one in at_place(book.chapters, PART, part.name)]
                if part.name
                else [],
                "phrases": [
                    {
                        **phrase_data(by_number[number], setting),
                        "chapters": [asdict(one) for one in at_place(book.chapters, PHRASE, str(number))],
                    }
                    for number in part.phrases
                ],
            }
            for place, part in enumerate(parts, 1)
        ],
        "by_progression": book.parts == BY_PROGRESSION,
        "by_key": _by_key(phrases, words, book) if book.arrange == BY_KEY else [],
        "indexes": indexes(in_order, words),
        "checklist": checklist(
            [
                ListedPhrase(one.number, one.card["title"], tuple(score.key for score in one.keys))
                for one in phrases
            ],
            words,
        ),
    }


def proof_data(book: BookWords, phrases: Sequence[PhrasePages]) -> dict[str, Any]:
    """Return what the template of the proof sheet prints: every score, small, with a box to tick."""
    words = words_of(book.language, dict(book.own_words))
    return {
        **_about(book, words, phrases, proof=False),
        "phrases": [
            {
                "number": phrase.number,
                "title": phrase.card["title"],
                "facts": ", ".join(
                    (
                        words.whole_key(phrase.home.key),
                        tempo_words(phrase.card["tempo"], phrase.card["feel"], words),
                        phrase.card["metre"],
                    )
                ),
                "scores": key_scores(phrase, words),
            }
            for phrase in phrases
        ],
    }


def _about(book: BookWords, words: Words, phrases: Sequence[PhrasePages], *, proof: bool) -> dict[str, Any]:
    """Return what every page needs: the book's own words, the paper, the fixed words."""
    most_keys = max((len(phrase.keys) for phrase in phrases), default=0)
    edition = book.edition
    if book.large:
        edition += f" · {inside(words('edition.large'), words)}"
    return {
        "title": book.title,
        "head": shortened(book.title),
        "subtitle": book.subtitle or _subtitle(len(phrases), most_keys, words),
        "author": book.author,
        "rights": book.rights,
        "links": [{"name": name, "address": address} for name, address in book.links],
        "language": book.language.partition("-")[0].lower(),
        "keywords": [word.strip() for word in words("keywords").split(",")],
        "date": list(book.date),
        "paper": {**asdict(book.paper), "line_mm": book.paper.line_mm, "room_mm": book.paper.room_mm},
        "proof": proof,
        "edition": edition,
        "edition_says": book.edition_says or words("edition.concert"),
        "licensee": words("licensee", name=book.licensee) if book.licensee else "",
        "imprint": _imprint(book, words),
        "sample": words("sample.says", n=len(phrases), all=book.sample_of) if book.sample_of else "",
        "words": {name: words.table[name] for name in PAGES if "{" not in words.table[name]},
    }


def _imprint(book: BookWords, words: Words) -> list[str]:
    said = [words("imprint.music", author=book.author)] if book.author else []
    if book.rights:
        said.append(book.rights)
    if book.date:
        said.append(words("published", date="-".join(f"{part:02}" for part in book.date)))
    return said


def _subtitle(phrases: int, keys: int, words: Words) -> str:
    count = words.number(phrases)
    noun = words("phrase" if phrases == 1 else "phrases")
    form = "in all keys" if keys == 12 else "in one key" if keys == 1 else "in keys"
    return words.sentence(words(form, count=count, phrases=noun, keys=words.number(keys)))


def _habits(book: BookWords, phrases: Sequence[PhrasePages]) -> Habits:
    return Habits(
        keys=max((len(phrase.keys) for phrase in phrases), default=0),
        order=book.order,
        by_key=book.arrange == BY_KEY,
        degrees=book.degrees,
        sparse=book.sparse,
        landings=book.degrees,
        scale_names=book.scale_names,
        signature=book.signature,
        own_staves=book.own_staves,
        edition_says=book.edition_advice,
    )


def _by_key(phrases: Sequence[PhrasePages], words: Words, book: BookWords) -> list[dict[str, Any]]:
    """Return the keys in the order of the book, each with every phrase that it has in it, over pages."""
    found: dict[int, list[dict[str, Any]]] = {}
    names: dict[int, dict[str, None]] = {}
    ordered: dict[int, int] = {}
    for phrase in phrases:
        concert = phrase.concert or [score.key for score in phrase.keys]
        for score, sounding in zip(key_scores(phrase, words), concert, strict=True):
            tonic = _class_of(score["key"])
            ordered[tonic] = tonic if book.order_written else _class_of(sounding)
            title = shortened(phrase.card["title"], _GUTTER_CHARACTERS)
            found.setdefault(tonic, []).append({**score, "number": phrase.number, "title": title})
            names.setdefault(tonic, {})[score["tonic"]] = None
    order = (
        [key.tonic.pitch_class for key in key_cycle(Key.parse("C major"), book.order)] if book.order else []
    )
    tonics = sorted(found, key=lambda tonic: order.index(ordered[tonic]) if order else 0)
    return [
        {
            "tonic": " / ".join(names[tonic]),
            "head": words("all in", tonic=" / ".join(names[tonic])),
            "pages": share_out(found[tonic], book.paper, _KEY_HEAD_MM),
        }
        for tonic in tonics
    ]


def _class_of(key: str) -> int:
    """Return the pitch class of a key's tonic."""
    return NoteName.parse(key.partition(" ")[0]).pitch_class


def key_words(key: str) -> tuple[str, str]:
    """Return ("B flat", "minor") for "Bb minor": the text fonts have no flat or sharp sign."""
    return words_of("en").key(key)
