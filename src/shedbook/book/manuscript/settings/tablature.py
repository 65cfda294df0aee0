"""What manuscript.toml says of tablature: whose editions have it, and the tunings of fretted instruments."""

from __future__ import annotations

from shedbook.editions.fingering.fingerboard import Fingerboard
from shedbook.editions.instruments.edition import editions_in
from shedbook.editions.instruments.instrument import Instrument
from shedbook.editions.tables.fingerboards import FINGERBOARDS
from shedbook.errors import UnknownNameError
from shedbook.phrase.toml_values import check_characters, kind_words, refuse, text_list

ALL, NONE = "all", "none"
"""Every edition of a fretted instrument, and no edition; in manuscript.toml these are true and false."""

_FRETTED = " and ".join(f'"{row.instrument}"' for row in FINGERBOARDS)


def read_tablature(key: str, value: object, instruments: tuple[Instrument, ...]) -> tuple[str, ...]:
    """Return whose editions have tablature by a manuscript: ALL, or names; none for nothing.

    Raises:
        ManuscriptError: if a name belongs to nothing, or to an edition without frets.
    """
    if isinstance(value, bool):
        return (ALL,) if value else ()
    example = 'true, or names: ["guitar"]'
    if not isinstance(value, str | list):
        refuse(
            key,
            f'"tablature" must be true, false, or names of editions, but is {kind_words(value)}.',
            f"Write tablature = {example}",
        )
    text = value if isinstance(value, str) else ", ".join(text_list(key, value, example))
    check_characters(key, text)
    if not text.strip(" ,"):
        refuse(key, '"tablature" names no edition.', f"Write tablature = {example}")
    try:
        return fretted_editions(text, instruments)
    except UnknownNameError as error:
        refuse(key, error.message, error.hint)


def read_tunings(
    key: str, value: object, instruments: tuple[Instrument, ...]
) -> tuple[tuple[str, Fingerboard], ...]:
    """Return the fingerboards that the table of tunings names, by instrument; what reads them is heavy.

    Raises:
        ManuscriptError: if one cannot be used.
    """
    if value == {}:
        return ()
    from shedbook.editions.instruments.own_instruments import tunings_from_fields  # noqa: PLC0415

    return tunings_from_fields(value, instruments)


def fretted_editions(text: str, instruments: tuple[Instrument, ...]) -> tuple[str, ...]:
    """Return whose editions a text names: ALL, none for NONE, or names, each of an instrument with frets.

    Raises:
        UnknownNameError: if a name belongs to nothing, or to an edition without frets.
    """
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
