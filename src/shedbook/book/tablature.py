"""Which editions have tablature: what manuscript.toml says, what is asked for, and what cannot be given."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from types import MappingProxyType
from typing import TYPE_CHECKING

from shedbook.book.request import BookFinding
from shedbook.editions.instruments.edition import Edition, editions_in
from shedbook.editions.tables.edition_rules import EDITION_RULES
from shedbook.editions.tables.fingerboards import FINGERBOARDS
from shedbook.errors import UnknownNameError
from shedbook.phrase.toml_values import check_characters, kind_words, refuse, text_list

if TYPE_CHECKING:
    from shedbook.book.settings import Settings
    from shedbook.editions.fingering.fingerboard import Fingerboard
    from shedbook.editions.instruments.instrument import Instrument

ALL, NONE = "all", "none"
"""Every edition of a fretted instrument, and no edition; in manuscript.toml these are true and false."""

RULE = MappingProxyType({row.name: row for row in EDITION_RULES})["no-tablature"]
_FRETTED = " and ".join(f'"{row.instrument}"' for row in FINGERBOARDS)


def read_tablature(value: object, instruments: tuple[Instrument, ...]) -> tuple[str, ...]:
    """Return whose editions have tablature by a manuscript: ALL, or names; none for nothing.

    Raises:
        ManuscriptError: if a name belongs to nothing, or to an edition without frets.
    """
    if isinstance(value, bool):
        return (ALL,) if value else ()
    example = 'true, or names: ["guitar"]'
    if not isinstance(value, str | list):
        refuse(
            "tablature",
            f'"tablature" must be true, false, or names of editions, but is {kind_words(value)}.',
            f"Write tablature = {example}",
        )
    text = value if isinstance(value, str) else ", ".join(text_list("tablature", value, example))
    check_characters("tablature", text)
    if not text.strip(" ,"):
        refuse("tablature", '"tablature" names no edition.', f"Write tablature = {example}")
    try:
        return _chosen(text, instruments)
    except UnknownNameError as error:
        refuse("tablature", error.message, error.hint)


def read_tunings(value: object, instruments: tuple[Instrument, ...]) -> tuple[tuple[str, Fingerboard], ...]:
    """Return the fingerboards that the table of tunings names, by instrument; what reads them is heavy.

    Raises:
        ManuscriptError: if one cannot be used.
    """
    if value == {}:
        return ()
    from shedbook.editions.instruments.own_instruments import tunings_from_fields  # noqa: PLC0415

    return tunings_from_fields(value, instruments)


def asked_tablature(asked: Sequence[str], settings: Settings) -> tuple[str, ...]:
    """Return whose editions have tablature: by what is asked of one call, else by the manuscript.

    Raises:
        UnknownNameError: if a name belongs to nothing, or to an edition without frets.
    """
    return _chosen(", ".join(asked), settings.instruments) if asked else settings.tablature


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
    """Return what is to be said where tablature was asked for and a book has none."""
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
        BookFinding(0, "", file, RULE.name, RULE.severity, None, "", message, RULE.mend)
        for message in without_tablature(editions, names)
    )


def _chosen(text: str, instruments: tuple[Instrument, ...]) -> tuple[str, ...]:
    """Return whose editions a text names: ALL, none for NONE, or names, each of an instrument with frets."""
    word = text.strip().lower()
    if word in (ALL, NONE):
        return (ALL,) if word == ALL else ()
    editions = editions_in(text, instruments)
    for edition in editions:
        if edition.instrument is None or edition.instrument.fingerboard is None:
            raise UnknownNameError(
                f"The {edition.title} has no tablature: it needs an instrument with frets.",
                hint=f"There are {_FRETTED}, and instruments of your own that have a tuning.",
            )
    return tuple(edition.name for edition in editions)
