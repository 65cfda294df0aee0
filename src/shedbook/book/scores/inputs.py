"""What the jobs of this room are given: each one frozen value, which is all that the job sees.

The name of an artefact is the hash of its input (`workshop.naming`). So an input holds what its job needs and
nothing else: a title that is not drawn would make a picture anew for nothing.

    card      a phrase read: its key, its changes, its findings
    placing   a phrase placed for an edition: its keys, what there is to say, what is out of reach
    pictures  a phrase engraved: in its home key, in its other keys, its scales, empty staves with its changes
    between   phrases compared with one another
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import lru_cache

from shedbook.book.ground.chord_style import AS_WRITTEN, ChordStyle
from shedbook.book.ground.paper import paper_of
from shedbook.book.ground.words import in_findings, in_scores
from shedbook.book.manuscript.settings.layout import ONE_COLUMN
from shedbook.book.manuscript.settings.pages import BY_KEY, SPARSE_MARKS, MarkChoice
from shedbook.book.manuscript.settings.whole_book import Settings
from shedbook.book.manuscript.source import PhraseSource, PhraseText
from shedbook.book.scores.artefacts import CHANGES, HOME, CycleKey, PlacingCard
from shedbook.editions.instruments.edition import AUTHOR, Edition

NOT_READ = frozenset({"id", "links"})
"""Keys of a phrase that say nothing of its music or its words; `read_card` checks them."""

NOT_DRAWN = frozenset({"commentary", "id", "silence", "links", "sentences"})
"""Keys of a phrase that leave its pictures as they are."""


@dataclass(frozen=True, slots=True)
class Language:
    """The language of a book, and the author's own words in place of some rows of its table."""

    tag: str = "en"
    own: tuple[tuple[str, str], ...] = ()


@dataclass(frozen=True, slots=True)
class KeyOrder:
    """What the author asks of keys.

    `order` is the name of an order or the tonics themselves, `enharmonic` the tonics that shall be called
    so, `asked` the tonics that are wanted when not all are. `written` says that order and tonics are of the
    readers' keys, else they are concert keys.
    """

    order: str | tuple[str, ...] = "fourths"
    enharmonic: tuple[str, ...] = ()
    asked: tuple[str, ...] = ()
    written: bool = False


@dataclass(frozen=True, slots=True)
class CardInput:
    """Read a phrase, settle its keys, proof-read it. `silenced` are rules that the whole book silences.

    `language` is the one in which the author writes, and in which findings are said.
    """

    text: PhraseText
    keys: KeyOrder
    silenced: tuple[str, ...] = ()
    chord_style: ChordStyle = AS_WRITTEN
    language: Language = Language()


@dataclass(frozen=True, slots=True)
class PlacingInput:
    """Place a phrase for an edition, and explain it by the names that its reader sees.

    `text` has no keys of `NOT_READ`.
    """

    text: PhraseText
    edition: Edition
    keys: KeyOrder
    silenced: tuple[str, ...] = ()
    chord_style: ChordStyle = AS_WRITTEN
    language: Language = Language()


@dataclass(frozen=True, slots=True)
class Music:
    """A phrase as the reader of an edition plays it, apart from the key.

    `text` has no keys of `NOT_DRAWN`; `reader` is an edition without its name. `cycle` are the keys whose
    registers are chosen together, none where each key is placed for itself.
    """

    text: PhraseText
    reader: Edition
    cycle: tuple[CycleKey, ...] = ()
    chord_style: ChordStyle = AS_WRITTEN


@dataclass(frozen=True, slots=True)
class ScoreLook:
    """How scores are drawn, in every key alike; sizes in millimetres.

    `column_mm` is the length of a line in one of two columns, 0 where there are none.
    """

    staff_mm: float = 7.0
    width_mm: float = 168.0
    column_mm: float = 0.0
    marks: MarkChoice = SPARSE_MARKS
    courtesy: str = "after-bar"
    signature: bool = False
    language: Language = Language()


@dataclass(frozen=True, slots=True)
class HomeLook:
    """How the score on the first page is drawn: its largest staff, and the paper on which it must fit."""

    score: ScoreLook = ScoreLook()
    staff_mm: float = 9.1
    paper: str = "a4"
    large_print: bool = False


@dataclass(frozen=True, slots=True)
class KeyLook:
    """How the scores of the keys are drawn.

    `tempo` says that feel and tempo stand over each; `room_mm` is the height of a page, on which `most` of
    them may stand.
    """

    score: ScoreLook = ScoreLook()
    tempo: bool = False
    room_mm: float = 258.0
    most: int = 8


@dataclass(frozen=True, slots=True)
class ScaleLook:
    """How written-out scales are drawn; the height of the staff in millimetres."""

    staff_mm: float = 5.95
    language: Language = Language()


@dataclass(frozen=True, slots=True)
class ChangesLook:
    """How empty staves under the changes are drawn; sizes in millimetres."""

    staff_mm: float = 7.0
    width_mm: float = 168.0
    language: Language = Language()


@dataclass(frozen=True, slots=True)
class HomePicture:
    """Draw a phrase in its home key for its first page."""

    music: Music
    look: HomeLook
    key: CycleKey


@dataclass(frozen=True, slots=True)
class KeyPicture:
    """Draw a phrase in one of its keys."""

    music: Music
    look: KeyLook
    key: CycleKey


@dataclass(frozen=True, slots=True)
class ScalePicture:
    """Draw one scale of a phrase as it is read in the home key: the so-manieth, counted from 0."""

    music: Music
    look: ScaleLook
    key: CycleKey
    place: int


@dataclass(frozen=True, slots=True)
class ChangesPicture:
    """Draw empty staves under the changes of a phrase in its home key."""

    music: Music
    look: ChangesLook
    key: CycleKey


PictureInput = HomePicture | KeyPicture | ScalePicture | ChangesPicture


@dataclass(frozen=True, slots=True)
class BetweenInput:
    """Compare phrases of a book with one another; each has its number in the book."""

    phrases: tuple[tuple[int, PhraseText], ...]
    silenced: tuple[str, ...] = ()
    language: Language = Language()


# What of a book's settings each input holds.


def key_order(settings: Settings, asked: tuple[str, ...] = ()) -> KeyOrder:
    """Return what a book with these settings asks of keys; `asked` are the tonics of a single call."""
    return KeyOrder(settings.keys, settings.enharmonic, asked, settings.keys_written)


def spoken_language(settings: Settings) -> Language:
    """Return the language of scores and explanations, without words that stand on pages alone."""
    return Language(settings.language, tuple(row for row in settings.pages.words if in_scores(row[0])))


def told_language(settings: Settings) -> Language:
    """Return the language of explanations and findings, without words that stand on pages alone."""
    return Language(settings.language, tuple(row for row in settings.pages.words if in_findings(row[0])))


def card_input(text: PhraseText, settings: Settings, asked: tuple[str, ...] = ()) -> CardInput:
    """Return the input of the job that reads a phrase."""
    pages = settings.pages
    return CardInput(
        text, key_order(settings, asked), settings.silenced, pages.chord_style, told_language(settings)
    )


def placing_input(
    text: PhraseText, edition: Edition, settings: Settings, asked: tuple[str, ...] = ()
) -> PlacingInput:
    """Return the input of the job that places a phrase for an edition."""
    return PlacingInput(
        text.without(NOT_READ),
        edition,
        key_order(settings, asked),
        settings.silenced,
        settings.pages.chord_style,
        told_language(settings),
    )


def music_of(text: PhraseText, edition: Edition, card: PlacingCard, settings: Settings) -> Music:
    """Return what of a phrase in an edition its pictures depend on.

    An edition that keeps the author's register places every key for itself, wherever the ranges lie, and
    never folds a phrase.
    """
    nameless = replace(edition, name="", slug="", title="", instrument=None)
    style = settings.pages.chord_style
    if edition.policy == AUTHOR:
        return Music(text.without(NOT_DRAWN | {"fold"}), nameless, (), style)
    return Music(text.without(NOT_DRAWN), nameless, card.cycle, style)


def pictures_of(
    text: PhraseText, edition: Edition, card: PlacingCard, settings: Settings
) -> dict[str, PictureInput]:
    """Return the inputs of a phrase's pictures in an edition by their names, the home score first."""
    looks, music = looks_of(settings), music_of(text, edition, card, settings)
    found: dict[str, PictureInput] = {HOME: HomePicture(music, looks.home, card.home)}
    found |= {key.written: KeyPicture(music, looks.key, key) for key in card.keys}
    found |= {
        scale_name(place): ScalePicture(music, looks.scale, card.home, place)
        for place in range(len(card.scales))
    }
    found[CHANGES] = ChangesPicture(music, looks.changes, card.home)
    return found


def scale_name(place: int) -> str:
    """Return the name of the picture of a scale, whose place is counted from 0."""
    return f"scale {place + 1}"


@dataclass(frozen=True, slots=True)
class Looks:
    """How the pictures of a book are drawn."""

    home: HomeLook
    key: KeyLook
    scale: ScaleLook
    changes: ChangesLook


@lru_cache(maxsize=8)
def looks_of(settings: Settings) -> Looks:
    """Return how the pictures of a book with these settings are drawn."""
    pages = settings.pages
    paper = paper_of(settings.page_size, large=pages.large_print)
    spoken = spoken_language(settings)
    score = ScoreLook(
        paper.staff_mm, paper.line_mm, 0.0, pages.marks, settings.courtesy, settings.signatures, spoken
    )
    columns = pages.layout.columns != ONE_COLUMN and pages.arrange != BY_KEY
    keys = replace(score, column_mm=paper.column_mm) if columns else score
    return Looks(
        HomeLook(score, paper.home_staff_mm, settings.page_size, pages.large_print),
        KeyLook(keys, pages.arrange == BY_KEY, paper.room_mm, pages.layout.systems or paper.most_keys),
        ScaleLook(paper.scale_staff_mm, spoken),
        ChangesLook(paper.staff_mm, paper.line_mm, spoken),
    )


def between_input(sources: Sequence[PhraseSource], settings: Settings) -> BetweenInput:
    """Return the input of the job that compares these phrases."""
    phrases = tuple((source.number, source.text) for source in sources)
    return BetweenInput(phrases, settings.silenced, told_language(settings))
