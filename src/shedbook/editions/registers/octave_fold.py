"""Folds: from a natural place on, the rest of a phrase goes on an octave higher or lower.

A fold is made before a struck note, after a rest or at the widest leap. It is never made inside notes that
are heard as one figure, such as an enclosure with its target, or an arpeggio. The analysis says which notes
those are, and the caller hands them in.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from fractions import Fraction
from itertools import pairwise
from types import MappingProxyType

from shedbook.editions.tables.register_costs import FOLD_COSTS
from shedbook.editions.transpose import pitch_at, with_pitches
from shedbook.phrase.model import Bar, Event, Phrase, sounding_notes
from shedbook.theory.interval import OCTAVE
from shedbook.theory.pitch import Pitch

_COST = MappingProxyType({row.name: row.cost for row in FOLD_COSTS})
_SIXTH = 9
"""A major sixth in half steps."""


@dataclass(frozen=True, slots=True)
class Cut:
    """A place where a phrase may be folded.

    Attributes:
        note: the struck note before which the fold is made, an index as in `sounding_notes`.
        bar: the bar of that note.
        beat: its beat, from 1 in the metre's denominator.
        leap: the interval into that note as the author wrote it, in half steps, negative downwards.
        price: what a fold costs here, whether it goes up or down.
    """

    note: int
    bar: int
    beat: Fraction
    leap: int
    price: int

    def cost(self, semitones: int) -> int:
        """Return what a fold costs here; `semitones` is 12 for a fold up by an octave, -12 for one down."""
        return self.price + _COST["leap made"] * max(0, abs(self.leap + semitones) - _SIXTH)


def cuts_of(phrase: Phrase, held: Iterable[tuple[int, int]] = ()) -> tuple[Cut, ...]:
    """Return the places where a phrase may be folded, in order.

    Args:
        phrase: the phrase as its author wrote it.
        held: pairs (first, last) of struck notes, indexes as in `sounding_notes`. No fold is made between the
            first and the last of a pair.
    """
    notes = sounding_notes(phrase)
    shut = {index for first, last in held for index in range(first + 1, last + 1)}
    leaps = [after.pitch.midi - before.pitch.midi for before, after in pairwise(notes)]
    widest = max((abs(leap) for index, leap in enumerate(leaps, 1) if index not in shut), default=0)
    slurred = _slurred(phrase)
    found = []
    for index, leap in enumerate(leaps, 1):
        if index in shut:
            continue
        note = notes[index]
        rested = note.start > notes[index - 1].end
        if not rested and abs(leap) < widest:
            continue
        price = _COST["fold"]
        if not rested:
            price += _COST["away from a rest"]
        if index in slurred:
            price += _COST["inside a slur"]
        found.append(Cut(index, note.bar, note.beat, leap, price))
    return tuple(found)


def folded(phrase: Phrase, cut: Cut, octaves: int) -> Phrase:
    """Return the phrase with all notes from a cut on moved by octaves, down where `octaves` is negative."""
    start = sounding_notes(phrase)[cut.note].event
    steps, semitones = OCTAVE.steps * octaves, OCTAVE.semitones * octaves
    bars = []
    for bar_index, bar in enumerate(phrase.bars):
        events = [
            _moved(event, steps, semitones) if (bar_index, index) >= start else event
            for index, event in enumerate(bar.events)
        ]
        bars.append(Bar(bar.number, tuple(events)))
    return replace(phrase, bars=tuple(bars))


def _moved(event: Event, steps: int, semitones: int) -> Event:
    if event.pitch is None:
        return event

    def moved(pitch: Pitch) -> Pitch:
        return pitch_at(pitch.step + steps, pitch.midi + semitones)

    return with_pitches(event, moved(event.pitch), tuple(moved(pitch) for pitch in event.grace))


def _slurred(phrase: Phrase) -> frozenset[int]:
    """Return the struck notes that lie under one slur with the note before them."""
    found, depth, index = set(), 0, -1
    for bar in phrase.bars:
        for event in bar.events:
            if event.pitch is None:
                continue
            if not (event.tie_in and index >= 0):
                index += 1
                if depth:
                    found.add(index)
            depth = max(0, depth - event.slurs_close) + event.slurs_open
    return frozenset(found)
