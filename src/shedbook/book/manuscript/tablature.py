"""Which editions of a build have tablature, and what is said where it cannot be given."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from types import MappingProxyType
from typing import NamedTuple

from shedbook.analysis.naming.sayings import Saying, Several, Typed, saying
from shedbook.book.ground.edition_names import edition_title
from shedbook.book.ground.findings import BookFinding, of_book
from shedbook.book.ground.told_findings import told_finding
from shedbook.book.ground.words import Words
from shedbook.book.manuscript.settings.tablature import ALL, fretted_editions
from shedbook.book.manuscript.settings.whole_book import Settings
from shedbook.editions.fingering.fingerboard import Fingerboard
from shedbook.editions.instruments.edition import Edition
from shedbook.editions.tables.edition_rules import EDITION_RULES

RULE = MappingProxyType({row.name: row for row in EDITION_RULES})["no-tablature"]
MEND = saying("finding.no-tablature.mend")


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


class _Title(NamedTuple):
    """The title of an edition: "B♭ edition"."""

    edition: Edition

    def said(self, words: Words, form: int) -> str:
        """Return it in words."""
        return edition_title(self.edition, words)


def without_tablature(editions: Sequence[Edition], names: Sequence[str]) -> tuple[Saying, ...]:
    """Return a sentence for everything that asks for tablature and does not get it; nothing where all do.

    Args:
        editions: the editions that are made.
        names: whose editions shall have tablature, as `asked_tablature` gives them.
    """
    if ALL in names:
        lacking = tuple(_Title(edition) for edition in editions if edition.tablature is None)
        if not lacking:
            return ()
        row = f"finding.no-tablature.{'one' if len(lacking) == 1 else 'many'}"
        return (saying(row, editions=Several(lacking)),)
    made = {edition.name for edition in editions}
    return tuple(
        saying("finding.no-tablature.not made", name=Typed(name)) for name in names if name not in made
    )


def tablature_findings(
    editions: Sequence[Edition], names: Sequence[str], silenced: Sequence[str], file: str, words: Words
) -> tuple[BookFinding, ...]:
    """Return what is said of a whole book about tablature that it does not have."""
    if RULE.name in silenced:
        return ()
    return tuple(
        of_book(file, told_finding(RULE.name, RULE.severity, message, MEND, words))
        for message in without_tablature(editions, names)
    )
