"""Editions: one readership each, a group of instruments or one of them; and keys as the reader knows them.

The name of a group always wins: "bass" is the bass clef edition, and the instruments are "double bass" and
"electric bass".
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

from shedbook.editions.fingering.fingerboard import Fingerboard
from shedbook.editions.instruments.instrument import (
    Bands,
    Instrument,
    band,
    instrument_named,
    meant,
    plain_words,
)
from shedbook.editions.tables.editions import EDITIONS
from shedbook.errors import UnknownNameError, shown
from shedbook.theory.interval import UNISON, Interval

AUTHOR, READER = "author", "reader"
"""Register policies: keep the author's register, or suit the reader's instrument."""


@dataclass(frozen=True, slots=True)
class Edition:
    """One readership.

    `name` is what the author calls it, `slug` the same for a file's name. `transposition` is added to what
    sounds to give what is written. `bands` are written ranges. `instrument` is None for a group. `policy`
    says how registers are chosen. `tablature` is the fingerboard for which tablature is printed, or None.
    """

    name: str
    slug: str
    title: str
    transposition: Interval
    clef: str
    bands: Bands
    instrument: Instrument | None = None
    policy: str = READER
    tablature: Fingerboard | None = None

    @property
    def transposes(self) -> bool:
        """Whether the reader's key has another name than the concert key."""
        return self.transposition.simple != UNISON

    @property
    def reader_words(self) -> str:
        """Who reads it, for a sentence: "the tenor saxophone", "the B♭ edition"."""
        return f"the {self.title if self.instrument is None else self.instrument.name}"


@lru_cache(maxsize=1)
def group_editions() -> tuple[Edition, ...]:
    """Return the editions for groups, in the order of their table."""
    return tuple(
        Edition(
            row.name,
            row.name,
            row.title,
            Interval(*row.written_above),
            row.clef,
            Bands(band(row.comfortable), band(row.full), band(row.extreme)),
            policy=row.policy,
        )
        for row in EDITIONS
    )


def edition_named(text: str, extra: tuple[Instrument, ...] = ()) -> Edition:
    """Return the edition for a group or an instrument, by its name or an alias.

    Args:
        text: "concert", "bflat", "Bb", "tenor saxophone", "tenor sax".
        extra: the author's own instruments; they come before those of the table.

    Raises:
        UnknownNameError: if nothing has the name; the hint says what may be meant.
    """
    wanted = plain_words(text).removesuffix(" edition")
    for edition, row in zip(group_editions(), EDITIONS, strict=True):
        if wanted in map(plain_words, (row.name, *row.aliases)):
            return edition
    try:
        return edition_for(instrument_named(wanted, extra))
    except UnknownNameError:
        groups = tuple(row.name for row in EDITIONS)
        raise UnknownNameError(
            f'There is no edition "{shown(text)}".',
            hint=meant(text, extra, also=groups)
            or f"Write {', '.join(groups)}, or the name of an instrument.",
        ) from None


def edition_for(instrument: Instrument) -> Edition:
    """Return the edition for one instrument."""
    name = " ".join(instrument.name.split())
    return Edition(
        name.lower(),
        plain_words(name).replace(" ", "-"),
        f"{name[0].upper()}{name[1:]} edition",
        instrument.transposition,
        instrument.clef,
        instrument.bands,
        instrument,
    )


def group_of(instrument: Instrument) -> str:
    """Return the name of the group edition that a player of the instrument buys, "" for none."""
    if instrument.clef.startswith("F"):
        return "bass"
    simple = instrument.transposition.simple
    fits = (edition.name for edition in group_editions() if edition.transposition.simple == simple)
    return next(fits, "")


def editions_in(text: str, extra: tuple[Instrument, ...] = ()) -> tuple[Edition, ...]:
    """Return the editions that a text lists by commas or white space, each once.

    A name of several words is read as long as it can be: "concert double bass f" is three editions.

    Raises:
        UnknownNameError: if a name belongs to nothing.
    """
    found: list[Edition] = []
    for part in text.replace("\n", ",").split(","):
        words = part.split()
        while words:
            edition, used = _longest(words, extra)
            found.append(edition)
            words = words[used:]
    return tuple(dict.fromkeys(found))


def _longest(words: Sequence[str], extra: tuple[Instrument, ...]) -> tuple[Edition, int]:
    for used in range(len(words), 0, -1):
        try:
            return edition_named(" ".join(words[:used]), extra), used
        except UnknownNameError:
            continue
    return edition_named(" ".join(words), extra), len(words)  # raises, and names all the words


# Keys.
