"""The rows of a table by their names: every table of the program that is asked by name is joined here.

It lies under every floor and imports nothing of shedbook but the errors. What a row must have besides a
name, its own floor knows; `need` says so in the same words everywhere.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from types import MappingProxyType
from typing import Protocol, TypeVar

from shedbook.errors import TableError


class NamedRow(Protocol):
    """A row with a name."""

    @property
    def name(self) -> str:
        """What the row is called."""


Row = TypeVar("Row", bound=NamedRow)


def by_names(
    rows: Iterable[Row], *, what: str, file: str, fold: Callable[[str], str] = str
) -> Mapping[str, Row]:
    """Return the rows of a table by their names and aliases.

    Args:
        rows: the rows; those with `aliases` are found by these too, those with `source` must say it.
        what: what a row is, with its article, as in "a scale".
        file: where the table stands, from the root of the repository.
        fold: makes equal what is the same name in another way of writing.

    Raises:
        TableError: if a row has no name or no source, or a name stands in two rows.
    """
    found: dict[str, Row] = {}
    for row in rows:
        need(bool(row.name), f"There is {what} without a name.", f"Write its name in {file}.")
        need(
            bool(getattr(row, "source", "given")),
            f'"{row.name}", {what}, has no source.',
            f'Write in {file} where it comes from, if only "common practice".',
        )
        for name in (row.name, *getattr(row, "aliases", ())):
            other = found.get(fold(name))
            if other is not None:
                at = f'for "{other.name}" and for "{row.name}"' if other.name != row.name else "for two rows"
                need(
                    False,
                    f'"{name}" stands twice as the name of {what}: {at}.',
                    f"Take it out of one of the two rows of {file}.",
                )
            found[fold(name)] = row
    return MappingProxyType(found)


def need(holds: bool, message: str, hint: str) -> None:
    """Refuse a table where something does not hold.

    Raises:
        TableError: if `holds` is false; `message` says what is missing, `hint` what to write where.
    """
    if not holds:
        raise TableError(message, hint=hint)
