"""The notes and rests of a score, one by one as they stand on the staff, before any notation language.

A note that lasts over several tied values is several score notes. All of them know which struck note they
belong to, counted as `phrase.model.sounding_notes` counts, so that marks, tests and links can name it.
"""

from __future__ import annotations

from fractions import Fraction
from typing import NamedTuple

from shedbook.engrave.notation.readable_rhythm import regrouped
from shedbook.phrase.model import Bar, Event, Phrase, Value
from shedbook.theory.pitch import Pitch


class ScoreNote(NamedTuple):
    """One written note or rest; a rest has no pitch.

    Attributes:
        value: the written note value.
        pitch: the written pitch, or None for a rest.
        id: its name in MEI and in the picture. "n3" is the fourth struck note, "n3t1" the first score note
            that is tied to it; a rest has "".
        struck: the index of the struck note it belongs to, -1 for a rest.
        part: 0 where the note is struck, then 1, 2 … for the score notes tied to it.
        tie_out: whether the next score note is tied to this one.
        over_bar: whether a tie leads to this one over the bar line.
        marks: its marks, of `phrase.model.MARKS`. Of several tied score notes the first has them, except that
            "fall" stands at the last one and "ghost" at every one.
        grace: the pitches of the grace notes before it.
        slurs_open: how many slurs begin here.
        slurs_close: how many slurs end here.
    """

    value: Value
    pitch: Pitch | None = None
    id: str = ""
    struck: int = -1
    part: int = 0
    tie_out: bool = False
    over_bar: bool = False
    marks: tuple[str, ...] = ()
    grace: tuple[Pitch, ...] = ()
    slurs_open: int = 0
    slurs_close: int = 0


class ScoreBar(NamedTuple):
    """The notes and rests of one bar.

    `number` counts from 1, a pick-up being bar 0. `first` is where the first note stands, in quarters from
    the beginning of a full bar: more than 0 in a pick-up only.
    """

    number: int
    first: Fraction
    notes: tuple[ScoreNote, ...]


_BAR_LINE = Fraction(0)


def score_bars(phrase: Phrase) -> tuple[ScoreBar, ...]:
    """Return every bar of a phrase with its notes and rests as they are written.

    Rests and syncopated notes are divided as `readable_rhythm.regrouped` divides them; the sound is the same.
    """
    struck, part = -1, 0
    found = []
    bars = [regrouped(bar, phrase.metre) for bar in phrase.bars]
    for index, bar in enumerate(bars):
        following = bars[index + 1] if index + 1 < len(bars) else None
        notes: list[ScoreNote] = []
        for place, event in enumerate(bar.events):
            tie_out = _next_is_tied(bar, place, following)
            if event.pitch is None:
                notes += [ScoreNote(value) for value in event.values]
                continue
            going_on = event.tie_in and struck >= 0
            struck, part = (struck, part + 1) if going_on else (struck + 1, 0)
            notes += _event_notes(event, struck, part, going_on, tie_out)
            part += len(event.values) - 1
        missing = phrase.metre.bar_quarters - bar.quarters if bar.number == 0 else _BAR_LINE
        found.append(ScoreBar(bar.number, missing, tuple(notes)))
    return tuple(found)


def _next_is_tied(bar: Bar, place: int, following: Bar | None) -> bool:
    """Say whether the event after the one at `place` is tied to it."""
    if place + 1 < len(bar.events):
        return bar.events[place + 1].tie_in
    return following is not None and bool(following.events) and following.events[0].tie_in


def _event_notes(event: Event, struck: int, part: int, going_on: bool, tie_out: bool) -> list[ScoreNote]:
    """Return a score note for each of the tied values of a note; `part` is the part of the first of them."""
    name = f"n{struck}t{part}" if part else f"n{struck}"
    if len(event.values) == 1:
        return [
            ScoreNote(
                event.values[0],
                event.pitch,
                name,
                struck,
                part,
                tie_out,
                going_on,
                event.marks,
                event.grace,
                event.slurs_open,
                event.slurs_close,
            )
        ]
    last = len(event.values) - 1
    notes = []
    for index, value in enumerate(event.values):
        first = index == 0
        notes.append(
            ScoreNote(
                value,
                event.pitch,
                name if first else f"n{struck}t{part + index}",
                struck,
                part + index,
                index < last or tie_out,
                first and going_on,
                _marks_of(event.marks, first, index == last),
                event.grace if first else (),
                event.slurs_open if first else 0,
                event.slurs_close if index == last else 0,
            )
        )
    return notes


def _marks_of(marks: tuple[str, ...], first: bool, last: bool) -> tuple[str, ...]:
    """Return the marks that one of several tied score notes bears."""
    return tuple(mark for mark in marks if mark == "ghost" or (last if mark == "fall" else first))
