"""The compass of a phrase: the notes that must lie somewhere on an instrument."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass

from shedbook.phrase.model import Phrase

STAFF_MIDDLE_MIDI = 71
"""B4, the middle line of the treble staff."""


@dataclass(frozen=True, slots=True)
class Compass:
    """The notes of a phrase as MIDI numbers.

    Attributes:
        notes: for each struck note its grace notes and itself, in order.
        counts: each MIDI number that occurs, ascending, with how often it does.
        lowest: the lowest of them.
        highest: the highest of them.
    """

    notes: tuple[tuple[int, ...], ...]
    counts: tuple[tuple[int, int], ...]
    lowest: int
    highest: int


def compass_of(phrase: Phrase) -> Compass:
    """Return the compass of a phrase, in which a tied note counts once.

    A phrase of nothing but rests has no notes, and the middle of the treble staff for its lowest and highest.
    """
    notes: list[tuple[int, ...]] = []
    for bar in phrase.bars:
        for event in bar.events:
            if event.pitch is None or (event.tie_in and notes):
                continue
            notes.append((*(pitch.midi for pitch in event.grace), event.pitch.midi))
    counts = Counter(midi for note in notes for midi in note) or Counter({STAFF_MIDDLE_MIDI: 0})
    return Compass(tuple(notes), tuple(sorted(counts.items())), min(counts), max(counts))
