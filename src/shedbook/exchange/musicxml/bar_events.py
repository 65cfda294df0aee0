"""The notes of one voice become the events of a bar: gaps are filled, tied notes joined, and values found."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import NamedTuple

from shedbook.exchange.ground.note_lengths import (
    TICKS_A_QUARTER,
    Ticks,
    fitting,
    in_quarters,
    ticks_of,
    values_for,
)
from shedbook.exchange.ground.report import OPEN_TIE, Reporter
from shedbook.exchange.musicxml.note_reader import RawNote
from shedbook.phrase.model import MARKS, Event, Value

_ROUNDED_TO = TICKS_A_QUARTER // 24
"""The unit to which a bar is rounded whose lengths no values make: it has thirty-seconds and triplets."""


class BarEvents(NamedTuple):
    """The events of a bar.

    Attributes:
        events: its notes and rests.
        tied_on: whether the last note is tied to the next bar.
        unwritten: whether the bar has a length that no written value makes.
    """

    events: tuple[Event, ...]
    tied_on: bool
    unwritten: bool


@dataclass(slots=True)
class _OpenEvent:
    """An event to which further notes may be tied.

    Attributes:
        raw: its first note.
        values: its values so far.
        slurs: the numbers of the slurs that begin on it.
        closes: how many slurs end on it.
    """

    raw: RawNote
    values: list[Value]
    slurs: list[int]
    closes: int = 0


def events_of(
    notes: Sequence[RawNote], length: Ticks, unit: Ticks, reporter: Reporter, bar: str
) -> BarEvents:
    """Return the events of a bar.

    Args:
        notes: the notes of one voice, in order.
        length: the length of the bar in ticks. A gap at its end is filled with a rest.
        unit: the unit of durations in the file, in ticks. Durations are rounded by less than a unit.
        reporter: told of lengths that cannot be written, and of notes that overlap.
        bar: the label of the bar.
    """
    read = _read(notes, length, unit, reporter, bar)
    if not read.unwritten:
        return read
    rounded = _read(_rounded(notes), _nearest(length), 1, Reporter(""), bar)
    if rounded.unwritten:
        return read
    return rounded


def _nearest(ticks: Ticks) -> Ticks:
    return round(Fraction(ticks) / _ROUNDED_TO) * _ROUNDED_TO


def _rounded(notes: Sequence[RawNote]) -> list[RawNote]:
    """Return notes that begin and end on plain fractions of a quarter; those that vanish are left out."""
    found = []
    for raw in notes:
        begin, end = _nearest(raw.onset), _nearest(raw.onset + raw.length)
        if begin < end:
            found.append(replace(raw, onset=begin, length=end - begin, value=None))
    return found


def _read(notes: Sequence[RawNote], length: Ticks, unit: Ticks, reporter: Reporter, bar: str) -> BarEvents:
    """Return the events of a bar as they stand; see `events_of`."""
    found: list[_OpenEvent] = []
    place: Ticks = 0
    slack: Ticks = 0
    unwritten = False
    for raw in notes:
        if raw.onset - place > slack:
            place, missing = _rest(found, raw.onset - place, place)
            unwritten = unwritten or _named(missing, reporter, bar)
        elif place - raw.onset > slack:
            reporter.note("notes that overlap others of their voice are left out", bar)
            continue
        values = fitting(raw.length, raw.value, unit)
        if values is None:
            unwritten = unwritten or _named(raw.length, reporter, bar)
            continue
        written = ticks_of(values)
        if written != raw.length:
            slack = unit
        _take(found, raw, values, reporter, bar)
        place += written
    if length - place > slack:
        _, missing = _rest(found, length - place, place)
        unwritten = unwritten or _named(missing, reporter, bar)
    tied_on = bool(found) and found[-1].raw.tied_on and found[-1].raw.pitch is not None
    return BarEvents(tuple([_event(one) for one in found]), tied_on, unwritten)


def _named(length: Ticks, reporter: Reporter, bar: str) -> bool:
    """Report a length in ticks that no value makes, 0 for none; return whether there is one."""
    if length:
        said = in_quarters(length)
        reporter.note(
            f"a length of {said} quarter notes has no written value: its bar is rounded to "
            "twenty-fourths of a quarter",
            bar,
        )
    return bool(length)


def _rest(found: list[_OpenEvent], length: Ticks, place: Ticks) -> tuple[Ticks, Ticks]:
    """Fill a gap with rests; return where it ends, and its length where no values make it, else 0."""
    values = values_for(in_quarters(length))
    if values is None:
        return place + length, length
    found += [_OpenEvent(RawNote(place, length), [value], []) for value in values]
    return place + length, 0


def _take(
    found: list[_OpenEvent], raw: RawNote, values: tuple[Value, ...], reporter: Reporter, bar: str
) -> None:
    """Add a note as an event, or join it to the event before where that is tied to the same pitch."""
    last = found[-1] if found else None
    goes_on = last is not None and last.raw.tied_on and _same(last.raw, raw)
    if last is not None and last.raw.tied_on and last.raw.pitch is not None and not goes_on:
        reporter.note(OPEN_TIE, bar)
    if raw.pitch is None:
        found += [_OpenEvent(raw, [value], []) for value in values]
    elif last is not None and goes_on:
        last.values += values
        last.raw = replace(last.raw, marks=last.raw.marks + raw.marks, tied_on=raw.tied_on)
        _slurs(last, raw, reporter, bar)
    else:
        one = _OpenEvent(raw, list(values), [])
        _slurs(one, raw, reporter, bar)
        found.append(one)


def _same(last: RawNote, raw: RawNote) -> bool:
    """Tell whether two notes can be tied: they have one pitch, and no grace note stands between them."""
    return (
        last.pitch is not None
        and raw.pitch is not None
        and last.pitch.midi == raw.pitch.midi
        and not raw.grace
    )


def _slurs(one: _OpenEvent, raw: RawNote, reporter: Reporter, bar: str) -> None:
    """Count the slurs of a note; a slur over one event alone is left out, because nothing of it is heard."""
    for level in raw.closes:
        if level in one.slurs:
            one.slurs.remove(level)
            reporter.note("slurs over a single note are left out", bar)
        else:
            one.closes += 1
    one.slurs += raw.opens


def _event(one: _OpenEvent) -> Event:
    """Return the finished event."""
    raw = one.raw
    if raw.pitch is None:
        return Event(None, tuple(one.values))
    marks = tuple([mark for mark in MARKS if mark in raw.marks]) if raw.marks else ()
    return Event(raw.pitch, tuple(one.values), False, marks, raw.grace, len(one.slurs), one.closes)
