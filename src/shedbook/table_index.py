"""The rows of a table by their names: every table of the program that is asked by name is joined here.

It lies under every floor and imports nothing of shedbook but the errors. What a row must have besides a
name, its own floor knows; `need` says so in the same words everywhere.

No look-up has a silent default: a name without a row is an error that names the row and the file. Names that
are put together while the program runs are looked up once when their module is imported (`Rows.must_have`),
so that a forgotten row stops the program at once and not in the middle of a phrase that happens to need it.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from types import MappingProxyType
from typing import Protocol, TypeVar

from shedbook.errors import MissingRowError, TableError


class NamedRow(Protocol):
    """A row with a name."""

    @property
    def name(self) -> str:
        """What the row is called."""


Row = TypeVar("Row", bound=NamedRow)
V = TypeVar("V")


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


class Rows(dict[str, V]):
    """The rows of a table by name; `table` says what they are, `file` where they are written.

    `file` is a path from the root of the repository.
    """

    __slots__ = ("file", "table")

    def __init__(self, table: str, file: str, rows: Mapping[str, V] | Iterable[tuple[str, V]], /) -> None:
        """Take the rows.

        Raises:
            ValueError: if two rows have one name.
        """
        super().__init__()
        self.table, self.file = table, file
        for name, row in rows.items() if isinstance(rows, Mapping) else rows:
            if name in self:
                raise ValueError(f'Two rows of the table "{table}" are called "{name}": see {file}.')
            self[name] = row

    def __missing__(self, name: str) -> V:
        """Say that there is no such row."""
        raise MissingRowError(self.table, name, self.file)

    def must_have(self, names: Iterable[str], why: str = "") -> None:
        """Check that every name has a row; `why` says what needs it.

        Raises:
            MissingRowError: for the first name without a row.
        """
        for name in names:
            if name not in self:
                raise MissingRowError(self.table, name, self.file, why)

    def must_be(self, names: Iterable[str], why: str = "") -> None:
        """Check that the rows are these and no others.

        Raises:
            MissingRowError: for the first name without a row.
            ValueError: for a row that nothing asks for.
        """
        wanted = tuple(names)
        self.must_have(wanted, why)
        spare = sorted(set(self) - set(wanted))
        if spare:
            raise ValueError(
                f'Nothing reads the row "{spare[0]}" of the table "{self.table}": see {self.file}.'
            )
