"""The drills of a book: each is written as a phrase when the manuscript is opened, after the author's own."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from shedbook.analysis.proof.rules import RULES
from shedbook.book.ground.words import Words, words_of
from shedbook.book.manuscript.settings.whole_book import Settings
from shedbook.book.manuscript.source import PhraseSource
from shedbook.draft.drill_names import DrillName, drill_named
from shedbook.draft.drills import DrillOrder, drill
from shedbook.editions.tables.edition_rules import EDITION_RULES
from shedbook.phrase.fields import fields_from_phrase

_AUTHORS = ("stumbling-name", "commentary-names", "sentence-outdated")
"""The rules on an author's own names and words (`scores.author_findings`), which a drill has none of."""

WHY = "a drill"
"""The reason why the proof-reader says nothing of a drill: it is no phrase."""


def drill_sources(path: Path, file: str, settings: Settings, after: int) -> list[PhraseSource]:
    """Return the drills that manuscript.toml asks for, numbered on after the phrases.

    Args:
        path: the path of manuscript.toml.
        file: its name, from the manuscript's folder.
        settings: the settings of the book.
        after: the number of the last phrase.
    """
    if not settings.drills:
        return []
    words = words_of(settings.language, dict(settings.pages.words))
    return [
        PhraseSource(file, path, number, after + number, drill_fields(text, settings, words))
        for number, text in enumerate(settings.drills, start=1)
    ]


def drill_fields(text: str, settings: Settings, words: Words) -> dict[str, Any]:
    """Return the keys of a phrase that is a drill: its music, its title, its one line of explanation."""
    name = drill_named(text)
    defaults = settings.defaults
    order = DrillOrder(tempo=defaults.tempo or 100, feel=defaults.feel or "swing")
    fields = dict(fields_from_phrase(drill(name, order)))
    title, said = drill_words(name, words)
    silence = dict.fromkeys((*RULES, *(row.name for row in EDITION_RULES), *_AUTHORS), WHY)
    return {**fields, "title": title, "commentary": said, "silence": silence}


def drill_words(name: DrillName, words: Words) -> tuple[str, str]:
    """Return the title of a drill and its line of explanation."""
    pattern = name.pattern.name
    known = words.has(f"drill.{pattern}")
    called = words(f"drill.{pattern}") if known else words("drill.own cell", cell=pattern)
    if name.through:
        title = words("drill.through", pattern=called, progression=name.through)
        return words.sentence(title), words("drill.through.says")
    said = words(f"drill.{pattern}.says") if known else words("drill.own cell.says", cell=pattern)
    title = words("drill.title", scale=words.named("scale", name.scale), pattern=called)
    return words.sentence(title), said
