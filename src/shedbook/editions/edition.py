"""Editions: one readership each, a group of instruments or one of them; and keys as the reader knows them.

The name of a group always wins: "bass" is the bass clef edition, and the instruments are "double bass" and
"electric bass".
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import lru_cache

from shedbook.editions.fingerboard import Fingerboard
from shedbook.editions.instruments import (
    Bands,
    Instrument,
    bands_of,
    check_clefs,
    instrument_named,
    instruments,
    meant,
    plain_words,
)
from shedbook.editions.keys import key_cycle, read_tonic, readable_tonic
from shedbook.editions.tables.editions import EDITIONS, EditionRow
from shedbook.errors import UnknownNameError, shown
from shedbook.table_index import by_names, need
from shedbook.theory.interval import UNISON, Interval
from shedbook.theory.key import Key
from shedbook.theory.pitch import NoteName

FILE = "src/shedbook/editions/tables/editions.py"
"""Where the editions for groups stand."""

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


@dataclass(frozen=True, slots=True)
class ReaderKey:
    """A key as it sounds, and as the reader's part is written."""

    concert: Key
    written: Key


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
        return narrowed(instrument_named(wanted, extra))
    except UnknownNameError:
        groups = tuple(row.name for row in EDITIONS)
        raise UnknownNameError(
            f'There is no edition "{shown(text)}".',
            hint=meant(text, extra, also=groups)
            or f"Write {', '.join(groups)}, or the name of an instrument.",
        ) from None


def narrowed(instrument: Instrument) -> Edition:
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


def reader_keys(
    home: Key,
    edition: Edition,
    order: str | Sequence[str | NoteName] = "fourths",
    *,
    prefer: Iterable[str | NoteName] = (),
    written: bool = False,
) -> tuple[ReaderKey, ...]:
    """Return the keys of an edition in the author's order, each as it sounds and as it is read.

    Args:
        home: the phrase's home key, as it sounds.
        edition: whose reader.
        order: as `key_cycle` takes it; listed tonics are concert keys, or written keys where `written`.
        prefer: tonics that shall be called so wherever they are read.
        written: whether the order is one of written keys.

    Raises:
        UnknownNameError: if no order has the name.
        NotationError: if a tonic cannot be read, or two sound the same.
    """
    wished = tuple(prefer)
    if not edition.transposes:
        return tuple(ReaderKey(key, key) for key in key_cycle(home, order, prefer=wished))
    if written:
        start = written_key(home, edition, prefer=wished)
        cycle = key_cycle(start, order, prefer=wished)
        return tuple(ReaderKey(_moved(key, -edition.transposition, home, wished), key) for key in cycle)
    cycle = key_cycle(home, order, prefer=wished)
    return tuple(ReaderKey(key, written_key(key, edition, prefer=wished)) for key in cycle)


def written_key(concert: Key, edition: Edition, *, prefer: Iterable[str | NoteName] = ()) -> Key:
    """Return the name that the reader of an edition has for a concert key, by the fewest accidentals."""
    if not edition.transposes:
        return concert
    return _moved(concert, edition.transposition, None, prefer)


def _moved(key: Key, by: Interval, home: Key | None, prefer: Iterable[str | NoteName]) -> Key:
    """Return a key moved by an interval and named for the reader; `home` keeps the author's own name."""
    tonic = key.tonic + by.simple
    wished = {name.pitch_class: name for name in map(read_tonic, prefer)}
    if home is not None:
        wished[home.tonic.pitch_class] = home.tonic
    chosen = wished.get(tonic.pitch_class) or readable_tonic(tonic.pitch_class, key.mode, key.tonic)
    return Key(chosen, key.mode)
