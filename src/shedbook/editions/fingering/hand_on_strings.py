"""Strings: how far the hand must move between two notes, and which strings it passes over."""

from __future__ import annotations

from collections.abc import Mapping
from functools import lru_cache
from types import MappingProxyType
from typing import NamedTuple

from shedbook.editions.fingering.fingerboard import fingerboards, read_strings
from shedbook.editions.tables.awkward_moves import REACH, STRINGS


class Strings(NamedTuple):
    """Open strings as sounding MIDI numbers, from the lowest, and the half steps that lie under a hand."""

    opens: tuple[int, ...]
    hand: int


@lru_cache(maxsize=1)
def strings() -> Mapping[str, Strings]:
    """Return the strings of instruments by their names.

    Raises:
        ValueError: if a row of the table cannot be tuned.
    """
    boards = fingerboards()
    return MappingProxyType(
        {
            row.name: Strings(
                tuple(
                    one.midi
                    for one in (read_strings(row.strings) if row.strings else boards[row.name].strings)
                ),
                row.hand,
            )
            for row in STRINGS
        }
    )


def string_points(row: Strings, before: int, after: int, points: Mapping[str, int]) -> int:
    """Return the points between two sounding MIDI numbers on the best two strings; 0 where there are none.

    An open string leaves the hand free.

    Args:
        row: the instrument.
        before: the first note.
        after: the second.
        points: what each move costs, by name of `POINTS`.
    """
    ways = []
    for one, first in _places(row, before):
        for other, second in _places(row, after):
            beyond = max(0, abs(first - second) - row.hand) if first and second else 0
            skipped = max(0, abs(one - other) - 1)
            ways.append(points["shift"] * -(-beyond // 2) + points["skip"] * skipped)
    return min(ways, default=0)


@lru_cache(maxsize=512)
def _places(row: Strings, midi: int) -> tuple[tuple[int, int], ...]:
    """Return where a note is: (string from the lowest, half steps above it)."""
    return tuple(
        (string, midi - open_) for string, open_ in enumerate(row.opens) if 0 <= midi - open_ <= REACH
    )
