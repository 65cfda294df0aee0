"""The likeliest notes of a sound where nothing is known of the line.

A hidden Markov model, solved by dynamic programming: a state is the pitch that sounds, or a rest and the
pitch before it. How often each interval is played speaks for one pitch against another, also across a rest.
"""

from __future__ import annotations

import numpy as np

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
    held, leaps, every = over_shortest(pitch), _leaps(), np.arange(PITCHES)
    sounding, resting = np.full(PITCHES, NEVER, np.float32), np.zeros(PITCHES, np.float32)
    begun = np.full((len(pitch), PITCHES), NEVER, np.float32)
    came = np.zeros((len(pitch), PITCHES), np.uint8)
    began, stopped = np.zeros((2, len(pitch), PITCHES), bool)
    for frame in range(len(pitch)):
        ways = np.concatenate([leaps + (sounding + onset[frame]), leaps + (resting + onset[frame])], axis=1)
        more = again[frame] - onset[frame]
        ways[every, every] += more
        ways[every, every + PITCHES] += max(0.0, more)
        came[frame] = ways.argmax(axis=1)
        begun[frame] = ways[every, came[frame]]
        stops, stays = sounding - FREE.rest + rest[frame], resting + rest[frame]
        stopped[frame] = stops > stays
        resting = np.maximum(stops, stays)
        sounding = sounding + pitch[frame]
        if frame >= SHORTEST_FRAMES - 1:
            first = frame - SHORTEST_FRAMES + 1
            arrived = begun[first] + held[first]
            began[frame] = arrived > sounding
            sounding = np.maximum(sounding, arrived)
    last = int(np.concatenate([sounding, resting]).argmax())
    return _traced(last, came, began, stopped)


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
