"""The likeliest notes of a sound where nothing is known of the line.

A hidden Markov model, solved by dynamic programming: a state is the pitch that sounds, or a rest and the
pitch before it. How often each interval is played speaks for one pitch against another, also across a rest.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from shedbook.listen.evidence import Evidence, Floats
from shedbook.listen.note_search import EXTRA, NEVER, FoundNote, beginnings, folded, leap_costs, over_shortest
from shedbook.listen.pitch_evidence import PITCHES
from shedbook.listen.tables.hearing import LOWEST_MIDI
from shedbook.listen.tables.search_costs import (
    FREE,
    LEAST_PITCH,
    OCTAVE_DOUBT,
    SHARE_OF_A_FRAME_FREE,
    SHORTEST_FRAMES,
)


def free_notes(evidence: Evidence) -> tuple[FoundNote, ...]:
    """Return the likeliest notes where nothing is known of the line; all are EXTRA."""
    share = SHARE_OF_A_FRAME_FREE
    heard = np.maximum(folded(evidence.pitch, OCTAVE_DOUBT), LEAST_PITCH) + evidence.sounding[:, None]
    pitch = np.asarray(share * heard, np.float32)
    rest = share * np.maximum(evidence.silent, LEAST_PITCH)
    onset, again = beginnings(evidence.onset, FREE.new_note), beginnings(evidence.again, FREE.new_note)
    held, leaps, frames = over_shortest(pitch), _leaps(), len(pitch)
    sounding, resting = np.full(PITCHES, NEVER, np.float32), np.zeros(PITCHES, np.float32)
    came = np.zeros((frames, PITCHES), np.uint8)
    began, stopped = np.zeros((2, frames, PITCHES), bool)
    begun = np.zeros((0, PITCHES), np.float32)
    for first in range(0, frames, SHORTEST_FRAMES):  # of notes that begin in these, none comes after another
        some = slice(first, min(first + SHORTEST_FRAMES, frames))
        sounded, rested = np.empty((2, some.stop - first, PITCHES), np.float32)
        for place, frame in enumerate(range(first, some.stop)):
            sounded[place], rested[place] = sounding, resting
            stops, stays = sounding - FREE.rest + rest[frame], resting + rest[frame]
            np.greater(stops, stays, out=stopped[frame])
            resting = np.maximum(stops, stays)
            sounding = sounding + pitch[frame]
            if place + 1 < len(begun):
                np.greater(begun[place + 1], sounding, out=began[frame])
                sounding = np.maximum(sounding, begun[place + 1])
        begun, came[some] = _begun(sounded, rested, onset[some, None], again[some, None], leaps)
        begun += held[some]
        if len(begun) == SHORTEST_FRAMES:
            np.greater(begun[0], sounding, out=began[some.stop - 1])
            sounding = np.maximum(sounding, begun[0])
    last = int(np.concatenate([sounding, resting]).argmax())
    return _traced(last, came, began, stopped)


def _begun(
    sounded: Floats, rested: Floats, onset: Floats, again: Floats, leaps: Floats
) -> tuple[Floats, NDArray[np.intp]]:
    """Return what a note of each pitch that begins at each of some frames is worth, and what was before."""
    every = np.arange(PITCHES)
    ways = leaps + (np.maximum(sounded, rested) + onset)[:, None]
    after_same = np.maximum(sounded + again, rested + np.maximum(onset, again))
    ways[:, every, every] = leaps[every, every] + after_same
    before = ways.argmax(axis=2)
    at = np.arange(len(ways))[:, None]
    over_onset = np.where(before == every, np.maximum(onset, again) - onset, 0)
    sounding = sounded[at, before] + np.where(before == every, again - onset, 0)
    return ways[at, every, before], before + PITCHES * (rested[at, before] + over_onset > sounding)


def _leaps() -> Floats:
    """Return the cost of each pitch (row) after each (column), less than 0."""
    every = np.arange(PITCHES)
    return -leap_costs()[np.abs(np.subtract.outer(every, every))]


def _traced(state: int, came: np.ndarray, began: np.ndarray, stopped: np.ndarray) -> tuple[FoundNote, ...]:
    """Return the notes of the best way, found from its end backwards."""
    found, frame = [], len(came) - 1
    end = frame + 1
    while frame >= 0:
        if state >= PITCHES:
            if stopped[frame, state - PITCHES]:
                state, end = state - PITCHES, frame
            frame -= 1
        elif began[frame, state]:
            first = frame - SHORTEST_FRAMES + 1
            found.append(FoundNote(first, end, state + LOWEST_MIDI, EXTRA, -1))
            state, end, frame = int(came[first, state]), first, first - 1
        else:
            frame -= 1
    return tuple(reversed(found))
