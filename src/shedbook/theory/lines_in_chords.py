"""Lines inside one chord: Am Am(maj7) Am7 Am6 is one chord in which a voice comes down.

The rows stand in `tables.progressions`. Chords count from 0; `first` and `last` are inclusive.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from types import MappingProxyType
from typing import NamedTuple

from shedbook.theory.chord import Chord
from shedbook.theory.chord_symbol import parse_chord
from shedbook.theory.tables.progressions import LINES, LineRow

_SHORTEST = 3
"""A line has at least as many different chords."""


class LineFound(NamedTuple):
    """A line inside a chord, with its first and last chord."""

    row: LineRow
    first: int
    last: int


def lines_in_chords(chords: Sequence[Chord]) -> Iterator[LineFound]:
    """Yield the lines from left to right; none overlaps another."""
    first = 0
    while first < len(chords):
        row, length = max(((row, _length(row, chords, first)) for row in LINES), key=lambda one: one[1])
        if length:
            yield LineFound(row, first, first + length - 1)
        first += length or 1


def _length(row: LineRow, chords: Sequence[Chord], first: int) -> int:
    """Return how many chords from one on make a line, repeated ones too; 0 where they make none."""
    root, place, last = chords[first].root, 0, first
    wanted = _SHAPES[row.name]
    for index in range(first, len(chords)):
        chord = chords[index]
        if chord.root is None or chord.root != root or chord.bass is not None:
            break
        if _shape(chord) != wanted[place]:
            place += 1
        if place == len(wanted) or _shape(chord) != wanted[place]:
            break
        last = index
    different = len({_shape(chord) for chord in chords[first : last + 1]})
    return last - first + 1 if different >= _SHORTEST else 0


def _shape(chord: Chord) -> tuple[str, str, str]:
    """Return third, fifth and seventh: tensions make no difference to a line."""
    return chord.third, chord.fifth, chord.seventh


_SHAPES = MappingProxyType(
    {row.name: tuple([_shape(parse_chord(f"C{quality}")) for quality in row.qualities]) for row in LINES}
)
