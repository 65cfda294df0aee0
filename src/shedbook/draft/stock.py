"""Changes by name or as text: stock progressions in any key, or what the author types."""

from __future__ import annotations

from shedbook.draft.tables.stock_changes import STOCK_CHANGES, StockRow
from shedbook.errors import NotationError
from shedbook.phrase.changes_text import parse_changes, print_changes
from shedbook.table_index import by_names
from shedbook.theory.interval import Interval
from shedbook.theory.metre import Metre
from shedbook.theory.pitch import NoteName

FILE = "src/shedbook/draft/tables/stock_changes.py"


def _plain(name: str) -> str:
    return " ".join(name.lower().replace("–", "-").split())


_BY_NAME = by_names(STOCK_CHANGES, what="a progression", file=FILE, fold=_plain)


def stock_names() -> tuple[str, ...]:
    """Return the names of the stock progressions."""
    return tuple(row.name for row in STOCK_CHANGES)


def changes_meant(text: str, key: NoteName | None = None) -> str:
    """Return changes as text: those of a name, "blues" or "blues in Bb", or the text itself.

    Args:
        text: a name of the table, with "in" and a tonic or without; or changes.
        key: the tonic where the text names none.

    Raises:
        NotationError: for a tonic that is none.
    """
    name, _, tonic = text.partition(" in ")
    row: StockRow | None = _BY_NAME.get(_plain(name))
    if row is None:
        return text
    to = key or NoteName(0)
    if tonic.strip():
        try:
            to = NoteName.parse(tonic.strip().removesuffix(" minor").removesuffix(" major").strip())
        except ValueError:
            raise NotationError(f'"{tonic[:20]}" is no key.', hint='Write "blues in Bb".') from None
    return moved_changes(row.changes, NoteName(0).interval_to(to), Metre())


def moved_changes(changes: str, up: Interval, metre: Metre) -> str:
    """Return changes moved by an interval, as text."""
    read = parse_changes(changes, metre)
    moved = [type(one)(one.bar, one.beat, one.chord.transposed(up)) for one in read.changes]
    return print_changes(moved, read.bars, metre)
