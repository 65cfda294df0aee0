"""How high notes were played, and how sure they are."""

from __future__ import annotations

import numpy as np

from shedbook.listen.evidence import Evidence
from shedbook.listen.note_search import FoundNote
from shedbook.listen.tables.hearing import LOWEST_MIDI, STEPS_A_SEMITONE

_ATTACK, _RELEASE = 0.3, 0.15
_LEAST_FRAMES = 4
_REACH = 4
_LEAST_LIKENESS = 0.65
_SURE, _UNSURE = 4.0, 8.0


def cents_of(note: FoundNote, evidence: Evidence) -> float | None:
    """Return how far a note lay from its MIDI number at A4 = 440 Hz, in cents; None if it is too short.

    Its attack and its end are left out; of the frames between, the median of the peaks of the likeness, each
    read between the steps from the parabola through three of them.
    """
    length = note.end - note.first
    first, end = note.first + round(_ATTACK * length), note.end - round(_RELEASE * length)
    if end - first < _LEAST_FRAMES:
        return None
    centre = (note.midi - LOWEST_MIDI) * STEPS_A_SEMITONE + STEPS_A_SEMITONE // 2
    centre += round(evidence.tuning_cents * STEPS_A_SEMITONE / 100)
    low, high = max(1, centre - _REACH), min(evidence.alike.shape[1] - 1, centre + _REACH + 1)
    if high - low < 3:
        return None
    rows = evidence.alike[first:end, low - 1 : high + 1]
    peak = rows[:, 1:-1].argmax(axis=1) + 1
    at = np.arange(len(rows))
    before, top, after = rows[at, peak - 1], rows[at, peak], rows[at, peak + 1]
    bent = before - 2 * top + after
    shift = np.where(bent < -1e-9, 0.5 * (before - after) / np.minimum(bent, -1e-9), 0.0)
    steps = low - 1 + peak + np.clip(shift, -0.5, 0.5)
    own = (note.midi - LOWEST_MIDI) * STEPS_A_SEMITONE + (STEPS_A_SEMITONE - 1) / 2
    return float(np.median(steps - own) * 100 / STEPS_A_SEMITONE)


def is_tone(note: FoundNote, evidence: Evidence) -> bool:
    """Whether a note is a tone: most of it is like itself one period later, as noise never is."""
    column = (note.midi - LOWEST_MIDI) * STEPS_A_SEMITONE
    near = evidence.alike[note.first : note.end, max(0, column - _REACH) : column + STEPS_A_SEMITONE + _REACH]
    return float(np.median(near.max(axis=1))) >= _LEAST_LIKENESS


def doubt_of(note: FoundNote, evidence: Evidence) -> float:
    """Return how little speaks for a note, 0 to 1: for its pitch against another, and for its beginning."""
    column = note.midi - LOWEST_MIDI
    rows = evidence.pitch[note.first : note.end]
    own = float(np.mean(rows[:, column]))
    doubt_of_pitch = min(1.0, max(0.0, -own / _SURE))
    near = evidence.onset[max(0, note.first - 2) : note.first + 3]
    doubt_of_start = min(1.0, max(0.0, (_UNSURE - float(near.max())) / _UNSURE))
    return max(doubt_of_pitch, doubt_of_start)
