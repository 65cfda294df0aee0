"""From the notes of one voice to the events of a bar: gaps filled, tied notes joined, values found."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from shedbook.exchange.lengths import Ticks, fitting, in_quarters, ticks_of, values_for
from shedbook.exchange.note_in import RawNote
from shedbook.exchange.report import Reporter
from shedbook.phrase.model import MARKS, Event, Value


@dataclass(slots=True)
class Open:
    """An event while heads are still tied to it; `slurs` are the numbers that begin on it."""

    raw: RawNote
    values: list[Value]
    slurs: list[int]
    closes: int = 0


def events_of(
    notes: Sequence[RawNote], length: Ticks, unit: Ticks, reporter: Reporter, bar: str
) -> tuple[tuple[Event, ...], bool]:
    """Return the events of a bar, and whether the last note is tied on.

    Args:
        notes: the notes of one voice, in order.
        length: how long the bar is, in ticks; a gap at its end is filled with a rest.
        unit: the unit in which the file counts, in ticks: rounding is smaller than that.
        reporter: told of lengths that cannot be written.
        bar: what the file calls the bar.
    """
    found: list[Open] = []
    place: Ticks = 0
    slack: Ticks = 0
    for raw in notes:
        if raw.onset != place:
            if raw.onset - place > slack:
                place = _rest(found, raw.onset - place, place, reporter, bar)
            elif place - raw.onset > slack:
                reporter.note("notes that overlap others of their voice are left out", bar)
                continue
        values = fitting(raw.length, raw.value, unit)
        if values is None:
            _odd(reporter, bar, raw.length)
            continue
        written = ticks_of(values)
        if written != raw.length:
            slack = unit
        _take(found, raw, values, reporter, bar)
        place += written
    if length - place > slack:
        _rest(found, length - place, place, reporter, bar)
    tied_on = bool(found) and found[-1].raw.tied_on and found[-1].raw.pitch is not None
    return tuple([_event(one) for one in found]), tied_on


def _odd(reporter: Reporter, bar: str, length: Ticks) -> None:
    reporter.note(
        f"a length of {in_quarters(length)} quarter notes has no written value and is left out as a rest", bar
    )


def _rest(found: list[Open], length: Ticks, place: Ticks, reporter: Reporter, bar: str) -> Ticks:
    """Fill a gap with a rest; return where it ends."""
    values = values_for(in_quarters(length))
    if values is None:
        reporter.note(
            f"a gap of {in_quarters(length)} quarter notes has no written value and is left out", bar
        )
        return place
    for value in values:
        found.append(Open(RawNote(place, length), [value], []))
    return place + length


def _take(found: list[Open], raw: RawNote, values: tuple[Value, ...], reporter: Reporter, bar: str) -> None:
    """Add a note, or tie it to the one before where that is tied on to the same pitch."""
    last = found[-1] if found else None
    if raw.pitch is None:
        found += [Open(raw, [value], []) for value in values]
    elif last is not None and last.raw.tied_on and _same(last.raw, raw):
        last.values += values
        last.raw.marks += raw.marks
        last.raw.tied_on = raw.tied_on
        _slurs(last, raw, reporter, bar)
    else:
        one = Open(raw, list(values), [])
        _slurs(one, raw, reporter, bar)
        found.append(one)


def _same(last: RawNote, raw: RawNote) -> bool:
    return (
        last.pitch is not None
        and raw.pitch is not None
        and last.pitch.midi == raw.pitch.midi
        and not raw.grace
    )


def _slurs(one: Open, raw: RawNote, reporter: Reporter, bar: str) -> None:
    """Count the slurs of one head; a slur within one sounding note says nothing that is heard."""
    for level in raw.closes:
        if level in one.slurs:
            one.slurs.remove(level)
            reporter.note("slurs over a single note are left out", bar)
        else:
            one.closes += 1
    one.slurs += raw.opens


def _event(one: Open) -> Event:
    raw = one.raw
    if raw.pitch is None:
        return Event(None, tuple(one.values))
    marks = tuple([mark for mark in MARKS if mark in raw.marks]) if raw.marks else ()
    return Event(raw.pitch, tuple(one.values), False, marks, raw.grace, len(one.slurs), one.closes)
