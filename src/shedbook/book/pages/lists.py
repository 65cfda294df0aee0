"""The lists of a book: its parts, its indexes, and the checklist of keys. Pure."""

from __future__ import annotations

import unicodedata
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction

from shedbook.book.ground.printed_text import printed, printed_tonic
from shedbook.book.ground.words import EN, Words
from shedbook.book.manuscript.settings.pages import BY_PROGRESSION, UNDIVIDED
from shedbook.book.pages.data import Checklist, ChecklistRow, IndexData, IndexEntry, IndexPhrase
from shedbook.book.scores.artefacts import PhraseCard
from shedbook.theory.key import Key
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

_MOST_SHARE = Fraction(1, 3)
"""What more than this share of the phrases has says nothing of one of them; then only those stand there in
which there is more of it than elsewhere (our own choice)."""
_LEAST_LISTED, _MOST_LISTED = 4, 16
"""So many phrases are never too many for an entry, and more than so many are, where they can be told apart
(our own choice)."""


def indexes(cards: Sequence[tuple[int, PhraseCard]], words: Words) -> tuple[IndexData, ...]:
    """Return the indexes that have entries; `cards` are phrases by number.

    Under each term the phrases stand in the order of `cards`, which is that of the pages.
    """
    by_name: tuple[tuple[str, Entries], ...] = (
        ("index.key", _by_key(cards, words)),
        ("index.progression", _entries(cards, lambda card: _even(card.progressions), words, "progression")),
        ("index.scale", _entries(cards, lambda card: card.scale_shares, words, "scale")),
        ("index.device", _entries(cards, lambda card: card.device_shares, words, "device")),
        ("index.difficulty", _entries(cards, _level, words, "level", in_order=True)),
    )
    titles = {number: card.title for number, card in cards}
    return tuple(
        IndexData(
            words(name),
            tuple(
                IndexEntry(term, tuple(IndexPhrase(number, titles[number]) for number in found))
                for term, found in entries.items()
            ),
        )
        for name, entries in by_name
        if entries
    )


def _even(names: Iterable[str]) -> tuple[tuple[str, float], ...]:
    return tuple((name, 1.0) for name in dict.fromkeys(names))


def _level(card: PhraseCard) -> tuple[tuple[str, float], ...]:
    return ((str(card.level), 1.0),)


def _by_key(cards: Iterable[tuple[int, PhraseCard]], words: Words) -> Entries:
    """Return the phrases by their home keys, those on C first and then upwards, minor after major."""
    found: dict[str, list[int]] = {}
    for number, card in cards:
        found.setdefault(card.home, []).append(number)
    order = sorted(found, key=lambda key: (Key.parse(key).tonic.pitch_class, key.endswith("minor")))
    return {words.sentence(words.whole_key(key)): found[key] for key in order}


def _entries(
    cards: Sequence[tuple[int, PhraseCard]],
    terms: Callable[[PhraseCard], Iterable[tuple[str, float]]],
    words: Words,
    prefix: str,
    *,
    in_order: bool = False,
) -> Entries:
    """Return the terms with their phrases, in the order of the alphabet or of the terms' own names.

    `terms` gives names with how much of a phrase each takes.
    """
    shares: dict[str, dict[int, float]] = {}
    for number, card in cards:
        for term, share in terms(card):
            shares.setdefault(term, {})[number] = share
    found = {term: list(ones) if in_order else typical(ones, len(cards)) for term, ones in shares.items()}
    names = {term: printed(words.named(prefix, term)) for term in found}
    order = sorted(found) if in_order else sorted(found, key=lambda term: sort_key(names[term]))
    return {names[term]: found[term] for term in order}


def typical(shares: Mapping[int, float], phrases: int) -> list[int]:
    """Return the phrases for which a term is typical, in their order.

    Args:
        shares: by phrase, how much of it the term takes.
        phrases: how many phrases the book has.
    """
    most = int(_MOST_SHARE * phrases)
    if len(set(shares.values())) > 1:
        most = min(_MOST_LISTED, most)
    most = max(_LEAST_LISTED, most)
    if len(shares) <= most:
        return list(shares)
    least = sorted(shares.values(), reverse=True)[most - 1]
    above = [number for number, share in shares.items() if share > least]
    level = [number for number, share in shares.items() if share == least]
    # Of phrases that have equally much of it either all stand there, or none.
    kept = {*above, *(level if len(above) + len(level) <= most else ())}
    return [number for number in shares if number in kept]


_LIGATURES = str.maketrans({"œ": "oe", "æ": "ae", "ø": "o", "ł": "l"})
"""Letters that Unicode does not divide into a letter and its mark; ß is ss when its case is folded."""


def sort_key(term: str) -> tuple[str, str, str]:
    """Return what a term is ordered by: its letters without case and accents, then with them, then itself.

    So é stands with e and ä with a (DIN 5007-1; the first two levels of the Unicode Collation Algorithm, from
    memory), but ñ after all of n, for it is a letter of its own in Spanish, which alone has it here.
    """
    whole = unicodedata.normalize("NFC", term.casefold())
    letters = "".join(character for character in whole if character.isalnum())
    plain = unicodedata.normalize("NFD", letters.replace("ñ", "n\uffff").translate(_LIGATURES))
    return "".join(one for one in plain if not unicodedata.combining(one)), letters, term


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
