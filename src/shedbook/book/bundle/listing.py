"""The listing of a book: what a shop asks for, counted from the book itself. Pure."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace

from shedbook.book.bundle.manifest import About
from shedbook.book.ground.printed_text import printed
from shedbook.book.ground.words import Words
from shedbook.book.scores.artefacts import PhraseCard

_MOST_NAMED = 8


@dataclass(frozen=True, slots=True)
class Listing:
    """What a shop asks for.

    `description` is made of the phrases' accounts; `contents` are numbers and titles; `keywords` words by
    which it is found; the counts are of the whole book, `tracks` of one edition.
    """

    title: str
    subtitle: str
    author: str
    version: str
    language: str
    description: tuple[str, ...]
    contents: tuple[tuple[int, str], ...]
    editions: tuple[str, ...]
    levels: tuple[int, int]
    phrases: int
    keys: int
    pages: Mapping[str, int]
    tracks: int
    minutes: int
    formats: tuple[str, ...]
    progressions: tuple[str, ...]
    scales: tuple[str, ...]
    devices: tuple[str, ...]
    keywords: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Counts:
    """What was made: pages by edition, tracks of an edition, their seconds, formats, titles of editions."""

    pages: Mapping[str, int]
    tracks: int
    seconds: float
    formats: tuple[str, ...]
    editions: tuple[str, ...]


def listing_of(
    about: About,
    cards: Sequence[tuple[int, PhraseCard]],
    counts: Counts,
    subtitle: str,
    blurb: str,
    words: Words,
) -> Listing:
    """Return the listing of a book.

    Args:
        about: the book.
        cards: what is known of each phrase, by number.
        counts: what was made.
        subtitle: the author's line under the title, "" for none.
        blurb: what the author says on the back cover, "" for nothing.
        words: the words of the book's language.
    """
    levels = [card.level for _, card in cards]
    keys = max((len(card.keys) for _, card in cards), default=0)
    named = {
        kind: _named(kind, of_each, words)
        for kind, of_each in (
            ("progression", [card.progressions for _, card in cards]),
            ("scale", [card.scale_names for _, card in cards]),
            ("device", [card.devices for _, card in cards]),
        )
    }
    found = Listing(
        about.title,
        subtitle,
        about.author,
        about.version,
        about.language,
        (),
        tuple((number, card.title) for number, card in cards),
        counts.editions,
        (min(levels, default=0), max(levels, default=0)),
        len(cards),
        keys,
        counts.pages,
        counts.tracks,
        round(counts.seconds / 60),
        counts.formats,
        named["progression"],
        named["scale"],
        named["device"],
        tuple(word.strip() for word in words("keywords").split(",")),
    )
    said = _description(found, words)
    return replace(found, description=(blurb, *said) if blurb else said)


def _named(kind: str, of_each: Iterable[Iterable[str]], words: Words) -> tuple[str, ...]:
    """Return what most phrases have, in the book's language, the most used first."""
    used = Counter(name for names in of_each for name in dict.fromkeys(names) if name)
    order = sorted(used, key=lambda name: (-used[name], name))
    return tuple(printed(words.named(kind, name)) for name in order)


def _description(found: Listing, words: Words) -> tuple[str, ...]:
    """Return the paragraphs of the description."""
    low, high = found.levels
    row = "in all keys" if found.keys == 12 else "in one key" if found.keys == 1 else "in keys"
    phrases = words.of_number(found.phrases, "phrase", "phrases")
    count = words(row, count=words.number(found.phrases), phrases=phrases, keys=words.number(found.keys))
    level = words("listing.level" if low == high else "listing.levels", low=low, high=high)
    music = [
        words(name, names=", ".join(names[:_MOST_NAMED]))
        for name, names in (
            ("listing.changes", found.progressions),
            ("listing.scales", found.scales),
            ("listing.lines", found.devices),
        )
        if names
    ]
    made = [words("listing.editions", names=", ".join(found.editions))]
    made.append(words("listing.pages", number=max(found.pages.values(), default=0)))
    if found.tracks:
        made.append(words("listing.tracks", number=found.tracks, minutes=found.minutes))
    made.append(words("listing.files", names=", ".join(found.formats)))
    return (
        f"{words.sentence(count)}. {level}",
        words("listing.notes"),
        " ".join(music),
        " ".join(made),
    )


def listing_text(found: Listing, words: Words) -> str:
    """Return the listing as text to be copied into a shop's form."""
    head = [found.title, found.subtitle, found.author, words("bundle.version", number=found.version)]
    contents = [f"{number}. {printed(title)}" for number, title in found.contents]
    parts = [*(line for line in head if line), "", "\n\n".join(one for one in found.description if one), ""]
    return "\n".join([*parts, words("contents"), "", *contents, "", ", ".join(found.keywords)]) + "\n"
