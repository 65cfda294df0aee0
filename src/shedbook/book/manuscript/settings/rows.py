"""One setting, one row: a field of a frozen dataclass that knows its key, how it is read, and what it means.

    own_staves: bool = row(True, flag, "true or false", "true", "empty staves after a phrase …")

The dataclass is the table: `rows_of` gives its keys for the documentation, `read_rows` reads a TOML table by
it.
A group of rows that stand among those of another table is a field made by `group`.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import Field, field, fields
from types import MappingProxyType
from typing import Any, NamedTuple, TypeVar

from shedbook.errors import ManuscriptError
from shedbook.phrase.tables.fields import FieldRow

D = TypeVar("D")
T = TypeVar("T")

Reader = Callable[..., T]
"""Takes the key, its value in TOML, and the settings that it needs besides; raises a ManuscriptError."""


class _Row(NamedTuple):
    """What stands beside a field: its row of the documentation, its reader, the settings that this needs."""

    documented: FieldRow
    read: Reader[Any]
    needs: tuple[str, ...]
    always: object


def row(
    default: D,
    read: Reader[T],
    form: str,
    says: str,
    meaning: str,
    *,
    key: str = "",
    needs: tuple[str, ...] = (),
    always: object = None,
    must: bool = False,
) -> D | T:
    """Return a field of a dataclass of settings.

    Args:
        default: what holds where the key is not there.
        read: the reader of its value.
        form: the form of its value in TOML, in words.
        says: the default in words, as the documentation has it; "" for nothing.
        meaning: what it does, in words.
        key: the key in TOML, where it is not the field's own name.
        needs: names of fields that are read before and given to the reader after the value.
        always: a value that is read where the key is not there, for a reader that checks more than it.
        must: whether the key must be there.
    """
    found = _Row(FieldRow(key, form, must, says, meaning), read, needs, always)
    made: D = field(default=default, metadata={"row": found})
    return made


def group(kind: type[T]) -> T:
    """Return a field that holds settings of another dataclass, whose keys stand in the same table."""
    made: T = field(default_factory=kind, metadata={"group": kind})
    return made


def rows_of(kind: type[Any]) -> tuple[FieldRow, ...]:
    """Return the keys of a dataclass of settings, in the order of its fields."""
    found: list[FieldRow] = []
    for one in fields(kind):
        if "group" in one.metadata:
            found += rows_of(one.metadata["group"])
        else:
            documented = one.metadata["row"].documented
            found.append(documented if documented.name else documented._replace(name=one.name))
    return tuple(found)


def read_rows(
    kind: type[T], table: Mapping[str, Any], owner: str, before: Mapping[str, Any] = MappingProxyType({})
) -> T:
    """Return the settings that a TOML table holds; keys that belong to other groups of it are passed over.

    Args:
        kind: the dataclass of settings.
        table: the keys and values as TOML gives them.
        owner: whose keys they are, for errors: "manuscript.toml".
        before: settings of the same table that were read before, by name.

    Raises:
        ManuscriptError: for a value that cannot be used, or a key that must stand and does not;
            it names the key.
    """
    found: dict[str, Any] = {}
    for one in fields(kind):  # type: ignore[arg-type]
        if "group" in one.metadata:
            found[one.name] = read_rows(one.metadata["group"], table, owner, found)
        else:
            found[one.name] = _read(one, table, owner, {**before, **found})
    return kind(**found)


def _read(one: Field[Any], table: Mapping[str, Any], owner: str, before: Mapping[str, Any]) -> object:
    row: _Row = one.metadata["row"]
    key = row.documented.name or one.name
    if key not in table and row.documented.needed:
        raise ManuscriptError(f'{owner} needs "{key}".', hint=f"It is {row.documented.meaning}.", field=key)
    if key not in table and row.always is None:
        return one.default
    return row.read(key, table.get(key, row.always), *(before[name] for name in row.needs))
