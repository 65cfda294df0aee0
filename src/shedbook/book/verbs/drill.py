"""Drills one by one: as a book would print them, or over the whole range of an instrument."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from pathlib import Path

from shedbook.analysis.account import account
from shedbook.book.ground.words import EN
from shedbook.book.manuscript.drills import drill_words
from shedbook.book.verbs.proposals import write_proposals
from shedbook.draft.drill_names import drill_named
from shedbook.draft.drills import HIGH, LOW, DrillOrder, drill
from shedbook.draft.tables.drill_patterns import PATTERNS
from shedbook.editions.instruments.edition import edition_named
from shedbook.errors import NotationError
from shedbook.phrase.fields import fields_from_phrase, read_feel
from shedbook.phrase.model import Phrase
from shedbook.theory.pitch import NoteName


@dataclass(frozen=True)
class DrillRequest:
    """What is asked for: drills by name, a root, an instrument for its whole range, a tempo."""

    names: tuple[str, ...]
    root: str = "C"
    instrument: str = ""
    tempo: int = 100
    feel: str = "swing"
    into: Path | None = None


@dataclass(frozen=True)
class DrillAnswer:
    """The drills with their one line of explanation each, and the files that were written."""

    drills: tuple[Phrase, ...]
    files: tuple[Path, ...]


def write_drills(request: DrillRequest) -> DrillAnswer:
    """Return the drills.

    Raises:
        UnknownNameError: for a scale, pattern, progression or instrument that is not there.
        NotationError: for a root that is no note, or a range that is too narrow.
        OutputError: if the folder cannot be written.
    """
    order = _order(request)
    found = []
    for text in request.names:
        name = drill_named(text)
        title, says = drill_words(name, EN)
        found.append(replace(drill(name, order), title=title, commentary=says))
    files = write_proposals(found, request.into) if request.into is not None else ()
    return DrillAnswer(tuple(found), files)


def _order(request: DrillRequest) -> DrillOrder:
    try:
        root = NoteName.parse(request.root)
    except ValueError:
        raise NotationError(f'"{request.root[:20]}" is no root.', hint='Write a note name: "Eb".') from None
    low, high = LOW, HIGH
    if request.instrument:
        edition = edition_named(request.instrument)
        down = edition.transposition.semitones
        low, high = edition.bands.full.low.midi - down, edition.bands.full.high.midi - down
    feel = read_feel(request.feel)
    return DrillOrder(root, low, high, request.tempo, feel, whole=bool(request.instrument))


def pattern_lines() -> tuple[str, ...]:
    """Return a line for each pattern: its name, its level, what it is for."""
    return tuple(f"{row.name:20} level {row.level}  {EN(f'drill.{row.name}.says')}" for row in PATTERNS)


def drill_json(one: Phrase) -> Mapping[str, object]:
    """Return the JSON object of a drill."""
    return {**fields_from_phrase(one), "level": account(one).difficulty.level}
