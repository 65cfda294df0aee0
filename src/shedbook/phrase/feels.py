"""The names of the feels, read from their table."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from types import MappingProxyType

from shedbook.errors import UnknownNameError, nearest
from shedbook.phrase.tables.feels import FEELS, FeelRow
from shedbook.table_index import by_names

_FILE = "src/shedbook/phrase/tables/feels.py"


def names_of(rows: Iterable[FeelRow]) -> Mapping[str, str]:
    """Map every name and alias of a feel to its name.

    Raises:
        TableError: if two feels share a name, or a row has no name or no source.
    """
    return MappingProxyType({
        name: row.name for name, row in by_names(rows, what="a feel", file=_FILE).items()
    })  # fmt: skip


FEEL_NAMES: Mapping[str, str] = names_of(FEELS)
"""Every name and alias of a feel to its name."""

_ROWS: Mapping[str, FeelRow] = MappingProxyType({row.name: row for row in FEELS})


def feel_row(name: str) -> FeelRow:
    """Return the row of a feel by its name in the table; a phrase that was read has no other.

    Raises:
        UnknownNameError: if there is none of this name.
    """
    if name not in _ROWS:
        raise UnknownNameError(f'"{name}" is not a feel in the table.', hint=nearest(name, _ROWS))
    return _ROWS[name]
