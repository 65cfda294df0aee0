"""Which editions of a build have tablature, and what is said where it cannot be given."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from types import MappingProxyType

from shedbook.book.ground.findings import BookFinding, PhraseFinding, of_book
from shedbook.book.manuscript.settings.tablature import ALL, fretted_editions
from shedbook.book.manuscript.settings.whole_book import Settings
from shedbook.editions.fingering.fingerboard import Fingerboard
from shedbook.editions.instruments.edition import Edition
from shedbook.editions.tables.edition_rules import EDITION_RULES

RULE = MappingProxyType({row.name: row for row in EDITION_RULES})["no-tablature"]


def asked_tablature(asked: Sequence[str], settings: Settings) -> tuple[str, ...]:
    """Return whose editions have tablature: by what is asked of one call, else by the manuscript.

    Raises:
        UnknownNameError: if a name belongs to nothing, or to an edition without frets.
    """
    return fretted_editions(", ".join(asked), settings.instruments) if asked else settings.tablature


def with_tablature(
    editions: Sequence[Edition], names: Sequence[str], tunings: Mapping[str, Fingerboard]
) -> tuple[Edition, ...]:
    """Return the editions, those with tablature that are named and have frets; other tunings take effect."""
    found = []
    for edition in editions:
        instrument = edition.instrument
        wanted = ALL in names or edition.name in names
        if wanted and instrument is not None and instrument.fingerboard is not None:
            board = tunings.get(instrument.name, instrument.fingerboard)
            found.append(replace(edition, tablature=board))
        else:
            found.append(edition)
    return tuple(found)


def without_tablature(editions: Sequence[Edition], names: Sequence[str]) -> tuple[str, ...]:
    """Return a sentence for everything that asks for tablature and does not get it; nothing where all do.

    Args:
        editions: the editions that are made.
        names: whose editions shall have tablature, as `asked_tablature` gives them.
    """
    if ALL in names:
        lacking = [edition.title for edition in editions if edition.tablature is None]
        if not lacking:
            return ()
        said = " and ".join(filter(None, [", ".join(lacking[:-1]), lacking[-1]]))
        have = "has" if len(lacking) == 1 else "have"
        return (f"The {said} {have} no tablature: it needs an instrument with frets.",)
    made = {edition.name for edition in editions}
    return tuple(
        f"Tablature is wanted for the {name} edition, which is not among those made."
        for name in names
        if name not in made
    )


def tablature_findings(
    editions: Sequence[Edition], names: Sequence[str], silenced: Sequence[str], file: str
) -> tuple[BookFinding, ...]:
    """Return what is said of a whole book about tablature that it does not have."""
    if RULE.name in silenced:
        return ()
    return tuple(
        of_book(file, PhraseFinding(RULE.name, RULE.severity, None, "", message, RULE.mend))
        for message in without_tablature(editions, names)
    )
