"""Tables by the names of their rows, which say where a missing row is to be written.

Every room looks into its tables through `Rows`. No look-up has a silent default: a name without a row is an
error that names the row and the file. Names that are put together while the program runs are looked up once
when their module is imported (`Rows.must_have`), so that a row that was forgotten stops the program at once
and not in the middle of a phrase that happens to need it.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import TypeVar

from shedbook.errors import MissingRowError

V = TypeVar("V")


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
