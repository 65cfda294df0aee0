"""The written heads of a phrase: what stands on the staff, one by one, before any notation language.

Tied values are heads of their own. `note` counts struck notes as `phrase.model.sounding_notes` does, so
that marks, tests and links name a head by its note.
"""

from __future__ import annotations

from fractions import Fraction
from typing import NamedTuple

from shedbook.engrave.notation.readable_rhythm import regrouped
from shedbook.phrase.model import Bar, Event, Phrase, Value
from shedbook.theory.pitch import Pitch


class ScoreNote(NamedTuple):
    """One written note or rest.

    `id` is its name in MEI and in the picture: "n3" for the note struck third after the first, "n3t1"
    for the first head tied to it. `note` is the index of the struck note, `part` counts the heads tied to
    it from 0. `tie_out` says that the next head is tied to this one. Marks stand on the struck head;
    "fall" on the last, "ghost" on all.
    """

    value: Value
    pitch: Pitch | None = None
    id: str = ""
    note: int = -1
    part: int = 0
    tie_out: bool = False
    over_bar: bool = False
    marks: tuple[str, ...] = ()
    grace: tuple[Pitch, ...] = ()
    slurs_open: int = 0
    slurs_close: int = 0


class ScoreBar(NamedTuple):
    """The heads of one bar; `first` is where they start, in quarters from the start of a full bar."""

    number: int
    first: Fraction
    heads: tuple[ScoreNote, ...]


_BAR_LINE = Fraction(0)


def score_bars(phrase: Phrase) -> tuple[ScoreBar, ...]:
    """Return every bar of a phrase as heads, rests and syncopations grouped as `regroup` does."""
    note, part = -1, 0
    found = []
    bars = [regrouped(bar, phrase.metre) for bar in phrase.bars]
    for index, bar in enumerate(bars):
        following = bars[index + 1] if index + 1 < len(bars) else None
        heads: list[ScoreNote] = []
        for place, event in enumerate(bar.events):
            after = _after(bar, place, following)
            if event.pitch is None:
                heads += [ScoreNote(value) for value in event.values]
                continue
            going_on = event.tie_in and note >= 0
            note, part = (note, part + 1) if going_on else (note + 1, 0)
            heads += _note_heads(event, note, part, going_on, after)
            part += len(event.values) - 1
        missing = phrase.metre.bar_quarters - bar.quarters if bar.number == 0 else _BAR_LINE
        found.append(ScoreBar(bar.number, missing, tuple(heads)))
    return tuple(found)


def _after(bar: Bar, place: int, following: Bar | None) -> bool:
    """Say whether the event after this one goes on from it."""
    if place + 1 < len(bar.events):
        return bar.events[place + 1].tie_in
    return following is not None and bool(following.events) and following.events[0].tie_in


def _note_heads(event: Event, note: int, part: int, going_on: bool, tie_out: bool) -> list[ScoreNote]:
    name = f"n{note}t{part}" if part else f"n{note}"
    if len(event.values) == 1:
        return [
            ScoreNote(
                event.values[0],
                event.pitch,
                name,
                note,
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
    heads = []
    for index, value in enumerate(event.values):
        first = index == 0
        heads.append(
            ScoreNote(
                value,
                event.pitch,
                name if first else f"n{note}t{part + index}",
                note,
                part + index,
                index < last or tie_out,
                first and going_on,
                _marks_of(event.marks, first, index == last),
                event.grace if first else (),
                event.slurs_open if first else 0,
                event.slurs_close if index == last else 0,
            )
        )
    return heads


def _marks_of(marks: tuple[str, ...], first: bool, last: bool) -> tuple[str, ...]:
    """Return the marks of one of several tied heads."""
    return tuple(mark for mark in marks if mark == "ghost" or (last if mark == "fall" else first))
