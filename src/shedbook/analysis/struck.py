"""Where each note stands: the place it is struck for, and the accent of that place.

Conventions: places are quarter notes from bar 1. A note struck at most an eighth before a strong beat or
a change of chord, and held over it, stands there.
"""

from __future__ import annotations

from bisect import bisect_right
from dataclasses import dataclass
from fractions import Fraction

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
    metre = phrase.metre
    bar = metre.bar_quarters
    strong = (*((beat - 1) * metre.beat_quarters for beat in metre.strong_beats), bar)
    changes = [phrase.change_start(change) for change in phrase.changes]
    between = [place for place in changes if accent_at(metre, place % bar) < STRONG_BEAT]
    found = []
    for note in sounding_notes(phrase):
        offset = note.start % bar
        accent = accent_at(metre, offset)
        wait = Fraction(0)
        if accent < STRONG_BEAT:
            wait = _held_over(note, strong[bisect_right(strong, offset)] - offset, between)
        if wait:
            arrival = note.start + wait
            found.append(Struck(note, arrival, True, accent_at(metre, arrival % bar)))
        else:
            found.append(Struck(note, note.start, False, accent))
    return tuple(found)


def _held_over(note: Sounding, to_strong_beat: Fraction, changes: list[Fraction]) -> Fraction:
    """Return how long before a strong beat, else a change between, a note is struck that is held over it.

    The answer is zero where it is not held over either, or struck more than an eighth before.
    """
    if to_strong_beat <= EIGHTH and note.quarters > to_strong_beat:
        return to_strong_beat
    later = bisect_right(changes, note.start)
    if later < len(changes):
        to_change = changes[later] - note.start
        if to_change <= EIGHTH and note.quarters > to_change:
            return to_change
    return Fraction(0)


def accent_at(metre: Metre, offset: Fraction) -> int:
    """Return the accent of a place at this distance from the bar line, in quarters."""
    if not offset:
        return FIRST_BEAT
    beat = metre.beat_at(offset)
    if beat.denominator == 1:
        return STRONG_BEAT if beat.numerator in metre.strong_beats else BEAT
    return HALF_BEAT if beat.denominator == 2 else BETWEEN
