"""The model of a phrase: written events in bars, over changes.

Lengths and places are quarter notes as fractions. Places count from the first beat of bar 1, so that a
pick-up, which is bar 0, lies before zero. Pitches are concert pitch. Every value is frozen: transposing gives
a new phrase.
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
    """A written note value.

    Attributes:
        part: 4 for a quarter, 8 for an eighth, and so on.
        dots: the number of dots.
        actual: in a tuplet, how many notes are played …
        normal: … in the time of how many: 3 and 2 in a triplet. Both are 1 outside tuplets.
    """

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
    """A note or a rest, as it is written in one bar.

    Attributes:
        pitch: the pitch, or None for a rest.
        values: its values, which are tied to one another.
        tie_in: whether the note goes on from the last note of the bar before. Such an event opens its bar,
            has the pitch of that note, and no marks and no grace notes.
        marks: its marks, of `MARKS`.
        grace: the pitches of the grace notes before it.
        slurs_open: how many slurs begin on the note.
        slurs_close: how many slurs end on the note, before others begin there.
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
        """The length in quarters, with all tied values of this bar."""
        return _tied_quarters(self.values)


@lru_cache(maxsize=1024)
def _tied_quarters(values: tuple[Value, ...]) -> Fraction:
    first, *tied = values
    return sum((value.quarters for value in tied), first.quarters)


@dataclass(frozen=True, slots=True)
class Bar:
    """The events of one bar, whose number counts from 1; a pick-up is bar 0."""

    number: int
    events: tuple[Event, ...]

    @property
    def quarters(self) -> Fraction:
        """The length of all that is written, in quarters."""
        return sum((event.quarters for event in self.events), Fraction(0))


@dataclass(frozen=True, slots=True)
class ChangeAt:
    """A chord and where it starts: the bar from 1, and the beat from 1 in the metre's denominator."""

    bar: int
    beat: Fraction
    chord: Chord


@dataclass(frozen=True, slots=True)
class Phrase:
    """A short melody over changes, in concert pitch and in its home key.

    Attributes:
        title: the title.
        key: the home key.
        metre: the metre of every bar.
        bars: the bars in order, a pick-up first as bar 0.
        changes: the changes in order.
        scales: for each change the scale that the author names, or None where the program chooses.
        tempo_bpm: beats a minute, counting the beat that players tap: the quarter; the dotted quarter in 6/8,
            9/8 and 12/8; the half in metres over 2.
        feel: the name of a row of `tables.feels`.
        commentary: the author's own words.
        id: a name of its own that keeps printed numbers stable, or "".
        key_inferred: whether the author named no key.
        silence: (rule, reason) for each rule of the proof-reader that the author has silenced.
        fold: whether an edition may set part of the line an octave higher or lower where no octave serves;
            None where the author does not say.
        sentences: (computed sentence, the author's own) for each sentence of the explanation that has been
            written anew, both in concert pitch.
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
    sentences: tuple[tuple[str, str], ...] = ()

    @property
    def full_bars(self) -> int:
        """The number of bars without the pick-up, which is that of the changes."""
        return sum(1 for bar in self.bars if bar.number > 0)

    def bar_start(self, number: int) -> Fraction:
        """Return where a bar starts, in quarters from bar 1; a pick-up (0) starts before zero."""
        if number == 0:
            return -self.bars[0].quarters
        return quarters((number - 1) * 4 * self.metre.beats, self.metre.unit)

    def change_start(self, change: ChangeAt) -> Fraction:
        """Return where a chord starts, in quarters from bar 1."""
        start = self.bar_start(change.bar)
        return start if change.beat == 1 else start + (change.beat - 1) * self.metre.beat_quarters

    def change_index_at(self, place: Fraction) -> int:
        """Return the index of the change that holds at a place in quarters; the first one for a pick-up."""
        return max(0, bisect_right(self.changes, place, key=self.change_start) - 1)


@dataclass(frozen=True, slots=True)
class Sounding:
    """A note as it is heard, with tied events joined.

    Attributes:
        pitch: the pitch.
        start: where it is struck, in quarters from bar 1.
        quarters: how long it sounds, in quarters.
        bar: the bar in which it is struck.
        beat: the beat on which it is struck, from 1 in the metre's denominator.
        event: the event that strikes it, as (index in `Phrase.bars`, index in `Bar.events`).
        marks: its marks.
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
    """A note as it is heard, with its start and its length in ticks."""

    note: Sounding
    start: int
    length: int


def sounding_notes(phrase: Phrase) -> tuple[Sounding, ...]:
    """Return the notes of a phrase as they are heard, in order, without rests and grace notes.

    "Struck note 3" anywhere in this program means the note of this index here.
    """
    return tuple(timed.note for timed in timed_notes(phrase)[1])


def timed_notes(phrase: Phrase) -> tuple[int, list[Timed]]:
    """Return how many ticks make a quarter, and the notes of a phrase as they are heard, placed in ticks.

    Ticks are as fine as the events need. They are whole numbers, which are much quicker than fractions.
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
        bar_start = (bar.number - 1) * full_bar  # a pick-up is the end of a whole bar 0
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
    """Return a note that is longer by what a tie adds, in quarters and in ticks."""
    note = replace(timed.note, quarters=timed.note.quarters + quarters)
    return Timed(note, timed.start, timed.length + ticks)
