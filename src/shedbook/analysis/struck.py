"""Where each note stands: the place it is struck for, and the accent of that place.

Conventions: places are quarter notes from bar 1. A note struck at most an eighth before a strong beat or
a change of chord, and held over it, stands there.
"""

from __future__ import annotations

from bisect import bisect_right
from dataclasses import dataclass
from fractions import Fraction
from math import lcm

from shedbook.phrase.model import Phrase, Sounding, sounding_notes
from shedbook.theory.metre import Metre

EIGHTH = Fraction(1, 2)
"""An eighth note in quarters: how early a note may be struck and still belong to what follows."""

FIRST_BEAT, STRONG_BEAT, BEAT, HALF_BEAT, BETWEEN = 4, 3, 2, 1, 0
"""The accents, strongest first."""


@dataclass(frozen=True, slots=True)
class Struck:
    """A sounding note with the place that it stands for; `early` when it is struck ahead of it."""

    note: Sounding
    arrival: Fraction
    early: bool
    accent: int

    @property
    def strong(self) -> bool:
        """Whether the note stands on a strong beat."""
        return self.accent >= STRONG_BEAT


def struck(phrase: Phrase) -> tuple[Struck, ...]:
    """Return every sounding note with the place that it stands for."""
    metre, notes = phrase.metre, sounding_notes(phrase)
    changes = [phrase.change_start(change) for change in phrase.changes]
    grain = _grain(notes, changes, metre)
    bar, eighth = _whole(metre.bar_quarters, grain), _whole(EIGHTH, grain)
    beats = [*metre.strong_beats, metre.beats + 1]
    strong = [_whole((beat - 1) * metre.beat_quarters, grain) for beat in beats]
    accents: dict[int, int] = {}

    def accent(offset: int) -> int:
        if offset not in accents:
            accents[offset] = accent_at(metre, Fraction(offset, grain))
        return accents[offset]

    places = [_whole(change, grain) for change in changes]
    between = [place for place in places if accent(place % bar) < STRONG_BEAT]
    found = []
    for note in notes:
        start, length = _whole(note.start, grain), _whole(note.quarters, grain)
        offset = start % bar
        wait = 0
        if accent(offset) < STRONG_BEAT:
            to_strong = strong[bisect_right(strong, offset)] - offset
            wait = _held_over(start, length, to_strong, between, eighth)
        arrival = note.start + Fraction(wait, grain) if wait else note.start
        found.append(Struck(note, arrival, wait > 0, accent((start + wait) % bar)))
    return tuple(found)


def _grain(notes: tuple[Sounding, ...], changes: list[Fraction], metre: Metre) -> int:
    """Return into how many parts a quarter is divided so that every place is a whole number of them."""
    parts = {note.start.denominator for note in notes} | {note.quarters.denominator for note in notes}
    parts |= {change.denominator for change in changes}
    return lcm(EIGHTH.denominator, metre.beat_quarters.denominator, *parts)


def _whole(place: Fraction, grain: int) -> int:
    return place.numerator * (grain // place.denominator)


def _held_over(start: int, length: int, to_strong_beat: int, changes: list[int], eighth: int) -> int:
    """Return how long before a strong beat, else a change between, a note is struck that is held over it.

    The answer is zero where it is not held over either, or struck more than an eighth before.
    """
    if to_strong_beat <= eighth and length > to_strong_beat:
        return to_strong_beat
    later = bisect_right(changes, start)
    if later < len(changes):
        to_change = changes[later] - start
        if to_change <= eighth and length > to_change:
            return to_change
    return 0


def accent_at(metre: Metre, offset: Fraction) -> int:
    """Return the accent of a place at this distance from the bar line, in quarters."""
    if not offset:
        return FIRST_BEAT
    beat = metre.beat_at(offset)
    if beat.denominator == 1:
        return STRONG_BEAT if beat.numerator in metre.strong_beats else BEAT
    return HALF_BEAT if beat.denominator == 2 else BETWEEN
