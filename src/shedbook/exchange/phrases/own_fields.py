"""Rests of several values: one rest for the author, several for notation, which ties notes only.

A MusicXML file of ours lists them in a field of its own, as bar, place in quarters from the bar's start and
how many rests make one, such as "3@5/2:2". Whoever reads it joins what still stands there.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction

from shedbook.phrase.model import Bar, Event

_ONE = re.compile(r"([0-9]{1,5})@([0-9]{1,5}(?:/[1-9][0-9]{0,5})?):([0-9]{1,3})")


def print_rests(bars: Sequence[Bar]) -> str:
    """Return the list of all rests of several values; "" where there are none."""
    found = []
    for bar in bars:
        place = Fraction(0)
        for event in bar.events:
            if event.pitch is None and len(event.values) > 1:
                found.append(f"{bar.number}@{place}:{len(event.values)}")
            place += event.quarters
    return " ".join(found)


def rests_joined(bars: Sequence[Bar], text: str) -> tuple[Bar, ...]:
    """Return the bars with the rests that a list names joined, where there are so many in a row."""
    named = {
        (int(match[1]), Fraction(match[2])): int(match[3])
        for word in text.split()
        if (match := _ONE.fullmatch(word)) is not None
    }
    return tuple(_joined(bar, named) if any(at[0] == bar.number for at in named) else bar for bar in bars)


def _joined(bar: Bar, named: dict[tuple[int, Fraction], int]) -> Bar:
    events: list[Event] = []
    place, index = Fraction(0), 0
    while index < len(bar.events):
        event = bar.events[index]
        row = bar.events[index : index + max(1, named.get((bar.number, place), 1))]
        if len(row) > 1 and all(one.pitch is None for one in row):
            event = replace(event, values=tuple(value for one in row for value in one.values))
        else:
            row = row[:1]
        events.append(event)
        place += event.quarters
        index += len(row)
    return replace(bar, events=tuple(events))
