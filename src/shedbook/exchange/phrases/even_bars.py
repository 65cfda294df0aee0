"""Bars of any length made as long as their metre says.

The two parts of a bar that a repeat sign divides are joined. A short bar is filled with a rest, and a long
bar is divided. Only a first bar may stay short: it is a pick-up.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction

from shedbook.exchange.ground.long_line import LineBar
from shedbook.exchange.ground.note_lengths import values_for
from shedbook.exchange.ground.report import Reporter
from shedbook.phrase.model import Event
from shedbook.theory.metre import Metre


def even_bars(bars: Sequence[LineBar], metre: Metre, reporter: Reporter) -> list[LineBar] | None:
    """Return bars that are as long as the metre says; only the first may be shorter, as a pick-up.

    Args:
        bars: the bars of one phrase, all in one metre.
        metre: the metre of the phrase.
        reporter: told of bars that are filled or divided, and of those that cannot be.

    Returns:
        The bars; None where no written values fill or divide one of them.
    """
    if any(bar.unwritten for bar in bars):
        return None  # the reader of the file has made a remark
    full = metre.bar_quarters
    found: list[LineBar] = []
    waiting = list(reversed(_divided(bars, full, reporter)))
    while waiting:
        bar = waiting.pop()
        length = bar.quarters
        joins = bool(waiting) and not bar.short and _joins(bar, waiting[-1], full)
        if length == full or (not found and 0 < length < full and waiting and not joins):
            found.append(bar)
        elif joins:
            found.append(_joined(bar, waiting.pop()))
        elif length < full:
            filled = _filled(bar, full - length, reporter)
            if filled is None:
                return None
            found.append(filled)
        else:
            reporter.note(f"a bar longer than {metre} cannot be divided; its phrase is left out", bar.label)
            return None
    return found


def with_full_pickup(bars: list[LineBar], metre: Metre, reporter: Reporter) -> list[LineBar]:
    """Return bars whose pick-up is a full bar where it has a chord of its own, for a pick-up can have none.

    A chord over a pick-up that sounds on in the first full bar needs no place of its own.

    Args:
        bars: bars from `even_bars`.
        metre: the metre of the phrase.
        reporter: told of a pick-up that was filled up.
    """
    missing = metre.bar_quarters - bars[0].quarters
    if len(bars) < 2 or missing <= 0 or not bars[0].chords:
        return bars
    after = [chord for place, chord in bars[1].chords if place == 0]
    if len(bars[0].chords) == 1 and after in ([], [bars[0].chords[0][1]]):
        return bars
    values = values_for(missing)
    if values is None:
        return bars
    reporter.note("a pick-up with chords of its own is filled up with a rest before it", bars[0].label)
    rests = tuple(Event(None, (value,)) for value in values)
    chords = tuple((place + missing, chord) for place, chord in bars[0].chords)
    return [replace(bars[0], events=rests + bars[0].events, chords=chords), *bars[1:]]


def _joins(bar: LineBar, other: LineBar, full: Fraction) -> bool:
    """Tell whether two short bars together make one full bar."""
    return bool(bar.quarters and other.quarters) and bar.quarters + other.quarters == full


def _joined(bar: LineBar, other: LineBar) -> LineBar:
    """Join two parts of a bar. A note that is tied from the one to the other becomes one event."""
    length = bar.quarters
    events = list(other.events)
    head = list(bar.events)
    if (
        bar.tie_out
        and head[-1].pitch is not None
        and events[0].pitch == head[-1].pitch
        and not events[0].grace
    ):
        first = events.pop(0)
        last = head[-1]
        head[-1] = replace(
            last,
            values=last.values + first.values,
            slurs_open=last.slurs_open + first.slurs_open,
            slurs_close=last.slurs_close + first.slurs_close,
        )
    chords = tuple((place + length, chord) for place, chord in other.chords)
    return replace(bar, events=(*head, *events), chords=bar.chords + chords, tie_out=other.tie_out)


def _filled(bar: LineBar, missing: Fraction, reporter: Reporter) -> LineBar | None:
    """Return a short bar with a rest at its end; None where no values make that rest."""
    values = values_for(missing)
    if values is None:
        reporter.note("a bar does not come out even in written values; its phrase is left out", bar.label)
        return None
    if bar.events:
        reporter.note("short bars are filled with a rest", bar.label)
    rests = tuple(Event(None, (value,)) for value in values)
    return replace(bar, events=bar.events + rests, tie_out=False)


def _divided(bars: Sequence[LineBar], full: Fraction, reporter: Reporter) -> list[LineBar]:
    """Divide the bars that are longer than the metre says, where written values allow it."""
    found: list[LineBar] = []
    for bar in bars:
        if bar.quarters <= full:
            found.append(bar)
            continue
        reporter.note("bars longer than their metre are divided", bar.label)
        found += _cut(bar, full)
    return found


def _cut(bar: LineBar, full: Fraction) -> list[LineBar]:
    """Cut a long bar into full bars and a shorter remainder. A note over a cut is tied.

    A bar in which a note cannot be cut comes back whole.
    """
    pieces: list[LineBar] = []
    events: list[Event] = []
    place = Fraction(0)
    for event in bar.events:
        left = event
        while place + left.quarters > full:
            cut = _cut_event(left, full - place)
            if cut is None:
                return [bar]
            head, left = cut
            events.append(head)
            pieces.append(_piece(bar, len(pieces), full, events, tied=left.pitch is not None))
            events, place = [], Fraction(0)
        events.append(left)
        place += left.quarters
        if place == full:
            pieces.append(_piece(bar, len(pieces), full, events, tied=False))
            events, place = [], Fraction(0)
    if events:
        pieces.append(_piece(bar, len(pieces), full, events, tied=False))
    pieces[-1] = replace(pieces[-1], tie_out=bar.tie_out)
    return pieces


def _piece(bar: LineBar, index: int, full: Fraction, events: list[Event], *, tied: bool) -> LineBar:
    """Return a part of a long bar with its events and chords; `index` counts the parts from 0."""
    start = index * full
    chords = tuple((place - start, chord) for place, chord in bar.chords if start <= place < start + full)
    breaks = bar.breaks if index == 0 else frozenset()
    return replace(bar, events=tuple(events), chords=chords, tie_out=tied, breaks=breaks)


def _cut_event(event: Event, at: Fraction) -> tuple[Event, Event] | None:
    """Cut an event in two; its marks and grace notes stay with the first part. None where no values fit."""
    head, tail = values_for(at), values_for(event.quarters - at)
    if head is None or tail is None:
        return None
    return (
        replace(event, values=head, slurs_close=0),
        replace(event, values=tail, marks=(), grace=(), slurs_open=0),
    )
