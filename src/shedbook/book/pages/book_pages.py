"""From what was read and engraved to the data that the page templates take. Pure: no file is touched."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from shedbook.book.ground.printed_text import printed
from shedbook.book.ground.tables.words import PAGES
from shedbook.book.ground.typography import typeset
from shedbook.book.ground.words import Words, inside, language_of_words, opened
from shedbook.book.manuscript.chapters import BACK, FRONT, PART
from shedbook.book.manuscript.settings.pages import BY_KEY, BY_PROGRESSION
from shedbook.book.manuscript.settings.shop import BLACK
from shedbook.book.manuscript.settings.whole_book import Settings
from shedbook.book.pages.advice import Habits, advice
from shedbook.book.pages.book_text import BookText
from shedbook.book.pages.cover import CoverData, bars_of
from shedbook.book.pages.data import (
    About,
    BookData,
    FrontCover,
    KeyGroup,
    KeyPages,
    KeyScore,
    LinkData,
    PartData,
    Press,
    ProofData,
    ProofPhrase,
    Shop,
)
from shedbook.book.pages.first_page import SET
from shedbook.book.pages.lists import ListedPhrase, Part, checklist, indexes, parts_of
from shedbook.book.pages.page_plan import Box, First, plan_phrase
from shedbook.book.pages.phrase_pages import (
    PhrasePages,
    chapters_at,
    groups_of,
    key_scores,
    own_chapter,
    phrase_data,
    sheet_of,
    shortened,
)
from shedbook.book.pages.prose import blocks_of
from shedbook.book.scores.spoken_text import tempo_words
from shedbook.editions.keys.key_cycle import key_cycle
from shedbook.theory.key import Key
from shedbook.theory.pitch import NoteName

DRILLS = "drills"
"""The name of the part that holds the drills, by which a chapter may stand at its opening."""
_GUTTER_CHARACTERS = 32
"""How much of a title stands beside its score, where a book goes key by key: three or four lines."""
BLEED_MM = 3.0
"""How far what touches the edge goes beyond it on a page for the press (common practice)."""
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
    phrases = _titled(phrases, book)
    by_number = {phrase.number: phrase for phrase in phrases}
    parts = _parts(book, phrases)
    in_order = [(number, by_number[number].card) for part in parts for number in part.phrases]
    picture = dict(book.pictures).get("cover")
    return BookData(
        cover=FrontCover(picture) if picture is not None or book.settings.press.wanted else None,
        about=_about(book, words, phrases, proof=proof),
        advice=advice(words, _habits(book, phrases)),
        dedication=blocks_of(book.settings.shop.dedication, words, book.settings.language),
        front=(
            *own_chapter(book, "preface", book.settings.shop.preface),
            *chapters_at(book, FRONT),
            *own_chapter(book, "acknowledgements", book.settings.shop.acknowledgements),
        ),
        back=(
            *chapters_at(book, BACK),
            *own_chapter(book, "about the author", book.settings.shop.about_author),
        ),
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


def _parts(book: BookText, phrases: Sequence[PhrasePages]) -> tuple[Part, ...]:
    """Return the parts of the phrases, and after them the drills, which are a chapter of their own."""
    words = book.words
    drills = tuple(phrase.number for phrase in phrases if book.is_drill(phrase.number))
    own = [(phrase.number, phrase.card) for phrase in phrases if not book.is_drill(phrase.number)]
    parts = parts_of(own, book.settings.pages.parts, words) if own or not drills else ()
    return (*parts, Part(DRILLS, drills, words("drills"))) if drills else parts


def _part(part: Part, place: int, book: BookText, by_number: dict[int, PhrasePages]) -> PartData:
    words = book.words
    return PartData(
        name=part.title,
        head=printed(opened(part.title, words)),
        label=words("part", n=place) if part.name not in ("", DRILLS) else "",
        chapters=chapters_at(book, PART, part.name) if part.name else (),
        phrases=tuple(phrase_data(by_number[number], book) for number in part.phrases),
    )


def proof_data(book: BookText, phrases: Sequence[PhrasePages]) -> ProofData:
    """Return what the template of the proof sheet prints: every score, small, with a box to tick."""
    words = book.words
    phrases = _titled(phrases, book)
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


def _titled(phrases: Sequence[PhrasePages], book: BookText) -> list[PhrasePages]:
    """Return phrases with real quotation marks and apostrophes in their titles."""
    language = book.settings.language
    return [replace(one, card=replace(one.card, title=typeset(one.card.title, language))) for one in phrases]


def _about(book: BookText, words: Words, phrases: Sequence[PhrasePages], *, proof: bool) -> About:
    """Return what every page needs: the book's own words, the paper, the fixed words."""
    settings = book.settings
    most_keys = max((len(phrase.keys) for phrase in phrases), default=0)
    own = sum(1 for phrase in phrases if not book.is_drill(phrase.number)) or len(phrases)
    edition = book.edition.title
    language = settings.language
    title = typeset(book.title, language)
    if settings.pages.large_print:
        edition += f" · {inside(words('edition.large'), words)}"
    return About(
        title=title,
        head=shortened(title),
        subtitle=typeset(settings.subtitle, language) or _subtitle(own, most_keys, words),
        author=settings.author,
        rights=settings.rights,
        links=tuple(LinkData(name, address) for name, address in settings.links),
        language=settings.language.partition("-")[0].lower(),
        words_language=language_of_words(settings.language),
        keywords=tuple(word.strip() for word in words("keywords").split(",")),
        date=settings.pages.date,
        paper=book.paper,
        set=SET,
        openings=book.openings,
        press=Press(right=settings.press.chapters_right and book.paper.leaves),
        shop=Shop(
            settings.shop.publisher,
            typeset(settings.shop.series, language),
            book.isbn,
            dict(book.pictures).get("logo"),
        ),
        proof=proof,
        edition=edition,
        edition_says=book.edition.says,
        licensee=words("licensee", name=book.licensee) if book.licensee else "",
        imprint=_imprint(book, words),
        sample=words("sample.says", n=len(phrases), all=book.sample_of) if book.sample_of else "",
        words={name: typeset(words.table[name], language) for name in PAGES if "{" not in words.table[name]},
    )


def _imprint(book: BookText, words: Words) -> tuple[str, ...]:
    settings = book.settings
    shop = settings.shop
    said = [words("imprint.music", author=settings.author)] if settings.author else []
    said += [typeset(text, settings.language) for text in (settings.rights, shop.publisher) if text]
    said += [typeset(text, settings.language) for text in (shop.edition_statement, shop.printing) if text]
    if shop.version:
        said.append(words("bundle.version", number=shop.version))
    if book.isbn:
        said.append(words("isbn", number=book.isbn))
    if settings.pages.date:
        said.append(words("published", date=date_words(settings.pages.date, words)))
    return tuple(said)


def date_words(date: tuple[int, ...], words: Words) -> str:
    """Return a date, year, month and day, in words: "1 May 2026"."""
    year, month, day = date
    return words("date", day=day, month=words.table["months"].split()[month - 1], year=year)


def for_press(data: BookData, settings: Settings) -> BookData:
    """Return the same book for the press: in its inks, with bleed, and nobody's own copy."""
    press = Press(
        "grey" if settings.press.ink == BLACK else settings.press.ink,
        BLEED_MM,
        settings.press.crop_marks,
        data.about.press.right,
    )
    return replace(data, cover=None, about=replace(data.about, press=press, licensee=""))


def cover_of(data: BookData, book: BookText) -> CoverData:
    """Return the cover of a book for the press, whose pages are not counted yet.

    Raises:
        RenderError: if the barcode of its ISBN cannot be made.
    """
    pictures = dict(book.pictures)
    return CoverData(
        about=data.about,
        blurb=blocks_of(book.settings.shop.blurb, book.words, book.settings.language),
        front=pictures.get("cover"),
        back=pictures.get("back_cover"),
        code=bars_of(book.isbn),
        leaf_mm=book.settings.press.leaf_mm,
    )


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
        signs=frozenset(sign for phrase in phrases for sign in phrase.card.signs),
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
            _shared(found[tonic], book),
        )
        for tonic in tonics
    )


def _shared(scores: Sequence[KeyScore], book: BookText) -> tuple[KeyGroup, ...]:
    """Return scores over pages, the first of which has a head."""
    sheet = replace(sheet_of(book, scores, None), opening=False)
    head = _KEY_HEAD_MM * book.paper.text_times
    plan = plan_phrase([Box(one.height_mm, one.staff_mm) for one in scores], [First(head)], sheet)
    return groups_of(scores, plan, sheet, book.paper)


def _class_of(key: str) -> int:
    """Return the pitch class of a key's tonic."""
    return NoteName.parse(key.partition(" ")[0]).pitch_class
