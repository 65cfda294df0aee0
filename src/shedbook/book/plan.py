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

from shedbook.book.store import digest

if TYPE_CHECKING:
    from shedbook.book.settings import Settings

NOT_DRAWN = frozenset({"commentary", "id", "silence"})
"""Fields of a phrase that leave its scores as they are."""


HOME = "home"
"""Stands for the larger score in the home key among the names of keys."""


@dataclass(frozen=True, slots=True)
class Look:
    """What decides how the scores of a book are drawn; sizes in millimetres."""

    staff_mm: float = 6.8
    home_staff_mm: float = 8.2
    width_mm: float = 166.0
    degrees: bool = True
    scale_names: bool = True
    courtesy: str = "after-bar"
    signature: bool = False


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


def look_of(settings: Settings) -> Look:
    """Return how the scores of a book with these settings are drawn."""
    return Look(
        degrees=settings.degrees,
        scale_names=settings.scale_names,
        courtesy=settings.courtesy,
        signature=settings.signatures,
    )


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
