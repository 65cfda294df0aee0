"""From what was read and engraved to the data that the page templates take. Pure: no file is touched."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from shedbook.book.ground.printed_text import printed
from shedbook.book.ground.tables.words import PAGES
from shedbook.book.ground.words import Words, inside, language_of_words, opened
from shedbook.book.manuscript.chapters import BACK, FRONT, PART, at_place
from shedbook.book.manuscript.settings.pages import BY_KEY, BY_PROGRESSION
from shedbook.book.pages.advice import Habits, advice
from shedbook.book.pages.book_text import BookText
from shedbook.book.pages.data import (
    About,
    BookData,
    KeyPages,
    KeyScore,
    LinkData,
    PartData,
    ProofData,
    ProofPhrase,
)
from shedbook.book.pages.lists import ListedPhrase, Part, checklist, indexes, parts_of
from shedbook.book.pages.phrase_pages import (
    PhrasePages,
    key_scores,
    phrase_data,
    share_out,
    shortened,
)
from shedbook.book.scores.spoken_text import tempo_words
from shedbook.editions.keys.key_cycle import key_cycle
from shedbook.theory.key import Key
from shedbook.theory.pitch import NoteName

_GUTTER_CHARACTERS = 32
"""How much of a title stands beside its score, where a book goes key by key: three or four lines."""
_KEY_HEAD_MM = 16.0
"""What the head of a key takes of its first page, where a book goes key by key."""


def page_data(book: BookText, phrases: Sequence[PhrasePages], *, proof: bool) -> BookData:
    """Return everything that the template of the book prints.

    Args:
        book: the settings, the edition, what was asked of the build.
        phrases: the phrases in the order of the manuscript, with their cards and pictures.
        proof: whether every page says in its foot that it is not final.

    Raises:
        RenderError: if the link of a phrase is too long for a QR code.
    """
    words = book.words
    settings = book.settings.pages
    by_number = {phrase.number: phrase for phrase in phrases}
    parts = parts_of([(phrase.number, phrase.card) for phrase in phrases], settings.parts, words)
    in_order = [(number, by_number[number].card) for part in parts for number in part.phrases]
    return BookData(
        about=_about(book, words, phrases, proof=proof),
        advice=advice(words, _habits(book, phrases)),
        front=at_place(book.chapters, FRONT),
        back=at_place(book.chapters, BACK),
        parts=tuple(_part(part, place, book, by_number) for place, part in enumerate(parts, 1)),
        by_progression=settings.parts == BY_PROGRESSION,
        by_key=_by_key(phrases, words, book) if settings.arrange == BY_KEY else (),
        indexes=indexes(in_order, words),
        checklist=checklist(
            [
                ListedPhrase(one.number, one.card.title, tuple(score.key for score in one.keys))
                for one in phrases
            ],
            words,
        ),
    )


def _part(part: Part, place: int, book: BookText, by_number: dict[int, PhrasePages]) -> PartData:
    words = book.words
    return PartData(
        name=part.title,
        head=printed(opened(part.title, words)),
        label=words("part", n=place) if part.name else "",
        chapters=at_place(book.chapters, PART, part.name) if part.name else (),
        phrases=tuple(phrase_data(by_number[number], book) for number in part.phrases),
    )


def proof_data(book: BookText, phrases: Sequence[PhrasePages]) -> ProofData:
    """Return what the template of the proof sheet prints: every score, small, with a box to tick."""
    words = book.words
    return ProofData(
        about=_about(book, words, phrases, proof=False),
        phrases=tuple(
            ProofPhrase(
                phrase.number,
                phrase.card.title,
                ", ".join(
                    (
                        words.whole_key(phrase.home.key),
                        tempo_words(phrase.card.tempo, phrase.card.feel, words),
                        phrase.card.metre,
                    )
                ),
                key_scores(phrase, words),
            )
            for phrase in phrases
        ),
    )


def _about(book: BookText, words: Words, phrases: Sequence[PhrasePages], *, proof: bool) -> About:
    """Return what every page needs: the book's own words, the paper, the fixed words."""
    settings = book.settings
    most_keys = max((len(phrase.keys) for phrase in phrases), default=0)
    edition = book.edition.title
    if settings.pages.large_print:
        edition += f" · {inside(words('edition.large'), words)}"
    return About(
        title=book.title,
        head=shortened(book.title),
        subtitle=settings.subtitle or _subtitle(len(phrases), most_keys, words),
        author=settings.author,
        rights=settings.rights,
        links=tuple(LinkData(name, address) for name, address in settings.links),
        language=settings.language.partition("-")[0].lower(),
        words_language=language_of_words(settings.language),
        keywords=tuple(word.strip() for word in words("keywords").split(",")),
        date=settings.pages.date,
        paper=book.paper,
        proof=proof,
        edition=edition,
        edition_says=book.edition.says,
        licensee=words("licensee", name=book.licensee) if book.licensee else "",
        imprint=_imprint(book, words),
        sample=words("sample.says", n=len(phrases), all=book.sample_of) if book.sample_of else "",
        words={name: words.table[name] for name in PAGES if "{" not in words.table[name]},
    )


def _imprint(book: BookText, words: Words) -> tuple[str, ...]:
    settings = book.settings
    said = [words("imprint.music", author=settings.author)] if settings.author else []
    if settings.rights:
        said.append(settings.rights)
    if settings.pages.date:
        said.append(words("published", date="-".join(f"{part:02}" for part in settings.pages.date)))
    return tuple(said)


def _subtitle(phrases: int, keys: int, words: Words) -> str:
    count = words.number(phrases)
    noun = words.of_number(phrases, "phrase", "phrases")
    form = "in all keys" if keys == 12 else "in one key" if keys == 1 else "in keys"
    return words.sentence(words(form, count=count, phrases=noun, keys=words.number(keys)))


def _habits(book: BookText, phrases: Sequence[PhrasePages]) -> Habits:
    return Habits(
        settings=book.settings,
        keys=max((len(phrase.keys) for phrase in phrases), default=0),
        order=book.order,
        edition_says=book.edition.advice,
    )


def _by_key(phrases: Sequence[PhrasePages], words: Words, book: BookText) -> tuple[KeyPages, ...]:
    """Return the keys in the order of the book, each with every phrase that it has in it, over pages."""
    found: dict[int, list[KeyScore]] = {}
    names: dict[int, dict[str, None]] = {}
    ordered: dict[int, int] = {}
    for phrase in phrases:
        title = shortened(phrase.card.title, _GUTTER_CHARACTERS)
        for score, key in zip(key_scores(phrase, words), phrase.placing.keys, strict=True):
            tonic = _class_of(score.key)
            ordered[tonic] = tonic if book.settings.keys_written else _class_of(key.concert)
            found.setdefault(tonic, []).append(replace(score, number=phrase.number, title=title))
            names.setdefault(tonic, {})[score.tonic] = None
    order = (
        [key.tonic.pitch_class for key in key_cycle(Key.parse("C major"), book.order)] if book.order else []
    )
    tonics = sorted(found, key=lambda tonic: order.index(ordered[tonic]) if order else 0)
    return tuple(
        KeyPages(
            " / ".join(names[tonic]),
            words("all in", tonic=" / ".join(names[tonic])),
            share_out(found[tonic], book.paper, _KEY_HEAD_MM),
        )
        for tonic in tonics
    )


def _class_of(key: str) -> int:
    """Return the pitch class of a key's tonic."""
    return NoteName.parse(key.partition(" ")[0]).pitch_class
