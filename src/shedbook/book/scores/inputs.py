"""The plan: jobs, each a pure function of its inputs and named by the hash of them.

A name is made from the author's own words (the fields of a phrase, the settings) and from the versions
of everything that takes part, never from what an earlier job gave. So a build in which nothing has
changed knows every name without reading a note.

    card    a phrase read: its key, its changes, its findings
    placing a phrase placed for an edition: its keys, what there is to say, what is out of reach
    score   a phrase in one key of an edition, engraved: a picture
    between the phrases compared with one another: findings
    pages   one edition, laid out: a PDF
"""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from dataclasses import asdict, dataclass
from typing import TYPE_CHECKING, Any

from shedbook.book.ground.chord_style import AS_WRITTEN, ChordStyle
from shedbook.book.ground.paper import paper_of
from shedbook.book.ground.tables.words import in_scores
from shedbook.book.manuscript.settings.pages import BY_KEY
from shedbook.book.workshop.store import digest

if TYPE_CHECKING:
    from shedbook.book.manuscript.settings.whole_book import Settings

NOT_DRAWN = frozenset({"commentary", "id", "silence", "links"})
"""Fields of a phrase that leave its scores as they are."""


HOME = "home"
"""Stands for the larger score in the home key among the names of keys."""

CHANGES = "changes"
"""Stands for the empty staves with the changes among the names of keys."""


@dataclass(frozen=True, slots=True)
class Look:
    """What decides how the scores of a book are drawn; sizes in millimetres.

    `key_tempo` says that feel and tempo stand over the score of every key.
    """

    staff_mm: float = 7.0
    home_staff_mm: float = 9.1
    scale_staff_mm: float = 5.95
    width_mm: float = 158.0
    paper: str = "a4"
    large: bool = False
    room_mm: float = 253.0
    most_keys: int = 4
    key_tempo: bool = False
    degrees: bool = True
    sparse: bool = True
    scale_names: bool = True
    courtesy: str = "after-bar"
    signature: bool = False
    chord_style: ChordStyle = AS_WRITTEN
    language: str = "en"
    words: tuple[tuple[str, str], ...] = ()


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


def wishes_of(settings: Settings, asked: tuple[str, ...] = ()) -> KeyOrder:
    """Return what a book with these settings asks of keys; `asked` are the tonics of a single call."""
    return KeyOrder(settings.keys, settings.enharmonic, asked, settings.keys_written)


def look_of(settings: Settings) -> Look:
    """Return how the scores of a book with these settings are drawn."""
    paper = paper_of(settings.page_size, large=settings.pages.large_print)
    return Look(
        staff_mm=paper.staff_mm,
        home_staff_mm=paper.home_staff_mm,
        scale_staff_mm=paper.scale_staff_mm,
        width_mm=paper.line_mm,
        paper=settings.page_size,
        large=settings.pages.large_print,
        room_mm=paper.room_mm,
        most_keys=paper.most_keys,
        key_tempo=settings.pages.arrange == BY_KEY,
        degrees=settings.pages.degrees,
        sparse=settings.pages.sparse,
        scale_names=settings.pages.scale_names,
        chord_style=settings.pages.chord_style,
        language=settings.language,
        words=tuple((name, text) for name, text in settings.pages.words if in_scores(name)),
        courtesy=settings.courtesy,
        signature=settings.signatures,
    )


def pictures_of(card: Mapping[str, Any]) -> tuple[str, ...]:
    """Return the names of the pictures of a phrase in an edition, besides `HOME`.

    They are its keys, its scales, and the empty staves with its changes.
    """
    return (*card["keys"], *scale_pictures(len(card.get("scales", ()))), CHANGES)


def scale_pictures(count: int) -> tuple[str, ...]:
    """Return the names of the pictures of written-out scales."""
    return tuple(f"scale {number}" for number in range(1, count + 1))


@dataclass(frozen=True, slots=True)
class Job:
    """One artefact to make: `does` is the function's name, `inputs` everything that it depends on."""

    does: str
    inputs: str
    name: str


def job(does: str, inputs: Mapping[str, Any], versions: str) -> Job:
    """Return a job; equal inputs and versions give equal names."""
    text = json.dumps(inputs, sort_keys=True, ensure_ascii=False, default=str)
    return Job(does, text, digest(does, text, versions))


def card_job(fields: Mapping[str, Any], options: object, versions: str) -> Job:
    """Return the job that reads a phrase and settles its keys."""
    return job("card", {"fields": fields, "options": options}, versions)


def placing_job(fields: Mapping[str, Any], edition: object, options: object, versions: str) -> Job:
    """Return the job that places a phrase for an edition."""
    return job("placing", {"fields": fields, "edition": edition, "options": options}, versions)


def score_jobs(
    fields: Mapping[str, Any], keys: Sequence[str], look: Look, versions: str, edition: object = None
) -> tuple[Job, ...]:
    """Return the jobs that engrave a phrase, one a key; `edition` is what of an edition decides its notes."""
    drawn = {name: value for name, value in fields.items() if name not in NOT_DRAWN}
    music = job("music", {"fields": drawn, "look": asdict(look), "edition": edition}, versions).name
    return tuple(job("score", {"music": music, "key": key}, versions) for key in keys)


def between_job(cards: Sequence[str], versions: str) -> Job:
    """Return the job that compares phrases of a book with one another; `cards` are numbers and names."""
    return job("between", {"cards": cards}, versions)


def pages_job(data: Mapping[str, Any], versions: str) -> Job:
    """Return the job that lays out an edition; `data` names its pictures, whose names tell their content."""
    return job("pages", data, versions)
