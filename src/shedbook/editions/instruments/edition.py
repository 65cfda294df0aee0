"""Editions: one readership each, which is a group of instruments or a single instrument.

Where a group and an instrument share a name, the name means the group: "bass" is the bass clef edition, and
the instruments are "double bass" and "electric bass".
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import lru_cache

from shedbook.editions.fingering.fingerboard import Fingerboard
from shedbook.editions.instruments.instrument import (
    Bands,
    Instrument,
    bands_of,
    check_clefs,
    instrument_named,
    instruments,
    names_meant,
    plain_words,
)
from shedbook.editions.tables.editions import EDITIONS, EditionRow
from shedbook.errors import UnknownNameError, shown
from shedbook.table_index import by_names, need
from shedbook.theory.interval import UNISON, Interval

FILE = "src/shedbook/editions/tables/editions.py"
"""Where the editions for groups stand."""

AUTHOR, READER = "author", "reader"
"""The register policies: to keep the author's register, or to suit the reader's instrument."""


@dataclass(frozen=True, slots=True)
class Edition:
    """One readership.

    Attributes:
        name: what the author calls it, such as "bflat" or "tenor saxophone".
        slug: the same for the name of a file.
        title: what stands on the title page, such as "B♭ edition".
        transposition: the interval from what sounds up to what is written.
        clef: the clef by sign and line, such as "G2".
        bands: the written ranges.
        instrument: the instrument, or None for a group.
        policy: how registers are chosen, `AUTHOR` or `READER`.
        tablature: the fingerboard for which tablature is printed, or None.
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
        """Whether the key that is read has another name than the key that sounds."""
        return self.transposition.simple != UNISON

    @property
    def reader_words(self) -> str:
        """The reader, for a sentence: "the tenor saxophone", "the B♭ edition"."""
        return f"the {self.title if self.instrument is None else self.instrument.name}"


@lru_cache(maxsize=1)
def group_editions() -> tuple[Edition, ...]:
    """Return the editions for groups, in the order of their table.

    Raises:
        TableError: as `joined_editions`.
    """
    return joined_editions(EDITIONS)


def joined_editions(rows: Iterable[EditionRow]) -> tuple[Edition, ...]:
    """Return the editions of some rows.

    Raises:
        TableError: if one lacks its name, title, a range, clef, policy or source, or a name stands twice
            or is an instrument's too.
    """
    names = by_names(rows, what="an edition", file=FILE, fold=plain_words)
    taken = {plain_words(name) for one in instruments() for name in (one.name, *one.aliases)}
    for name in sorted(taken & set(names)):
        need(False, f'"{name}" is an edition and an instrument.', f"Take the name out of {FILE}.")
    found = []
    for row in dict.fromkeys(names.values()):
        need(bool(row.title), f'The edition "{row.name}" has no title.', f"Write one in {FILE}.")
        need(
            row.policy in (AUTHOR, READER),
            f'The edition "{row.name}" has a policy "{row.policy}" that is not known.',
            f'Write "{AUTHOR}" or "{READER}" in {FILE}; what a policy costs stands in register_costs.py.',
        )
        check_clefs(row.name, (row.clef,) if row.clef else (), FILE)
        found.append(
            Edition(
                row.name,
                row.name,
                row.title,
                Interval(*row.written_above),
                row.clef,
                bands_of(row, FILE),
                policy=row.policy,
            )
        )
    return tuple(found)


def edition_named(text: str, extra: tuple[Instrument, ...] = ()) -> Edition:
    """Return the edition for a group or an instrument, by its name or an alias.

    Args:
        text: a name such as "concert", "bflat", "Bb", "tenor saxophone" or "tenor sax".
        extra: the author's own instruments, which come before those of the table.

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
            hint=names_meant(text, extra, also=groups)
            or f"Write {', '.join(groups)}, or the name of an instrument.",
        ) from None


def edition_for(instrument: Instrument) -> Edition:
    """Return the edition for one instrument, in its usual clef and with the policy `READER`."""
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
    """Return the name of the group edition that a player of the instrument reads, or "" for none."""
    if instrument.clef.startswith("F"):
        return "bass"
    simple = instrument.transposition.simple
    fits = (edition.name for edition in group_editions() if edition.transposition.simple == simple)
    return next(fits, "")


def editions_in(text: str, extra: tuple[Instrument, ...] = ()) -> tuple[Edition, ...]:
    """Return the editions that a text lists with commas or white space, each once, in order.

    Names may have several words, and the longest possible name is taken: "concert double bass f" lists three
    editions.

    Args:
        text: the list.
        extra: the author's own instruments.

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
    return edition_named(" ".join(words), extra), len(words)  # raises the error, which quotes all the words
