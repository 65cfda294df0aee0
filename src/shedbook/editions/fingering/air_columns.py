"""Brass: valves, positions of the slide and partials, counted from the harmonic series of the open tube."""

from __future__ import annotations

from collections.abc import Mapping
from functools import lru_cache
from types import MappingProxyType
from typing import NamedTuple

from shedbook.editions.tables.awkward_moves import COLUMNS, ColumnRow
from shedbook.theory.pitch import Pitch

_MOST_DOWN = 6
"""How many half steps three valves, or the seventh position, lower a partial."""
_WITH_EASE = 2
"""How many positions the slide travels with ease [the project's design]."""
_THIRD = "3"


class Tube(NamedTuple):
    """A way to play a note: the number of its partial, and the half steps that the tube is lowered by."""

    partial: int
    down: int


@lru_cache(maxsize=1)
def columns() -> Mapping[str, ColumnRow]:
    """Return the rows of brass instruments by the names of instruments."""
    return MappingProxyType({name: row for row in COLUMNS for name in row.instruments})


@lru_cache(maxsize=512)
def tubes(row: ColumnRow, midi: int) -> tuple[Tube, ...]:
    """Return the ways to play a written MIDI number, the usual one first: the least lowered."""
    found = []
    for partial, name in enumerate(row.partials.split(), start=2):
        if name != "-" and 0 <= (down := Pitch.parse(name).midi - midi) <= _MOST_DOWN:
            found.append(Tube(partial, down))
    return tuple(sorted(found, key=lambda one: one.down))


def brass_points(row: ColumnRow, before: int, after: int, points: Mapping[str, int]) -> int:
    """Return the points between two written MIDI numbers; 0 for what the instrument does not have.

    Valves are pressed as they usually are; a slide may take another position, where that is worth it.

    Args:
        row: the instrument.
        before: the first note.
        after: the second.
        points: what each move costs, by name of `POINTS`.
    """
    ones, others = tubes(row, before), tubes(row, after)
    if not ones or not others or before == after:
        return 0
    if row.valves:
        one, other = ones[0], others[0]
        return _valve_points(row.valves[one.down], row.valves[other.down], points) + _lip(one, other, points)
    return min(
        points["slide"] * max(0, abs(one.down - other.down) - _WITH_EASE)
        + points["other position"] * ((one != ones[0]) + (other != others[0]))
        + _lip(one, other, points)
        for one in ones
        for other in others
    )


def _valve_points(one: str, other: str, points: Mapping[str, int]) -> int:
    lifted, down = set(one) - set(other), set(other) - set(one)
    crossing = min(len(lifted), len(down))
    third = bool(crossing) and _THIRD in lifted | down
    return points["crossing"] * crossing + points["third valve"] * third


def _lip(one: Tube, other: Tube, points: Mapping[str, int]) -> int:
    """Return what a slur over partials costs: each that is passed over."""
    return points["partials"] * max(0, abs(one.partial - other.partial) - 1)
