"""The names of the feels, read from their table."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from types import MappingProxyType

from shedbook.errors import TableError
from shedbook.phrase.tables.feels import FEELS, FeelRow

_FILE = "src/shedbook/phrase/tables/feels.py"


def names_of(rows: Iterable[FeelRow]) -> Mapping[str, str]:
    """Map every name and alias of a feel, in lower case, to its name.

    Raises:
        TableError: if two feels share a name, or a row has no source.
    """
    found: dict[str, str] = {}
    for row in rows:
        if not row.source:
            raise TableError(
                f'The feel "{row.name}" has no source.', hint=f"Write one in its row of {_FILE}."
            )
        for name in (row.name, *row.aliases):
            if name in found:
                raise TableError(
                    f'"{name}" stands twice in the table of feels: for "{found[name]}" and for "{row.name}".',
                    hint=f"Take it out of one of the two rows of {_FILE}.",
                )
            found[name] = row.name
    return MappingProxyType(found)


FEEL_NAMES: Mapping[str, str] = names_of(FEELS)
"""Every name and alias of a feel to its name."""

_ROWS: Mapping[str, FeelRow] = MappingProxyType({row.name: row for row in FEELS})


def feel_row(name: str) -> FeelRow:
    """Return the row of a feel by its name in the table; a phrase has no other.

    Raises:
        KeyError: if there is none of this name.
    """
    return _ROWS[name]
