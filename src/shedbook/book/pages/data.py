"""What the templates print, as frozen values: one JSON object a book, made by `to_json`.

`templates/book.typ` reads a `BookData`, `templates/proof.typ` a `ProofData`.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, fields
from typing import NamedTuple, TypeVar

from shedbook.book.ground.paper import Paper
from shedbook.book.pages.first_page import Setting
from shedbook.book.pages.prose import Block, Run
from shedbook.book.pages.shop_pictures import ShopPicture
from shedbook.book.scores.artefacts import Score

S = TypeVar("S", bound=Score)


@dataclass(frozen=True, slots=True)
class KeyScore(Score):
    """The score of a key with the names that stand beside it.

    `tonic` and `sounding`, the concert tonic where it has another name, are short names with signs; `concert`
    are the words that say how it sounds. `number` and
    `title` are the phrase's, in a book that goes key by key. `x_mm` and `y_mm` say where its picture stands,
    from the upper left corner of the keys of its page, the gutter left out.
    """

    tonic: str = ""
    mode: str = ""
    sounding: str = ""
    concert: str = ""
    number: int = 0
    title: str = ""
    x_mm: float = 0.0
    y_mm: float = 0.0


@dataclass(frozen=True, slots=True)
class KeyGroup:
    """The keys that stand on one page, how high they are together, and how many own staves follow.

    `broken` says that a score is higher than the page and goes on after a turn.
    """

    scores: tuple[KeyScore, ...]
    height_mm: float
    own: int = 0
    broken: bool = False


@dataclass(frozen=True, slots=True)
class ScaleScore(Score):
    """A written-out scale with its name."""

    name: str = ""


def as_kind(kind: type[S], score: Score, **more: str | int) -> S:
    """Return a score as one of another kind, with what that has besides."""
    return kind(**{one.name: getattr(score, one.name) for one in fields(Score)}, **more)  # type: ignore[arg-type]


@dataclass(frozen=True, slots=True)
class LinkData:
    """A name and a web address, with the rows of its QR code where it is printed with one."""

    name: str
    address: str
    code: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class ChapterData:
    """A chapter of the author's: its name and its prose."""

    name: str
    blocks: tuple[Block, ...]


@dataclass(frozen=True, slots=True)
class TempoData:
    """One step of the ladder of tempos: beats a minute, and its name."""

    bpm: int
    word: str


@dataclass(frozen=True, slots=True)
class Advice:
    """One paragraph or more beside a head in the margin; `listed` says that they are items to look up."""

    head: str
    says: tuple[str, ...]
    listed: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class PhraseData:
    """A phrase: its first page, and its keys shared out over that and the pages after it.

    `held` is how many pages are held free in place of all that, where it is laid out apart.
    `pages` has a group for each page with the first, which may have none. `beside` says that the scales stand
    beside the words, whose lines are `text_mm` long and whose white is the share
    `white` of the usual; `scale_columns` how many stand in a row else.
    """

    number: int
    title: str
    head: str
    progression: str
    key: str
    facts: tuple[str, ...]
    commentary: tuple[Block, ...]
    commentary_note: str
    explanation: tuple[Run, ...]
    home: Score
    scales: tuple[ScaleScore, ...]
    tempos: tuple[TempoData, ...]
    links: tuple[LinkData, ...]
    changes: Score | None
    beside: bool
    text_mm: float
    white: float
    scale_columns: int
    pages: tuple[KeyGroup, ...]
    chapters: tuple[ChapterData, ...]
    held: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class PartData:
    """A part of the book with its phrases; the whole book is one part without a name."""

    name: str
    head: str
    label: str
    chapters: tuple[ChapterData, ...]
    phrases: tuple[PhraseData, ...]


@dataclass(frozen=True, slots=True)
class KeyPages:
    """One key with all phrases, over pages, in a book that goes key by key; `held` as a phrase has it."""

    tonic: str
    head: str
    pages: tuple[KeyGroup, ...]
    held: int = 0


class IndexPhrase(NamedTuple):
    """A phrase in an index: its number and its title."""

    number: int
    title: str


@dataclass(frozen=True, slots=True)
class IndexEntry:
    """A term and the phrases that stand under it."""

    term: str
    phrases: tuple[IndexPhrase, ...]


@dataclass(frozen=True, slots=True)
class IndexData:
    """One index."""

    name: str
    entries: tuple[IndexEntry, ...]


@dataclass(frozen=True, slots=True)
class ChecklistRow:
    """A phrase of the checklist, and in which columns it has a box."""

    number: int
    title: str
    boxes: tuple[bool, ...]


@dataclass(frozen=True, slots=True)
class Checklist:
    """The columns, each with the names that its key has in the book, and the rows."""

    columns: tuple[tuple[str, ...], ...]
    rows: tuple[ChecklistRow, ...]


@dataclass(frozen=True, slots=True)
class Press:
    """How the pages are made: for a screen, or for the press with bleed and, if wanted, crop marks.

    `ink` is "rgb" for a screen, else as `settings.shop.INKS` has it; `right` says that chapters start right.
    """

    ink: str = "rgb"
    bleed_mm: float = 0.0
    marks: bool = False
    right: bool = False


@dataclass(frozen=True, slots=True)
class Shop:
    """What a book that is sold says of itself; `logo` is the publisher's mark."""

    publisher: str = ""
    series: str = ""
    isbn: str = ""
    logo: ShopPicture | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class About:
    """What every page needs: the book's own words, the paper, the fixed words.

    `set` are the sizes of a first page, `openings` says that phrases begin on left pages. `date` is year,
    month and day, or empty; a book that says its date is made to keep PDF/A too.
    """

    title: str
    head: str
    subtitle: str
    author: str
    rights: str
    links: tuple[LinkData, ...]
    language: str
    words_language: str
    keywords: tuple[str, ...]
    date: tuple[int, ...]
    paper: Paper
    set: Setting
    openings: bool
    press: Press
    shop: Shop
    proof: bool
    edition: str
    edition_says: str
    licensee: str
    imprint: tuple[str, ...]
    sample: str
    words: Mapping[str, str]


@dataclass(frozen=True, slots=True)
class FrontCover:
    """The front of a cover: the author's picture, or else one of our own design."""

    picture: ShopPicture | None


@dataclass(frozen=True, slots=True, kw_only=True)
class BookData:
    """Everything that the template of the book prints; `cover` is that of a book for a screen, if any.

    `foretold` are the numbers of the phrases of a frame, in the order of the pages, each with the page number
    on which it begins.
    """

    about: About
    cover: FrontCover | None = None
    advice: tuple[Advice, ...]
    dedication: tuple[Block, ...]
    front: tuple[ChapterData, ...]
    back: tuple[ChapterData, ...]
    parts: tuple[PartData, ...]
    by_progression: bool
    by_key: tuple[KeyPages, ...]
    indexes: tuple[IndexData, ...]
    checklist: Checklist
    foretold: tuple[tuple[int, int], ...] = ()


@dataclass(frozen=True, slots=True)
class ProofPhrase:
    """A phrase on the proof sheet: every score, small, with a box to tick."""

    number: int
    title: str
    facts: str
    scores: tuple[KeyScore, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class ProofData:
    """Everything that the template of the proof sheet prints."""

    about: About
    phrases: tuple[ProofPhrase, ...]


PageData = BookData | ProofData
"""What a template prints."""
