"""A rhythm and its pitches written as bars: values that a player reads at sight."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import lru_cache
from itertools import pairwise

from shedbook.draft.ground import TICKS
from shedbook.draft.rhythms import Rhythm
from shedbook.phrase.model import Bar, Event, Phrase, Value, sounding_notes
from shedbook.theory.metre import Metre
from shedbook.theory.pitch import Pitch, spellings

_PLAIN = {
    48: Value(1), 36: Value(2, 1), 24: Value(2), 18: Value(4, 1), 12: Value(4), 9: Value(8, 1), 6: Value(8),
    3: Value(16), 72: Value(1, 1),
}  # fmt: skip
_SYNCOPATED = {(18, 12), (18, 18), (12, 18), (12, 24)}
"""Notes over the middle of four quarters that are written whole: their place and their length in ticks."""
_TRIPLET = {4: Value(8, 0, 3, 2), 8: Value(4, 0, 3, 2), 2: Value(16, 0, 3, 2)}


def bars_of(rhythm: Rhythm, midi: Sequence[int], metre: Metre, bars: int) -> tuple[Bar, ...]:
    """Return a line as bars; names of notes are any, for they are chosen afterwards.

    Args:
        rhythm: where the notes are.
        midi: their MIDI numbers.
        metre: the metre.
        bars: how many bars there are, a pick-up not counted.
    """
    bar_ticks = int(metre.bar_quarters * TICKS)
    start = -_pickup_ticks(rhythm)
    pieces = list(_pieces(rhythm, midi, start, bars * bar_ticks))
    edges = ([start] if start else []) + [number * bar_ticks for number in range(bars + 1)]
    found = []
    for number, (first, last) in enumerate(pairwise(edges), start=0 if start else 1):
        events = tuple(_events(pieces, first, last, (number - 1) * bar_ticks, metre))
        found.append(Bar(number, events))
    return tuple(found)


def _pickup_ticks(rhythm: Rhythm) -> int:
    """Return how long the pick-up is written: from its first note on, but triplets from their beat."""
    first = rhythm.onsets[0]
    if first >= 0:
        return 0
    inside = [onset for onset in rhythm.onsets if onset < 0]
    return TICKS if any(onset % 3 for onset in inside) else -first


def _pieces(
    rhythm: Rhythm, midi: Sequence[int], start: int, end: int
) -> Iterator[tuple[int, int, Pitch | None]]:
    """Yield notes and rests as (start, end, pitch), without a gap."""
    at = start
    for onset, stop, note in zip(rhythm.onsets, rhythm.ends, midi, strict=True):
        if onset > at:
            yield at, onset, None
        yield onset, min(stop, end), spellings(note)[0]
        at = min(stop, end)
    if at < end:
        yield at, end, None


def _events(
    pieces: Sequence[tuple[int, int, Pitch | None]], first: int, last: int, bar_start: int, metre: Metre
) -> Iterator[Event]:
    """Yield the events of one bar; a rest is an event for each of its values."""
    for start, stop, pitch in pieces:
        here, there = max(start, first), min(stop, last)
        if here >= there:
            continue
        values = values_of(here - bar_start, there - bar_start, metre, rest=pitch is None)
        if pitch is None:
            yield from (Event(None, (value,)) for value in values)
        else:
            yield Event(pitch, values, tie_in=start < first)


@lru_cache(maxsize=4096)
def values_of(start: int, end: int, metre: Metre, *, rest: bool = False) -> tuple[Value, ...]:
    """Return the values of a note from `start` to `end`, in ticks from the bar line.

    A value never hides the middle of a bar, unless it begins the bar; but a quarter to a half of a
    syncopation stands whole there, as swing is written. Rests show every beat that they do not begin [common
    practice].

    Raises:
        ValueError: if it cannot be written.
    """
    found: list[Value] = []
    at = start
    while at < end:
        found.append(_longest(at, end, metre, rest=rest))
        at += int(found[-1].quarters * TICKS)
    return tuple(found)


def _longest(at: int, end: int, metre: Metre, *, rest: bool) -> Value:
    beat = at // TICKS * TICKS
    length = end - at
    if at % 3 or (end < beat + TICKS and end % 3):
        fits = [one for one in _TRIPLET if one <= min(end, beat + TICKS) - at]
        if not fits:
            raise ValueError(f"a note from {at} to {end} cannot be written")
        return _TRIPLET[max(fits)]
    limit = end if end % 3 == 0 else end // TICKS * TICKS
    for size in sorted(_PLAIN, reverse=True):
        if size == length and not rest and metre.beats == 4 and (at, size) in _SYNCOPATED:
            return _PLAIN[size]
        if size <= min(length, limit - at) and not _hides(at, size, metre, rest=rest):
            return _PLAIN[size]
    raise ValueError(f"a note from {at} to {end} cannot be written")


def _hides(at: int, size: int, metre: Metre, *, rest: bool) -> bool:
    """Whether a value of `size` ticks at a place hides a beat that must be seen."""
    strong = [int((beat - 1) * metre.beat_quarters * TICKS) for beat in metre.strong_beats]
    crossed = [edge for edge in strong if at < edge < at + size]
    if crossed and at not in strong:
        return True
    if crossed and size not in (24, 36, 48, 72):
        return True
    if rest and (at % TICKS and at // TICKS != (at + size - 1) // TICKS):
        return True
    if rest and size % TICKS and size > TICKS:
        return True
    return at % 6 != 0 and at // TICKS != (at + size - 1) // TICKS


def rhythm_of(phrase: Phrase) -> Rhythm:
    """Return the rhythm of a phrase in ticks; values finer than a tick are rounded to it."""
    notes = sounding_notes(phrase)
    return Rhythm(
        tuple(round(note.start * TICKS) for note in notes),
        tuple(round(note.end * TICKS) for note in notes),
        (),
    )


def midi_of(phrase: Phrase) -> tuple[int, ...]:
    """Return the MIDI numbers of the struck notes of a phrase."""
    return tuple(note.pitch.midi for note in sounding_notes(phrase))
