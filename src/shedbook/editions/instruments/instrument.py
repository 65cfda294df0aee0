"""Instruments: how far above the sound a player reads, in which clefs, and which notes the instrument has."""

from __future__ import annotations

import unicodedata
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache

from shedbook.editions.fingering.fingerboard import Fingerboard, fingerboards
from shedbook.editions.tables.editions import EditionRow
from shedbook.editions.tables.instruments import CLEFS, INSTRUMENTS, InstrumentRow
from shedbook.errors import TableError, UnknownNameError, nearest, shown
from shedbook.table_index import by_names, need
from shedbook.theory.interval import Interval
from shedbook.theory.pitch import Pitch


@dataclass(frozen=True, slots=True)
class Band:
    """A range of written notes, both ends included."""

    low: Pitch
    high: Pitch

    def holds(self, other: Band) -> bool:
        """Say whether another band lies inside this one."""
        return self.low.midi <= other.low.midi and other.high.midi <= self.high.midi

    def __str__(self) -> str:
        return f"{self.low} to {self.high}"


@dataclass(frozen=True, slots=True)
class Bands:
    """Three written ranges, each inside the next: what lies well, what is usual, what a few have."""

    comfortable: Band
    full: Band
    extreme: Band


@dataclass(frozen=True, slots=True)
class Instrument:
    """One instrument.

    Attributes:
        name: its name in lower case, such as "tenor saxophone".
        aliases: other names.
        transposition: the interval from what sounds up to what is written, such as a major ninth for the
            tenor saxophone.
        clefs: the clefs by sign and line, the usual one first.
        bands: the written ranges.
        source: where the ranges come from.
        fingerboard: the open strings and frets, or None where there are no frets.
    """

    name: str
    aliases: tuple[str, ...]
    transposition: Interval
    clefs: tuple[str, ...]
    bands: Bands
    source: str
    fingerboard: Fingerboard | None = None

    @property
    def clef(self) -> str:
        """The usual clef."""
        return self.clefs[0]


def plain_words(text: str) -> str:
    """Return a name as names are compared: lower case, without accents, hyphens and spare white space."""
    letters = unicodedata.normalize("NFKD", text.replace("♭", " flat").casefold())
    kept = "".join(" " if letter in "-_" else letter for letter in letters if letter.isascii())
    return " ".join(kept.split())


FILE = "src/shedbook/editions/tables/instruments.py"
"""Where the instruments and the clefs stand."""


def bands_of(row: InstrumentRow | EditionRow, file: str) -> Bands:
    """Return the three written ranges of a row, read from texts such as "E3 C7".

    Raises:
        TableError: if one is missing or cannot be read, or does not lie inside the next.
    """
    found = []
    for which in ("comfortable", "full", "extreme"):
        text: str = getattr(row, which)
        try:
            low, high = map(Pitch.parse, text.split())
        except ValueError:
            what = f'cannot be read: "{text}"' if text else "is missing"
            raise TableError(
                f'The {which} range of "{row.name}" {what}.',
                hint=f'Write its lowest and its highest written note in {file}, as "E3 C7".',
            ) from None
        found.append(Band(low, high))
    comfortable, full, extreme = found
    need(
        full.holds(comfortable) and extreme.holds(full),
        f'The ranges of "{row.name}" do not lie inside one another.',
        f"Write in {file} what lies well inside what is expected, and that inside what a few can.",
    )
    return Bands(comfortable, full, extreme)


def check_clefs(name: str, clefs: Sequence[str], file: str) -> None:
    """See that an instrument or an edition is read in clefs of the table.

    Raises:
        TableError: if it has none, or one that is not known.
    """
    known = {row.clef for row in CLEFS}
    wrong = [clef for clef in clefs if clef not in known]
    need(
        bool(clefs),
        f'"{name}" has no clef.',
        f"Write one in {file}: {', '.join(sorted(known))}.",
    )
    need(
        not wrong,
        f'"{name}" is read in a clef "{"".join(wrong[:1])}" that is not known.',
        f"Write it into CLEFS in {FILE}, or one of {', '.join(sorted(known))} in {file}.",
    )


@lru_cache(maxsize=1)
def instruments() -> tuple[Instrument, ...]:
    """Return the instruments of the table, in its order.

    Raises:
        TableError: as `joined_instruments` and `fingerboards`.
    """
    return joined_instruments(INSTRUMENTS, fingerboards())


def joined_instruments(
    rows: Iterable[InstrumentRow], boards: Mapping[str, Fingerboard]
) -> tuple[Instrument, ...]:
    """Return the instruments of some rows with their fingerboards.

    Raises:
        TableError: if one lacks its name, a range, a clef or its source, or a name stands twice.
    """
    found = []
    for row in dict.fromkeys(by_names(rows, what="an instrument", file=FILE, fold=plain_words).values()):
        check_clefs(row.name, row.clefs, FILE)
        bands, above = bands_of(row, FILE), Interval(*row.written_above)
        found.append(
            Instrument(row.name, row.aliases, above, row.clefs, bands, row.source, boards.get(row.name))
        )
    return tuple(found)


def instrument_named(text: str, extra: tuple[Instrument, ...] = ()) -> Instrument:
    """Return an instrument by its name or an alias.

    Args:
        text: the name.
        extra: the author's own instruments, which come before those of the table.

    Raises:
        UnknownNameError: if there is none; the hint says which ones may be meant.
    """
    wanted = plain_words(text)
    for instrument in (*extra, *instruments()):
        if wanted in map(plain_words, (instrument.name, *instrument.aliases)):
            return instrument
    raise UnknownNameError(
        f'There is no instrument called "{shown(text)}".', hint=names_meant(text, extra) or _listed(extra)
    )


def names_meant(text: str, extra: tuple[Instrument, ...] = (), *, also: tuple[str, ...] = ()) -> str:
    """Return a hint such as 'Did you mean "alto saxophone"?', or "" where nothing is near.

    The names that hold all the words of the text are meant; where there are none, the nearest names.

    Args:
        text: a name that is not known.
        extra: the author's own instruments.
        also: other names that may be meant, such as those of groups.
    """
    words = set(plain_words(text).split())
    names = [instrument.name for instrument in (*extra, *instruments())]
    holding = [name for name in names if words and words <= set(plain_words(name).split())]
    if holding:
        return "Did you mean " + " or ".join(f'"{name}"' for name in holding) + "?"
    aliases = [alias for instrument in (*extra, *instruments()) for alias in instrument.aliases]
    return nearest(text, [*also, *names, *aliases])


def _listed(extra: tuple[Instrument, ...]) -> str:
    return "Known are " + ", ".join(instrument.name for instrument in (*extra, *instruments())) + "."
