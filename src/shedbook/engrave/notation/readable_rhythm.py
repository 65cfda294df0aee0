"""Rests and syncopated notes written as a player expects to see them, whatever values the author typed. Pure.

This is done in the engraved score only: the phrase itself, its sound and its export stay as they are.

- A run of rests is written anew, so that beats and groups of beats can be seen. A rest stays within one
  group; half rests stand only where half a bar begins; dotted rests stand only within a beat, or in compound
  metres (Gould 2011, Behind Bars, from memory).
- A note that hides the middle of the bar is divided there and tied, except for the usual syncopations.
- Ties that the author wrote stay, and so does whatever stands in a tuplet.
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
"""Plain and dotted values, by their length in quarters."""
_GRAIN = Fraction(1, 16)
"""The length of the shortest value, in quarters."""
_THREE_QUARTERS = Fraction(3, 4)
_COMPOUND = frozenset(((6, 4), (9, 4), (12, 4)))
"""Compound metres in quarters; those in eighths and shorter values follow from the unit."""

Shape = tuple[tuple[tuple[Value, ...], bool], ...]
"""For each event of a bar its values and whether it is a rest."""


class Part(NamedTuple):
    """An event, or a piece of one, as it is to be written: its index in the bar, and its values."""

    event: int
    values: tuple[Value, ...]


def regrouped(bar: Bar, metre: Metre) -> Bar:
    """Return a bar with its rests and syncopated notes written readably; the same bar where nothing changes.

    A pick-up (bar 0) ends where bar 1 begins, so its places are counted back from there.
    """
    start = metre.bar_quarters - bar.quarters if bar.number == 0 else Fraction(0)
    parts = parts_of(tuple([(event.values, event.pitch is None) for event in bar.events]), start, metre)
    if parts is None:
        return bar
    return Bar(bar.number, tuple([replace(bar.events[part.event], values=part.values) for part in parts]))


@lru_cache(maxsize=1024)
def parts_of(shape: Shape, start: Fraction, metre: Metre) -> tuple[Part, ...] | None:
    """Return the events of a bar as they are to be written, or None where they stay as they are.

    Args:
        shape: for each event its values and whether it is a rest.
        start: where the first event stands, in quarters from the beginning of the bar.
        metre: the metre of the bar.
    """
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
    """Return a run of rests written anew; `end` is where it ends, in quarters."""
    length = sum((value.quarters for part in run for value in part.values), Fraction(0))
    values = rest_values(end - length, length, metre) if run else ()
    return [Part(run[0].event, (value,)) for value in values] or run


def rest_values(start: Fraction, length: Fraction, metre: Metre) -> tuple[Value, ...]:
    """Return the rests that fill a length, both the place where they start and the length in quarters.

    Returns () where plain values cannot fill the length, and for a bar that holds nothing but rest.
    """
    if start % _GRAIN or length % _GRAIN or length == metre.bar_quarters:
        return ()
    return tuple([_PLAIN[size] for size in _sizes(start, start + length, metre)])


def _sizes(place: Fraction, end: Fraction, metre: Metre) -> Iterator[Fraction]:
    """Yield the lengths of the rests in order, each the longest that is allowed where it begins."""
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
    """Return (place, length) of every rest longer than a beat that is allowed, the longest first."""
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
    """Return the values of a note, divided at the middle of the bar where the note would hide it.

    A note of several values, which the author tied, stays as it is.
    """
    middle = _middle(metre)
    if middle is None or len(values) > 1 or not place < middle < place + values[0].quarters:
        return values
    halves = (middle - place, place + values[0].quarters - middle)
    if _hides(place, values[0], metre) and all(half in _PLAIN for half in halves):
        return tuple([_PLAIN[half] for half in halves])
    return values


@lru_cache(maxsize=64)
def _middle(metre: Metre) -> Fraction | None:
    """Return the middle of the bar in quarters, or None where its groups do not make two equal halves."""
    count = len(metre.groups)
    half = metre.groups[: count // 2]
    return metre.bar_quarters / 2 if count % 2 == 0 and half == metre.groups[count // 2 :] else None


def _hides(place: Fraction, value: Value, metre: Metre) -> bool:
    """Say whether a note that lasts over the middle of the bar makes the bar hard to read.

    In 4/4 it does not when it begins the bar, begins and ends on a beat, or is a quarter after beat 2.
    """
    if value.actual != value.normal:
        return False
    if metre.groups[0] == 3:
        return value.quarters != metre.bar_quarters
    beat = metre.bar_quarters / 4
    from_beat_to_beat = place % beat == 0 and (place + value.quarters) % beat == 0
    off_beat = value.quarters == beat and place % (beat / 2) == 0
    return not (place == 0 or from_beat_to_beat or off_beat)
