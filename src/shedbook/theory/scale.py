"""Scales: a row of the table of scales on a root."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache
from types import MappingProxyType

from shedbook.errors import UnknownNameError, nearest
from shedbook.table_index import by_names, need
from shedbook.theory.chord import easy_name, name_over, plain_name
from shedbook.theory.interval import Interval, degree_interval
from shedbook.theory.pitch import NoteName
from shedbook.theory.tables.scales import PASSING_NOTES, SCALES, ScaleRow

FILE = "src/shedbook/theory/tables/scales.py"
"""Where the table of scales stands."""

_WORDS = MappingProxyType({
    "nat": "natural", "nat.": "natural", "aug": "augmented", "dim": "diminished", "dom": "dominant",
    "maj": "major", "min": "minor", "mel": "melodic", "harm": "harmonic", "pent": "pentatonic",
    "1st": "first", "2nd": "second", "3rd": "third", "4th": "fourth", "5th": "fifth", "6th": "sixth",
    "7th": "seventh",
})  # fmt: skip
"""Short words in names of scales, and what they stand for."""

_FREE = ("11",)
_FREE_OVER_DIMINISHED = ("7", "9", "11", "13")
"""The numbers of degrees that may be written by another letter where that is read more quickly.

Chord symbols seldom name these tensions. They name the #11 of a dominant seldom, but often its b9, #9 and
b13;
over a diminished chord they name none of the four."""


def index(table: tuple[ScaleRow, ...]) -> Mapping[str, ScaleRow]:
    """Map every name and alias, in its plain form, to its row.

    Raises:
        TableError: if a name is used twice, or a row lacks its name, its source or its degrees.
    """
    for row in table:
        need(
            row.degrees[:1] == ("1",) and len(row.degrees) == len(row.spelled),
            f'The degrees of "{row.name}" do not begin with 1, or are more or fewer than its letters.',
            f'Write them in {FILE}, as "1 2 b3 4 5 6 b7".',
        )
        unknown = [degree for degree in (*row.degrees, *row.spelled) if not _is_degree(degree)]
        need(
            not unknown,
            f'The scale "{row.name}" has a degree "{"".join(unknown[:1])}", which is none.',
            f"Write degrees from 1 to 15 with their accidentals in {FILE}.",
        )
    return by_names(table, what="a scale", file=FILE, fold=_plain)


def _is_degree(text: str) -> bool:
    try:
        degree_interval(text)
    except ValueError:
        return False
    return True


def _plain(name: str) -> str:
    """Return a name as names are compared: in lower case, with plain accidentals and single spaces.

    Short words are written out, and a last word "scale" or "mode" is left out.
    """
    text = name.lower().replace("♭", "b").replace("♯", "#").replace("♮", " natural ")
    words = [_WORDS.get(word, word) for word in re.split(r"[\s\-‐–_/]+", text) if word]
    while len(words) > 1 and words[-1] in ("scale", "mode"):
        del words[-1]
    return " ".join(words)


_ROWS = index(SCALES)
_SOME_NAMES = (
    "Names are such as dorian, lydian dominant, altered, half-whole diminished, melodic minor, blues."
)


@lru_cache(maxsize=512)
def scale_row(name: str) -> ScaleRow:
    """Return the row of the table that has a name or alias.

    Raises:
        UnknownNameError: if no row has the name. The hint lists the nearest names.
    """
    row = _ROWS.get(_plain(name))
    if row is None:
        raise UnknownNameError(
            f'"{name}" is not a scale in the table.', hint=nearest(name, _ROWS) or _SOME_NAMES
        )
    return row


@dataclass(frozen=True, slots=True)
class Scale:
    """A scale: a `row` of the table on a `root`."""

    root: NoteName
    row: ScaleRow

    @property
    def name(self) -> str:
        """The name of the scale in the table, without the root."""
        return self.row.name

    @property
    def notes(self) -> tuple[NoteName, ...]:
        """The notes as a player spells them, the root first.

        No note has a double accidental; the plain name of its sound stands instead. A tension that chord
        symbols seldom name is not written E#, B#, Cb or Fb either, because there the letter matters less than
        what is read quickly.
        """
        return _notes(self.root, self.row)

    @property
    def pitch_classes(self) -> frozenset[int]:
        """The pitch classes of the scale."""
        return _pitch_classes(self.root.pitch_class, self.row.spelled)

    def transposed(self, interval: Interval) -> Scale:
        """Return the scale moved by an interval."""
        return Scale(self.root + interval, self.row)

    def __str__(self) -> str:
        return f"{self.root} {self.name}"


@lru_cache(maxsize=1024)
def _notes(root: NoteName, row: ScaleRow) -> tuple[NoteName, ...]:
    free = _FREE_OVER_DIMINISHED if "bb7" in row.degrees else _FREE
    pairs = zip(row.degrees[1:], row.spelled[1:], strict=True)
    return (root, *(_spelled(root, letter, degree.strip("b#") in free) for degree, letter in pairs))


@lru_cache(maxsize=1024)
def _pitch_classes(root: int, degrees: tuple[str, ...]) -> frozenset[int]:
    return frozenset((root + degree_interval(degree).semitones) % 12 for degree in degrees)


def _spelled(root: NoteName, letter: str, free: bool) -> NoteName:
    """Return the name of a degree over a root.

    `free` says that another letter may be written where that is read more quickly; a raised fifth keeps its
    letter even so.
    """
    name = name_over(root, letter)
    return easy_name(name) if free and letter != "#5" else plain_name(name)


_PASSING = MappingProxyType({scale_row(name).name: degree for name, degree in PASSING_NOTES})


def passing_classes(scale: Scale) -> frozenset[int]:
    """Return the pitch class of the note that only passes in a bebop scale; empty for every other scale."""
    degree = _PASSING.get(scale.name)
    if degree is None:
        return frozenset()
    return frozenset(((scale.root.pitch_class + degree_interval(degree).semitones) % 12,))


def parse_scale(text: str, *, root: NoteName | None = None) -> Scale:
    """Read a scale such as "melodic minor", or "C melodic minor" with its own root.

    Args:
        text: the name, with or without a root before it.
        root: the root where the text names none.

    Raises:
        UnknownNameError: if no row has the name, or there is no root.
    """
    own, name = _own_root(text) if text.strip() else (None, text)
    if own is None and root is None:
        raise UnknownNameError(
            f'"{text}" does not say the root of the scale.', hint='Write it first: "C dorian".'
        )
    return Scale(own or root or NoteName(0), scale_row(name))


def _own_root(text: str) -> tuple[NoteName | None, str]:
    """Return the root and the name in a text such as "Bb whole tone"; None and the text without a root."""
    first, *rest = text.split(maxsplit=1)
    try:
        return (NoteName.parse(first), rest[0]) if rest else (None, text)
    except ValueError:
        return None, text
