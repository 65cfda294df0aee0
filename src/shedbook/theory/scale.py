"""Scales: a kind from the table on a root."""

from __future__ import annotations

from dataclasses import dataclass
from types import MappingProxyType

from shedbook.errors import UnknownNameError, nearest
from shedbook.theory.chord import name_over
from shedbook.theory.interval import Interval
from shedbook.theory.pitch import NoteName
from shedbook.theory.tables.scales import SCALES, ScaleRow


def _index() -> MappingProxyType[str, ScaleRow]:
    """Map every name and alias, lower case, to its row; a name used twice is an error in the table."""
    found: dict[str, ScaleRow] = {}
    for row in SCALES:
        for name in (row.name, *row.aliases):
            key = _plain(name)
            if key in found:
                raise ValueError(f"{name!r} is in rows {found[key].name!r} and {row.name!r}")
            found[key] = row
    return MappingProxyType(found)


def _plain(name: str) -> str:
    """Fold case, white space, hyphens and the ways of writing accidentals."""
    words = name.lower().replace("♭", "b").replace("♯", "#").replace("-", " ").split()
    return " ".join(words)


_ROWS = _index()


def scale_row(name: str) -> ScaleRow:
    """Return the table's row for a name or alias.

    Raises:
        UnknownNameError: if no row has the name; the hint lists the nearest.
    """
    row = _ROWS.get(_plain(name))
    if row is None:
        raise UnknownNameError(f'"{name}" is not a scale in the table.', hint=nearest(name, _ROWS))
    return row


@dataclass(frozen=True, slots=True)
class Scale:
    """A scale on a root."""

    root: NoteName
    row: ScaleRow

    @property
    def name(self) -> str:
        """The table's name of the kind, without the root."""
        return self.row.name

    @property
    def notes(self) -> tuple[NoteName, ...]:
        """The notes as a player spells them, the root first."""
        return tuple(name_over(self.root, degree) for degree in self.row.spelled)

    @property
    def pitch_classes(self) -> frozenset[int]:
        """The pitch classes of the scale."""
        return frozenset(note.pitch_class for note in self.notes)

    def transposed(self, interval: Interval) -> Scale:
        """Return the scale moved by an interval."""
        return Scale(self.root + interval, self.row)

    def __str__(self) -> str:
        return f"{self.root} {self.name}"


def parse_scale(text: str, *, root: NoteName | None = None) -> Scale:
    """Read "melodic minor" (on `root`) or "C melodic minor" (its own root wins).

    Raises:
        UnknownNameError: if the name is in no row, or no root is said.
    """
    words = text.split()
    if len(words) > 1 or root is None:
        try:
            own = NoteName.parse(words[0].replace("♭", "b").replace("♯", "#")) if words else None
        except ValueError:
            own = None
        if own is not None and len(words) > 1:
            return Scale(own, scale_row(" ".join(words[1:])))
    if root is None:
        raise UnknownNameError(
            f'"{text}" does not say the root of the scale.', hint='Write it first: "C dorian".'
        )
    return Scale(root, scale_row(text))
