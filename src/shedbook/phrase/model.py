"""The model of a phrase: written events in bars, over changes.

Conventions: lengths and places are quarter notes as fractions, counted from the first beat of bar 1
(a pick-up, bar 0, lies before zero). Pitches are concert pitch. Everything is frozen; transposing
gives a new phrase.
"""

from __future__ import annotations

from bisect import bisect_right
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import lru_cache
from math import lcm
from typing import NamedTuple

from shedbook.theory.chord import Chord
from shedbook.theory.key import Key
from shedbook.theory.metre import Metre, quarters, whole_ticks
from shedbook.theory.pitch import Pitch
from shedbook.theory.scale import Scale

MARKS = ("accent", "staccato", "tenuto", "ghost", "fall", "scoop")
"""The marks a note may carry, in the order in which they are printed."""


@dataclass(frozen=True, slots=True)
class Value:
    """A written note value: 1/`part` with `dots`, one of `actual` notes in the time of `normal`."""

    part: int
    dots: int = 0
    actual: int = 1
    normal: int = 1

    @property
    def quarters(self) -> Fraction:
        """The length in quarter notes."""
        return _value_quarters(self.part, self.dots, self.actual, self.normal)


@lru_cache(maxsize=256)
def _value_quarters(part: int, dots: int, actual: int, normal: int) -> Fraction:
    halves = 2**dots  # a dot adds half of what stands before it: 2 - 1/halves in all
    return Fraction(4 * normal * (2 * halves - 1), part * actual * halves)


@dataclass(frozen=True, slots=True)
class Event:
    """A note, or a rest (`pitch` is None), as written in one bar.

    `values` are tied to one another; `tie_in` says that the event goes on from the last note of the
    bar before: it opens its bar, has that note's pitch, and carries no marks and no grace notes.
    `slurs_open` and `slurs_close` count the slurs that begin and end on the note; a note ends slurs
    before it begins others.
    """

    pitch: Pitch | None
    values: tuple[Value, ...]
    tie_in: bool = False
    marks: tuple[str, ...] = ()
    grace: tuple[Pitch, ...] = ()
    slurs_open: int = 0
    slurs_close: int = 0

    @property
    def quarters(self) -> Fraction:
        """The length in quarter notes, ties within the bar included."""
        return _tied_quarters(self.values)


@lru_cache(maxsize=1024)
def _tied_quarters(values: tuple[Value, ...]) -> Fraction:
    first, *tied = values
    return sum((value.quarters for value in tied), first.quarters)


@dataclass(frozen=True, slots=True)
class Bar:
    """The events of one bar; a pick-up is bar 0."""

    number: int
    events: tuple[Event, ...]

    @property
    def quarters(self) -> Fraction:
        """The length of what is written, in quarter notes."""
        return sum((event.quarters for event in self.events), Fraction(0))


@dataclass(frozen=True, slots=True)
class ChangeAt:
    """A chord and where it starts: bar from 1, beat from 1 in the metre's denominator."""

    bar: int
    beat: Fraction
    chord: Chord


@dataclass(frozen=True, slots=True)
class Phrase:
    """A short melody over changes, in concert pitch, in a home key.

    `bars` holds the pick-up, if any, as bar 0. `scales` goes with `changes`, one to one; None means
    that the program chooses. `tempo_bpm` counts the beat that players tap: the quarter, the dotted
    quarter in 6/8, 9/8 and 12/8, the half in metres over 2. `key_inferred` says that the author named no key.
    `silence` holds pairs of a proof-reading rule and the author's reason for silencing it. `fold` says if
    an edition may set part of the line an octave off where no octave serves; None where it is not said.
    """

    title: str
    key: Key
    metre: Metre
    bars: tuple[Bar, ...]
    changes: tuple[ChangeAt, ...]
    scales: tuple[Scale | None, ...]
    tempo_bpm: int = 120
    feel: str = "swing"
    commentary: str = ""
    id: str = ""
    key_inferred: bool = False
    silence: tuple[tuple[str, str], ...] = ()
    fold: bool | None = None

    @property
    def full_bars(self) -> int:
        """How many bars the changes have; a pick-up is not counted."""
        return sum(1 for bar in self.bars if bar.number > 0)

    def bar_start(self, number: int) -> Fraction:
        """Return where a bar starts, in quarters from bar 1; a pick-up starts before zero."""
        if number == 0:
            return -self.bars[0].quarters
        return quarters((number - 1) * 4 * self.metre.beats, self.metre.unit)

    def change_start(self, change: ChangeAt) -> Fraction:
        """Return where a chord starts, in quarters from bar 1."""
        start = self.bar_start(change.bar)
        return start if change.beat == 1 else start + (change.beat - 1) * self.metre.beat_quarters

    def change_index_at(self, place: Fraction) -> int:
        """Return the index of the change that sounds at a place; a pick-up hears the first."""
        return max(0, bisect_right(self.changes, place, key=self.change_start) - 1)


@dataclass(frozen=True, slots=True)
class Sounding:
    """A note as heard: tied events joined.

    `start` and `quarters` are in quarter notes; `bar` and `beat` say where it is struck;
    `event` is (index in `Phrase.bars`, index in `Bar.events`) of the event that strikes it.
    """

    pitch: Pitch
    start: Fraction
    quarters: Fraction
    bar: int
    beat: Fraction
    event: tuple[int, int]
    marks: tuple[str, ...] = ()

    @property
    def end(self) -> Fraction:
        """Where the note stops, in quarters from bar 1."""
        return self.start + self.quarters


class Timed(NamedTuple):
    """A sounding note with its place and length in ticks."""

    note: Sounding
    start: int
    length: int


def sounding_notes(phrase: Phrase) -> tuple[Sounding, ...]:
    """Return the notes of a phrase as heard, in order; rests and grace notes are left out."""
    return tuple(timed.note for timed in timed_notes(phrase)[1])


def timed_notes(phrase: Phrase) -> tuple[int, list[Timed]]:
    """Return the notes of a phrase as heard, with places in ticks, after how many make a quarter.

    Ticks are whole numbers: as fine as the events need, and much quicker to reckon with than fractions.
    """
    lengths = [[event.quarters for event in bar.events] for bar in phrase.bars]
    metre = phrase.metre
    denominators = {length.denominator for row in lengths for length in row}
    grain = lcm(metre.beat_quarters.denominator, *denominators)
    full_bar = whole_ticks(metre.bar_quarters, grain)
    beat = whole_ticks(metre.beat_quarters, grain)
    found: list[Timed] = []
    for bar_index, (bar, row) in enumerate(zip(phrase.bars, lengths, strict=True)):
        ticks = [whole_ticks(length, grain) for length in row]
        bar_start = (bar.number - 1) * full_bar  # of a whole bar 0, of which a pick-up is the end
        place = bar_start if bar.number else -sum(ticks)
        for index, (event, length, tick) in enumerate(zip(bar.events, row, ticks, strict=True)):
            if event.pitch is None:
                pass
            elif event.tie_in and found:
                found[-1] = _lengthened(found[-1], length, tick)
            else:
                start, on_beat = quarters(place, grain), quarters(place - bar_start + beat, beat)
                where = (bar_index, index)
                note = Sounding(event.pitch, start, length, bar.number, on_beat, where, event.marks)
                found.append(Timed(note, place, tick))
            place += tick
    return grain, found


def _lengthened(timed: Timed, quarters: Fraction, ticks: int) -> Timed:
    """Return a note with the length that a tie adds."""
    note = replace(timed.note, quarters=timed.note.quarters + quarters)
    return Timed(note, timed.start, timed.length + ticks)
