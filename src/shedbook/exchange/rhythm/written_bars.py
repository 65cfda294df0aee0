"""The bars of a written line: notes in the values that a reader expects, rests between them, and chords."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from shedbook.exchange.ground.long_line import REHEARSAL, BarContext, LineBar
from shedbook.exchange.ground.report import Reporter
from shedbook.exchange.ground.written_values import note_values, rest_values
from shedbook.exchange.rhythm.quantise import Rhythm, WrittenNote
from shedbook.phrase.model import Event
from shedbook.theory.chord import Chord
from shedbook.theory.metre import Metre
from shedbook.theory.pitch import Pitch, spellings

_ZERO = Fraction(0)
_FINEST = 12
"""A chord that stands on no twelfth of a quarter is moved to the nearest one."""
MOST_EMPTY = 4
"""How many bars of rest before the line, and how many after it, are kept where the file has chords there."""


@dataclass(frozen=True, slots=True)
class ChordOrHeading:
    """A chord over the line, or the heading of a part of it (then `chord` is None).

    `start` is its place in quarters from the bar line at time 0.
    """

    start: Fraction
    chord: Chord | None
    heading: str = ""


def line_bars(
    rhythm: Rhythm,
    context: BarContext,
    places: Sequence[ChordOrHeading],
    end: Fraction,
    label: int,
    reporter: Reporter,
) -> list[LineBar]:
    """Return the bars of a written line.

    The first is the bar of the first note or, where chords come before it, of the first chord. It is short
    where the line begins with a pick-up. The last is the bar of the last note or chord, or the bar at whose
    end the file ends.

    Args:
        rhythm: the line, in quarters from the bar line at time 0.
        context: metre, key signature, tempo and feel of all bars.
        places: chords and headings in order.
        end: where the file ends, in quarters from that bar line; 0 where the end means nothing.
        label: the number of the first bar.
        reporter: told of notes and rests that cannot be written.
    """
    if not rhythm.notes:
        return []
    metre = context.metre
    chords = [place for place in places if place.chord is not None]
    first, last = outer_bars(rhythm.notes, chords, end, metre)
    pickup = _has_pickup(rhythm.notes[0].start, first, chords, metre)
    found: list[LineBar] = []
    at = 0
    for number, bar_label in enumerate(map(str, range(label, label + last + 1 - first)), first):
        while at < len(rhythm.notes) and rhythm.notes[at].end <= number * metre.bar_quarters:
            at += 1
        begin = _ZERO
        if pickup and number == first:
            begin = rhythm.notes[0].start - number * metre.bar_quarters
        events, tie_out = _events(rhythm.notes, at, number, begin, metre, reporter, bar_label)
        headings = _inside(places, number, metre, chords=False)
        found.append(
            LineBar(
                bar_label,
                context,
                events,
                _chords(chords, number, metre),
                tie_out,
                frozenset({REHEARSAL}) if headings and found else frozenset(),
                headings[0].heading if headings else "",
                short=pickup and number == first,
            )
        )
    return found


def _chords(
    chords: Sequence[ChordOrHeading], number: int, metre: Metre
) -> tuple[tuple[Fraction, Chord], ...]:
    """Return the chords of the bar with an index, each with its place in quarters from the bar line."""
    return tuple(
        (_beat(place, number, metre), place.chord)
        for place in _inside(chords, number, metre, chords=True)
        if place.chord is not None
    )


def outer_bars(
    notes: Sequence[WrittenNote], chords: Sequence[ChordOrHeading], end: Fraction, metre: Metre
) -> tuple[int, int]:
    """Return the first and the last bar of a line and its chords.

    Args:
        notes: the notes of the line, at least one.
        chords: its chords in order.
        end: where the file ends, in quarters from the bar line at time 0.
        metre: the metre of all bars.

    Returns:
        The indices of the two bars; 0 is the bar that begins at time 0.
    """
    bar = metre.bar_quarters
    first = int(notes[0].start // bar)
    last = int(-(-notes[-1].end // bar)) - 1
    if chords:
        first = min(first, max(int(chords[0].start // bar), first - MOST_EMPTY))
        last = max(last, min(int(chords[-1].start // bar), last + MOST_EMPTY))
        if end % bar == 0 and last < end // bar <= last + 1 + MOST_EMPTY:
            last = int(end // bar) - 1
    return max(0, first), max(first, last)


def _has_pickup(start: Fraction, first: int, chords: Sequence[ChordOrHeading], metre: Metre) -> bool:
    """Tell whether the first bar is a pick-up: it begins with silence and has no chord.

    Where the whole line has no chords, the silence must reach at least to the middle of the bar.
    """
    bar = metre.bar_quarters
    silent = start - first * bar
    if silent <= 0:
        return False
    over = [place for place in chords if first * bar <= place.start < (first + 1) * bar]
    return not over and (bool(chords) or 2 * silent >= bar)


def _inside(
    places: Sequence[ChordOrHeading], number: int, metre: Metre, *, chords: bool
) -> list[ChordOrHeading]:
    """Return the chords, or else the headings, of the bar with an index."""
    begin = bisect_left(places, number * metre.bar_quarters, key=lambda place: place.start)
    found = []
    for place in places[begin:]:
        if place.start >= (number + 1) * metre.bar_quarters:
            break
        if (place.chord is not None) == chords:
            found.append(place)
    return found


def _beat(place: ChordOrHeading, number: int, metre: Metre) -> Fraction:
    """Return where a chord stands, in quarters from the beginning of its bar."""
    inside = place.start - number * metre.bar_quarters
    if _FINEST % inside.denominator:
        inside = Fraction(round(inside * _FINEST), _FINEST)
    return min(inside, metre.bar_quarters - Fraction(1, _FINEST))


def _events(
    notes: Sequence[WrittenNote],
    at: int,
    number: int,
    begin: Fraction,
    metre: Metre,
    reporter: Reporter,
    label: str,
) -> tuple[tuple[Event, ...], bool]:
    """Return the events of a bar, and whether its last note is tied to the next bar.

    Args:
        notes: the notes of the line.
        at: the index of the first note that reaches into the bar.
        number: the index of the bar.
        begin: where the events begin, in quarters from the beginning of the bar.
        metre: the metre.
        reporter: told of notes and rests that cannot be written.
        label: the number of the bar, for the report.
    """
    start, full = number * metre.bar_quarters, metre.bar_quarters
    found: list[Event] = []
    place = begin
    tie_out = False
    while at < len(notes) and notes[at].start < start + full:
        note = notes[at]
        at += 1
        head, tail = max(note.start - start, _ZERO), min(note.end - start, full)
        values = note_values(head, tail, metre)
        if values is None:
            reporter.note("notes of a length that cannot be written are left out", label)
            continue
        if head > place:
            found += _rests(place, head, metre, reporter, label)
        struck = note.start >= start
        grace = tuple(_plain(midi) for midi in note.grace) if struck else ()
        found.append(Event(_plain(note.midi), values, marks=note.marks if struck else (), grace=grace))
        place, tie_out = tail, note.end > start + full
    if place < full:
        found += _rests(place, full, metre, reporter, label)
    return tuple(found), tie_out


def _rests(start: Fraction, end: Fraction, metre: Metre, reporter: Reporter, label: str) -> list[Event]:
    """Return the rests between two places of a bar, in quarters from its beginning."""
    values = rest_values(start, end, metre)
    if values is None:
        reporter.note("rests of a length that cannot be written are left out", label)
        return []
    return [Event(None, (value,)) for value in values]


def _plain(midi: int) -> Pitch:
    """Return a MIDI number by its plainest name."""
    return spellings(midi)[0]
