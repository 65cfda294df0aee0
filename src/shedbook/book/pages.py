"""From what was read and engraved to the data that the page template takes. Pure: no file is touched.

The data is one JSON object: the book's words, the paper, and a list of phrases, each with its home
score, its words, and its keys shared out over pages. `templates/book.typ` is its only reader.
"""

from __future__ import annotations

import math
import re
from collections.abc import Mapping, Sequence
from dataclasses import asdict, dataclass
from typing import Any

from shedbook.book.advice import advice

PAPERS = {"a4": (210.0, 297.0), "letter": (215.9, 279.4)}
"""Width and height in millimetres."""

# The template's margins above and below, and the least white between two scores, in millimetres.
_MARGINS_MM = 23.0 + 21.0
_GAP_MM = 6.5
_GUTTER_MM = 19.0
_HEAD_CHARACTERS = 52
# Two short scores side by side: the white between them, and the room for the key's name over each.
_PAIR_GAP_MM, _PAIR_NAME_MM = 9.0, 6.0
_NUMERAL = re.compile(r"[iv]+\b")
# fmt: off
_UP_TO_NINETEEN = (
    "zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve",
    "thirteen", "fourteen", "fifteen", "sixteen", "seventeen", "eighteen", "nineteen",
)
# fmt: on
_TENS = ("", "", "twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety")


@dataclass(frozen=True, slots=True)
class Score:
    """A finished picture: where it lies beneath the store, its size, and what a listener is told of it.

    `staff_mm` is how far under the picture's upper edge the first staff begins.
    """

    path: str
    key: str
    width_mm: float
    height_mm: float
    staff_mm: float
    alt: str


@dataclass(frozen=True, slots=True)
class PhrasePages:
    """One phrase: its printed number, its card (see `jobs.read_card`), its scores."""

    number: int
    card: Mapping[str, Any]
    home: Score
    keys: tuple[Score, ...]


@dataclass(frozen=True, slots=True)
class BookWords:
    """What the book says of itself, and its paper; `order` is the name of the order of keys, or ""."""

    title: str
    subtitle: str
    author: str
    rights: str
    language: str
    links: tuple[tuple[str, str], ...]
    page: str
    score_width_mm: float
    edition: str
    order: str
    degrees: bool
    scale_names: bool


def page_data(book: BookWords, phrases: Sequence[PhrasePages], *, proof: bool) -> dict[str, Any]:
    """Return everything the template prints."""
    most_keys = max((len(phrase.keys) for phrase in phrases), default=0)
    words = advice(keys=most_keys, order=book.order, degrees=book.degrees, scale_names=book.scale_names)
    return {
        "title": book.title,
        "head": shortened(book.title),
        "subtitle": book.subtitle or _subtitle(len(phrases), most_keys),
        "author": book.author,
        "rights": book.rights,
        "links": [{"name": name, "address": address} for name, address in book.links],
        "language": book.language.partition("-")[0].lower(),
        "keywords": ["jazz", "improvisation", "study", "twelve keys"],
        "page": book.page,
        "score_width_mm": book.score_width_mm,
        "gutter_mm": _GUTTER_MM,
        "pair_gap_mm": _PAIR_GAP_MM,
        "pair_name_mm": _PAIR_NAME_MM,
        "proof": proof,
        "edition": f"{book.edition.capitalize()} edition",
        "edition_says": "Written as it sounds, for instruments in C",
        "advice": [section._asdict() for section in words],
        "phrases": [_phrase(phrase, book) for phrase in phrases],
    }


def spread(heights_mm: Sequence[float], room_mm: float, gap_mm: float = _GAP_MM) -> list[int]:
    """Share scores out over pages, as evenly as they fit: how many go on each page, in order."""
    if not heights_mm:
        return []
    for pages in range(1, len(heights_mm) + 1):
        share = math.ceil(len(heights_mm) / pages)
        groups = [heights_mm[start : start + share] for start in range(0, len(heights_mm), share)]
        if all(sum(group) + gap_mm * (len(group) - 1) <= room_mm for group in groups):
            return [len(group) for group in groups]
    return [1] * len(heights_mm)


def number_words(number: int) -> str:
    """Return a number from 0 to 99 in words, larger ones in figures."""
    if number < 20:
        return _UP_TO_NINETEEN[number]
    if number < 100:
        tens, ones = divmod(number, 10)
        return _TENS[tens] + (f"-{_UP_TO_NINETEEN[ones]}" if ones else "")
    return str(number)


def key_words(key: str) -> tuple[str, str]:
    """Return ("B flat", "minor") for "Bb minor": the text fonts have no flat or sharp sign."""
    tonic, _, mode = key.partition(" ")
    signs = {"#": " sharp", "b": " flat"}
    return tonic[:1] + "".join(signs.get(sign, sign) for sign in tonic[1:]), mode


def shortened(title: str, most: int = _HEAD_CHARACTERS) -> str:
    """Return a title short enough for the running head, cut between words where that is possible."""
    if len(title) <= most:
        return title
    cut = title[: most - 1]
    return (cut[: cut.rindex(" ")] if " " in cut[most // 2 :] else cut).rstrip(" ,.;:–-") + "…"


def _subtitle(phrases: int, keys: int) -> str:
    count = f"{number_words(phrases).capitalize()} {'phrase' if phrases == 1 else 'phrases'}"
    return f"{count} in {'all ' if keys == 12 else ''}{number_words(keys)} {'key' if keys == 1 else 'keys'}"


def _phrase(phrase: PhrasePages, book: BookWords) -> dict[str, Any]:
    room_mm = PAPERS[book.page][1] - _MARGINS_MM
    half_mm = (book.score_width_mm + _GUTTER_MM - _PAIR_GAP_MM) / 2
    columns = 2 if len(phrase.keys) > 1 and all(score.width_mm <= half_mm for score in phrase.keys) else 1
    rows = [phrase.keys[start : start + columns] for start in range(0, len(phrase.keys), columns)]
    above_mm = _PAIR_NAME_MM if columns == 2 else 0.0
    counts = spread([above_mm + max(score.height_mm for score in row) for row in rows], room_mm)
    pages, start = [], 0
    for count in counts:
        pages.append([[_score(score) for score in row] for row in rows[start : start + count]])
        start += count
    card = phrase.card
    return {
        "number": phrase.number,
        "title": card["title"],
        "head": shortened(card["title"]),
        "progression": card["progression"],
        "key": " ".join(key_words(card["key"])),
        "facts": _facts(card),
        "commentary": _paragraphs(card["commentary"]),
        "explanation": list(card["explanation"]),
        "home": _score(phrase.home),
        "columns": columns,
        "pages": pages,
        "full_page": max(counts, default=0),
    }


def _score(score: Score) -> dict[str, Any]:
    tonic, mode = key_words(score.key)
    return {**asdict(score), "tonic": tonic, "mode": mode}


def _facts(card: Mapping[str, Any]) -> list[str]:
    tonic, mode = key_words(card["key"])
    progression = card["progression"]
    key = tonic if progression.startswith(f"{mode} ") else f"{tonic} {mode}"
    first = f"{progression} in {key}" if progression else key
    if not _NUMERAL.match(first):  # iii–VI–ii–V keeps its small letters
        first = first[:1].upper() + first[1:]
    return [first, f"{card['tempo']} beats a minute, {card['feel']}", card["metre"]]


def _paragraphs(text: str) -> list[str]:
    return [" ".join(part.split()) for part in text.split("\n\n") if part.strip()]
