"""Where each note stands: the place it is struck for, and the accent of that place.

Conventions: places are whole ticks from bar 1; a quarter has as many as the phrase needs, so that nothing
is rounded. A note struck at most an eighth before a strong beat or a change of chord, and held over it,
stands there.
"""

from __future__ import annotations

from bisect import bisect_right
from fractions import Fraction
from functools import lru_cache
from math import lcm
from typing import NamedTuple

from shedbook.phrase.model import Phrase, Sounding, timed_notes
from shedbook.theory.metre import Metre, whole_ticks

EIGHTH = Fraction(1, 2)
"""An eighth note in quarters: how early a note may be struck and still belong to what follows."""

FIRST_BEAT, STRONG_BEAT, BEAT, HALF_BEAT, BETWEEN = 4, 3, 2, 1, 0
"""The accents, strongest first."""


class NotePlace(NamedTuple):
    """A sounding note with the place that it stands for; it is `early` when it is struck ahead of that place.

    `start`, `end` and `arrival` are in ticks.
    """

    note: Sounding
    start: int
    end: int
    arrival: int
    early: bool
    accent: int

    @property
    def strong(self) -> bool:
        """Whether the note stands on a strong beat."""
        return self.accent >= STRONG_BEAT


class NotePlaces(NamedTuple):
    """The notes of a phrase with their places; `grain` ticks make a quarter.

    `changes` are the places of the changes in ticks.
    """

    grain: int
    changes: tuple[int, ...]
    notes: tuple[NotePlace, ...]


def note_places(phrase: Phrase) -> NotePlaces:
    """Return every sounding note of a phrase with the place that it stands for, in order."""
    metre = phrase.metre
    coarse, notes = timed_notes(phrase)
    starts = [phrase.change_start(change) for change in phrase.changes]
    grain = lcm(coarse, EIGHTH.denominator, *{start.denominator for start in starts})
    finer = grain // coarse
    bar, beat = whole_ticks(metre.bar_quarters, grain), whole_ticks(metre.beat_quarters, grain)
    eighth = whole_ticks(EIGHTH, grain)
    strong_beats = metre.strong_beats
    strong = [(number - 1) * beat for number in (*strong_beats, metre.beats + 1)]
    changes = tuple(whole_ticks(start, grain) for start in starts)
    between = [change for change in changes if _accent(change % bar, beat, strong_beats) < STRONG_BEAT]
    found = []
    for timed in notes:
        start, length = timed.start * finer, timed.length * finer
        offset = start % bar
        accent = _accent(offset, beat, strong_beats)
        wait = 0
        if accent < STRONG_BEAT:
            to_strong = strong[bisect_right(strong, offset)] - offset
            wait = _held_over(start, length, to_strong, between, eighth)
        if wait:
            accent = _accent((offset + wait) % bar, beat, strong_beats)
        found.append(NotePlace(timed.note, start, start + length, start + wait, wait > 0, accent))
    return NotePlaces(grain, changes, tuple(found))


def _held_over(start: int, length: int, to_strong_beat: int, changes: list[int], eighth: int) -> int:
    """Return how many ticks before a strong beat, else a change, a note is struck that is held over it.

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
    """Return the accent of a place from 4 (first beat) to 0 (between half beats).

    `offset` is its distance from the bar line in quarters. Strong beats are those of the metre's table.
    """
    beat = metre.beat_quarters
    grain = lcm(offset.denominator, beat.denominator)
    return _accent(whole_ticks(offset, grain), whole_ticks(beat, grain), metre.strong_beats)


@lru_cache(maxsize=4096)
def _accent(offset: int, beat: int, strong_beats: tuple[int, ...]) -> int:
    """Return the accent of a place; its distance from the bar line and the length of a beat are in ticks."""
    if not offset:
        return FIRST_BEAT
    beats, rest = divmod(offset, beat)
    if not rest:
        return STRONG_BEAT if beats + 1 in strong_beats else BEAT
    return HALF_BEAT if 2 * rest == beat else BETWEEN
