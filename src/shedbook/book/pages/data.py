"""What the templates print, as frozen values: one JSON object a book, made by `to_json`.

`templates/book.typ` reads a `BookData`, `templates/proof.typ` a `ProofData`.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, fields
from typing import TypeVar

from shedbook.book.ground.paper import Paper
from shedbook.book.manuscript.chapters import Chapter
from shedbook.book.scores.artefacts import Score

S = TypeVar("S", bound=Score)


@dataclass(frozen=True, slots=True)
class KeyScore(Score):
    """The score of a key with the names that stand beside it.

    `sounding` is the concert tonic where it has another name, `concert` the words that say so. `number` and
    `title` are the phrase's, in a book that goes key by key.
    """

    tonic: str = ""
    mode: str = ""
    sounding: str = ""
    concert: str = ""
    number: int = 0
    title: str = ""


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
class TempoData:
    """One step of the ladder of tempos: beats a minute, and its name."""

    bpm: int
    word: str


@dataclass(frozen=True, slots=True)
class Advice:
    """One paragraph or more under a head in the margin."""

    head: str
    says: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class PhraseData:
    """A phrase: its first page, and its keys shared out over the pages after it."""

    number: int
    title: str
    head: str
    progression: str
    key: str
    facts: tuple[str, ...]
    commentary: tuple[str, ...]
    commentary_note: str
    explanation: tuple[str, ...]
    home: Score
    scales: tuple[ScaleScore, ...]
    tempos: tuple[TempoData, ...]
    links: tuple[LinkData, ...]
    own_staves: bool
    changes: Score | None
    pages: tuple[tuple[KeyScore, ...], ...]
    per_page: int
    chapters: tuple[Chapter, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class PartData:
    """A part of the book with its phrases; the whole book is one part without a name."""

    name: str
    head: str
    label: str
    chapters: tuple[Chapter, ...]
    phrases: tuple[PhraseData, ...]


@dataclass(frozen=True, slots=True)
class KeyPages:
    """One key with all phrases, over pages, in a book that goes key by key."""

    tonic: str
    head: str
    pages: tuple[tuple[KeyScore, ...], ...]


@dataclass(frozen=True, slots=True)
class IndexEntry:
    """A term and the numbers of the phrases that stand under it."""

    term: str
    phrases: tuple[int, ...]


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


@dataclass(frozen=True, slots=True, kw_only=True)
class About:
    """What every page needs: the book's own words, the paper, the fixed words.

    `date` is year, month and day, or empty; a book that says its date is made to keep PDF/A too.
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
    proof: bool
    edition: str
    edition_says: str
    licensee: str
    imprint: tuple[str, ...]
    sample: str
    words: Mapping[str, str]


@dataclass(frozen=True, slots=True, kw_only=True)
class BookData:
    """Everything that the template of the book prints."""

    about: About
    advice: tuple[Advice, ...]
    front: tuple[Chapter, ...]
    back: tuple[Chapter, ...]
    parts: tuple[PartData, ...]
    by_progression: bool
    by_key: tuple[KeyPages, ...]
    indexes: tuple[IndexData, ...]
    checklist: Checklist


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
