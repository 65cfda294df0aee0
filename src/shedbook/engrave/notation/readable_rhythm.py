"""Rests and syncopated notes as a player expects to see them, whatever values the author typed. Pure.

In the engraved score only: the phrase itself, its sound and its export stay as they are. A run of rests is
written anew so that groups of beats and beats show (Gould 2011, Behind Bars, from memory: a rest stands
within one group, half rests only where half a bar begins, dotted rests only within a beat or in compound
metres). A note that hides the middle of the bar is divided there and tied, but for the usual syncopations.
Ties that the author wrote stay, and so does whatever stands in a tuplet.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction
from functools import lru_cache
from typing import NamedTuple

from shedbook.phrase.model import Bar, Value
from shedbook.theory.metre import Metre

_PLAIN = {
    Value(part, dots).quarters: Value(part, dots) for part in (1, 2, 4, 8, 16, 32, 64) for dots in (0, 1)
}
"""Values by their length in quarters."""
_GRAIN = Fraction(1, 16)
"""The length of the shortest value."""
_THREE_QUARTERS = Fraction(3, 4)
_COMPOUND = frozenset(((6, 4), (9, 4), (12, 4)))

Shape = tuple[tuple[tuple[Value, ...], bool], ...]
"""For each event of a bar its values and whether it is a rest."""


class Part(NamedTuple):
    """An event as it is to be written: which one of the bar it is, and its values."""

    event: int
    values: tuple[Value, ...]


def regrouped(bar: Bar, metre: Metre) -> Bar:
    """Return a bar as it is to be read; a pick-up counts from where it stands in its bar."""
    start = metre.bar_quarters - bar.quarters if bar.number == 0 else Fraction(0)
    parts = parts_of(tuple([(event.values, event.pitch is None) for event in bar.events]), start, metre)
    if parts is None:
        return bar
    return Bar(bar.number, tuple([replace(bar.events[part.event], values=part.values) for part in parts]))


@lru_cache(maxsize=1024)
def parts_of(shape: Shape, start: Fraction, metre: Metre) -> tuple[Part, ...] | None:
    """Return the events of a bar as they are to be written; None where they stay as they are."""
    found: list[Part] = []
    run: list[Part] = []
    place = start
    for index, (values, rest) in enumerate(shape):
        length = sum((value.quarters for value in values), Fraction(0))
        if rest and all(value.actual == value.normal for value in values):
            run.append(Part(index, values))
        else:
            found += _rests(run, place, metre)
            run = []
            found.append(Part(index, values if rest else _divided(values, place, metre)))
        place += length
    found += _rests(run, place, metre)
    return None if [part.values for part in found] == [values for values, _ in shape] else tuple(found)


def _rests(run: list[Part], end: Fraction, metre: Metre) -> list[Part]:
    """Write a run of rests anew, given where it ends."""
    length = sum((value.quarters for part in run for value in part.values), Fraction(0))
    values = rest_values(end - length, length, metre) if run else ()
    return [Part(run[0].event, (value,)) for value in values] or run


def rest_values(start: Fraction, length: Fraction, metre: Metre) -> tuple[Value, ...]:
    """Return the rests that fill a length from a place in the bar, in quarters.

    There are none where plain values cannot fill it, and for a bar of nothing but rest.
    """
    if start % _GRAIN or length % _GRAIN or length == metre.bar_quarters:
        return ()
    return tuple([_PLAIN[size] for size in _sizes(start, start + length, metre)])


def _sizes(place: Fraction, end: Fraction, metre: Metre) -> Iterator[Fraction]:
    """Yield the lengths of the rests, each the longest that may begin where it does."""
    cells, beat = _cells(metre), metre.beat_quarters
    while place < end:
        size = next((size for first, size in cells if first == place and place + size <= end), beat)
        if place + size > end or size == beat:
            size = beat
            while place % size or place + size > end:
                size /= 2
            if end - place == _THREE_QUARTERS * beat and place % beat == 0:
                size = end - place
        yield size
        place += size


@lru_cache(maxsize=64)
def _cells(metre: Metre) -> tuple[tuple[Fraction, Fraction], ...]:
    """Return the places where rests longer than a beat may begin, with their lengths, the longest first."""
    beat = metre.beat_quarters
    compound = metre.unit >= 8 or (metre.beats, metre.unit) in _COMPOUND
    found: list[tuple[Fraction, Fraction]] = []
    place = Fraction(0)
    for group in metre.groups:
        if group == 3 and compound:
            found += [(place, 3 * beat), (place, 2 * beat)]
        elif group != 3:
            found += [(place + first * beat, 2 * beat) for first in range(0, group - 1, 2)]
        place += group * beat
    if (metre.beats, metre.unit) == (12, 8):
        found += [(Fraction(0), Fraction(3)), (Fraction(3), Fraction(3))]
    return tuple(sorted(found, key=lambda cell: -cell[1]))


def _divided(values: tuple[Value, ...], place: Fraction, metre: Metre) -> tuple[Value, ...]:
    """Divide the value of a note that hides the middle of the bar; one that the author tied stays."""
    middle = _middle(metre)
    if middle is None or len(values) > 1 or not place < middle < place + values[0].quarters:
        return values
    halves = (middle - place, place + values[0].quarters - middle)
    if _hides(place, values[0], metre) and all(half in _PLAIN for half in halves):
        return tuple([_PLAIN[half] for half in halves])
    return values


@lru_cache(maxsize=64)
def _middle(metre: Metre) -> Fraction | None:
    """Return the middle of a bar of two equal halves, in quarters; None where it has no such middle."""
    count = len(metre.groups)
    half = metre.groups[: count // 2]
    return metre.bar_quarters / 2 if count % 2 == 0 and half == metre.groups[count // 2 :] else None


def _hides(place: Fraction, value: Value, metre: Metre) -> bool:
    """Say whether a note that lies over the middle of the bar is hard to read.

    In 4/4 it is not when it begins the bar, lies from beat to beat, or is the quarter on the and of two.
    """
    if value.actual != value.normal:
        return False
    if metre.groups[0] == 3:
        return value.quarters != metre.bar_quarters
    beat = metre.bar_quarters / 4
    from_beat_to_beat = place % beat == 0 and (place + value.quarters) % beat == 0
    off_beat = value.quarters == beat and place % (beat / 2) == 0
    return not (place == 0 or from_beat_to_beat or off_beat)
