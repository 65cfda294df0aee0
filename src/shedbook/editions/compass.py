"""Reach: the notes of a phrase that must lie somewhere on an instrument."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass

from shedbook.phrase.model import Phrase

STAFF_MIDDLE_MIDI = 71
"""B4, the middle line of the treble staff."""


@dataclass(frozen=True, slots=True)
class Compass:
    """The notes of a phrase as MIDI numbers, by struck note with its grace notes; and as counts."""

    notes: tuple[tuple[int, ...], ...]
    counts: tuple[tuple[int, int], ...]
    lowest: int
    highest: int


def compass_of(phrase: Phrase) -> Compass:
    """Return the notes of a phrase that must lie somewhere; a tied note counts once."""
    notes: list[tuple[int, ...]] = []
    for bar in phrase.bars:
        for event in bar.events:
            if event.pitch is None or (event.tie_in and notes):
                continue
            notes.append((*(pitch.midi for pitch in event.grace), event.pitch.midi))
    counts = Counter(midi for note in notes for midi in note) or Counter({STAFF_MIDDLE_MIDI: 0})
    return Compass(tuple(notes), tuple(sorted(counts.items())), min(counts), max(counts))
