"""Some phrases of a line alone in their bars: all other notes are silent.

Knows nothing of progressions.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from itertools import groupby

from shedbook.exchange.ground.written_values import rest_values
from shedbook.phrase.model import Event, Phrase, Sounding
from shedbook.theory.metre import Metre


def with_silence(
    phrase: Phrase, notes: Sequence[Sounding], kept: range, first: int, last: int
) -> list[tuple[Event, ...]]:
    """Return the events of some bars, with rests in the place of all notes but those that are kept."""
    begin, stop = notes[kept[0]].event, notes[kept[-1] + 1].event if kept[-1] + 1 < len(notes) else None
    rows = []
    for at, bar in enumerate(phrase.bars):
        if not first <= bar.number <= last:
            continue
        row: list[Event] = []
        for index, event in enumerate(bar.events):
            inside = begin <= (at, index) and (stop is None or (at, index) < stop)
            row += [event] if inside or event.pitch is None else [Event(None, (one,)) for one in event.values]
        rows.append(plain_rests(row, phrase.metre))
    return rows


def without_silence(events: Sequence[Event], silence: Fraction) -> tuple[Event, ...]:
    """Return the events of a bar without the rests before its first note."""
    left = list(events)
    while silence > 0 and left and left[0].pitch is None:
        silence -= left.pop(0).quarters
    return tuple(left)


def plain_rests(events: Sequence[Event], metre: Metre) -> tuple[Event, ...]:
    """Return the events of a bar with rests that follow one another written as few rests."""
    found: list[Event] = []
    place = metre.bar_quarters - sum(event.quarters for event in events)  # a pick-up ends with its bar
    for silent, group in groupby(events, key=lambda event: event.pitch is None):
        some = list(group)
        end = place + sum(event.quarters for event in some)
        values = rest_values(place, end, metre) if silent and len(some) > 1 else None
        found += some if values is None else [Event(None, (value,)) for value in values]
        place = end
    return tuple(found)
