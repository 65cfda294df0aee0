"""The likeliest notes of a sound, where the line is known and where it is not: one search for both.

A left-to-right hidden Markov model, solved by dynamic programming: a state says how many notes of the line
have come and which pitch sounds, or that none does. At each frame a note may begin: the next one of the line,
another pitch in its place, one that the line does not have, or one of those after the next. This is time
warping on pitch and beginnings that may also leave out, add and change.

Conventions: a row of the state is the number of notes that have come, from 0; costs are natural logarithms.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from shedbook.listen.evidence import Evidence, Floats
from shedbook.listen.pitch_evidence import PITCHES
from shedbook.listen.tables.hearing import LOWEST_MIDI
from shedbook.listen.tables.search_costs import (
    FREE,
    KNOWN,
    LEAPS,
    LEAST_ONSET,
    LEAST_PITCH,
    MOST_ONSET,
    MOST_SKIPPED,
    MOST_TIME_COST,
    OCTAVE_FOLD,
    SHARE_OF_A_FRAME_FREE,
    SHARE_OF_A_FRAME_KNOWN,
    SHORTEST_FRAMES,
    TIME_SPREAD_FRAMES,
    SearchCosts,
)

_NEVER = -1e9
_REST = PITCHES
PLAYED, WRONG, EXTRA = "played", "wrong", "extra"
"""What a note is to the line: its note, another pitch in its place, none of it."""


class FoundNote(NamedTuple):
    """A note from one frame up to another; `which` is the line's note, for an extra one that before it."""

    first: int
    end: int
    midi: int
    kind: str
    which: int


@dataclass(frozen=True, slots=True)
class Expected:
    """Where each note of the line is expected, in frames, and how widely it may lie around that."""

    frames: NDArray[np.float64]
    spread: float = TIME_SPREAD_FRAMES


def free_notes(evidence: Evidence) -> tuple[FoundNote, ...]:
    """Return the likeliest notes where nothing is known of the line; all are EXTRA."""
    return _Search(evidence, (), None, FREE, SHARE_OF_A_FRAME_FREE).notes()


def line_notes(
    evidence: Evidence, line: Sequence[int], expected: Expected | None = None
) -> tuple[FoundNote, ...]:
    """Return the likeliest notes of a known line.

    Args:
        evidence: what is heard.
        line: the MIDI numbers of its notes, each from LOWEST_MIDI to HIGHEST_MIDI.
        expected: where they are expected, None where that is not known.
    """
    return _Search(evidence, line, expected, KNOWN, SHARE_OF_A_FRAME_KNOWN).notes()


def _leaps() -> Floats:
    """Return the cost of each pitch (row) after each (column), less than 0."""
    wide = np.abs(np.subtract.outer(np.arange(PITCHES), np.arange(PITCHES)))
    found = np.zeros(wide.shape, np.float32)
    before = -1
    for most, cost in LEAPS:
        found[(wide > before) & (wide <= most)] = -cost
        before = most
    return found


class _Search:
    """One search: its evidence over a few frames at a time, and where each best value came from."""

    def __init__(
        self,
        evidence: Evidence,
        line: Sequence[int],
        expected: Expected | None,
        costs: SearchCosts,
        share: float,
    ) -> None:
        self._costs = costs
        self._rows = len(line) + 1
        self._line = np.asarray(line, np.intp) - LOWEST_MIDI
        sounding = np.maximum(evidence.pitch, LEAST_PITCH) + evidence.sounding[:, None]
        self._pitch = np.asarray(share * sounding, np.float32)
        self._rest = share * np.maximum(evidence.silent, LEAST_PITCH)
        self._onset = np.clip(evidence.onset, LEAST_ONSET, MOST_ONSET) - costs.new_note
        self._held = _over(self._pitch)
        self._own = self._folded()
        self._own_held = _over(self._own)
        self._time = self._times(expected)
        self._leaps = None if len(line) else _leaps()
        self._remember(evidence.frames)

    def _remember(self, frames: int) -> None:
        """Make room for where each value came from."""
        rows = self._rows
        self._from_pitch = np.zeros((frames, rows), np.int16)
        self._leapt_from = np.zeros((frames, PITCHES), np.int16)
        self._any = np.full((frames, rows), _NEVER, np.float32)
        self._any_wrong = np.zeros((frames, rows), bool)
        self._right = np.full((frames, rows), _NEVER, np.float32)
        self._right_steps = np.zeros((frames, rows), np.int8)
        self._leapt = np.full((frames, PITCHES), _NEVER, np.float32)
        self._began = np.zeros((frames, rows, PITCHES), np.uint8)
        self._stopped = np.zeros((frames, rows), bool)

    def _folded(self) -> Floats:
        """Return the evidence for each note of the line, which may be heard an octave away."""
        own = self._pitch[:, self._line].copy()
        for octave in (12, -12):
            at = self._line + octave
            there = (at >= 0) & (at < PITCHES)
            own[:, there] = np.maximum(own[:, there], self._pitch[:, at[there]] - OCTAVE_FOLD)
        return own

    def _times(self, expected: Expected | None) -> NDArray[np.float64]:
        """Return what speaks against each note of the line at each frame, less than 0."""
        frames = len(self._pitch)
        if expected is None:
            return np.zeros((frames, self._rows - 1))
        away = (np.arange(frames)[:, None] - expected.frames[None]) / expected.spread
        return -np.minimum(away**2 / 2, MOST_TIME_COST)

    def notes(self) -> tuple[FoundNote, ...]:
        """Search, and return the notes."""
        sounding = np.full((self._rows, PITCHES), _NEVER, np.float32)
        resting = np.full(self._rows, _NEVER)
        resting[0] = 0.0
        notes = np.arange(1, self._rows)
        more = self._own - self._pitch[:, self._line]
        for frame in range(len(self._pitch)):
            best = self._best_before(frame, sounding, resting)
            self._begin(frame, best)
            if self._leaps is not None:
                self._leap(frame, self._leaps, sounding[0], resting[0])
            stays, stops = resting + self._rest[frame], best - self._costs.rest + self._rest[frame]
            self._stopped[frame] = stops > stays
            resting = np.maximum(stays, stops)
            sounding += self._pitch[frame]
            sounding[notes, self._line] += more[frame]
            if frame >= SHORTEST_FRAMES - 1:
                self._arrive(frame, sounding, notes)
        return self._traced(sounding, resting)

    def _best_before(self, frame: int, sounding: Floats, resting: NDArray[np.float64]) -> NDArray[np.float64]:
        """Return the best value of each row before a frame, and remember which pitch or rest has it."""
        pitch = sounding.argmax(axis=1)
        best = sounding[np.arange(self._rows), pitch]
        rests = resting >= best
        self._from_pitch[frame] = np.where(rests, _REST, pitch)
        return np.where(rests, resting, best)

    def _begin(self, frame: int, best: NDArray[np.float64]) -> None:
        """Say what a note is worth that begins at a frame: any pitch, and the line's own."""
        costs, onset, time = self._costs, self._onset[frame], self._time[frame]
        value = best - costs.extra
        if self._rows > 1:
            wrong = best[:-1] - costs.wrong + time
            self._any_wrong[frame, 1:] = wrong > value[1:]
            value[1:] = np.maximum(value[1:], wrong)
            right, steps = self._right[frame], self._right_steps[frame]
            for skipped in range(min(MOST_SKIPPED, self._rows - 2) + 1):
                come = best[: -1 - skipped] - skipped * costs.skipped + time[skipped:] + onset
                better = come > right[1 + skipped :]
                right[1 + skipped :][better] = come[better]
                steps[1 + skipped :][better] = 1 + skipped
        self._any[frame] = value + onset

    def _leap(self, frame: int, leaps: Floats, sounding: Floats, resting: float) -> None:
        """Say what each pitch is worth that begins at a frame, after the one that sounded before."""
        ways = sounding[None, :] + leaps
        before = ways.argmax(axis=1)
        best = ways[np.arange(PITCHES), before]
        rests = resting >= best
        self._leapt_from[frame] = np.where(rests, _REST, before)
        self._leapt[frame] = np.where(rests, resting, best) + self._onset[frame]

    def _arrive(self, frame: int, sounding: Floats, notes: NDArray[np.intp]) -> None:
        """Let the notes go on that began the shortest length ago."""
        first = frame - SHORTEST_FRAMES + 1
        began = self._any[first][:, None] if self._leaps is None else self._leapt[first][None]
        came = began + self._held[first]
        self._began[frame] = came > sounding
        np.maximum(sounding, came, out=sounding)
        right = self._right[first][1:] + self._own_held[first]
        better = right > sounding[notes, self._line]
        rows, pitches = notes[better], self._line[better]
        self._began[frame][rows, pitches] = 2
        sounding[rows, pitches] = right[better]

    def _traced(self, sounding: Floats, resting: NDArray[np.float64]) -> tuple[FoundNote, ...]:
        """Return the notes of the best way, found from its end backwards."""
        left_out = self._costs.skipped * np.arange(self._rows - 1, -1, -1)
        row = int((np.maximum(sounding.max(axis=1), resting) - left_out).argmax())
        pitch = _REST if resting[row] >= sounding[row].max() else int(sounding[row].argmax())
        found, frame = [], len(self._pitch) - 1
        end = frame + 1
        while frame >= 0:
            if pitch == _REST:
                if self._stopped[frame, row]:
                    pitch, end = int(self._from_pitch[frame, row]), frame
                frame -= 1
                continue
            began = self._began[frame, row, pitch]
            if not began:
                frame -= 1
                continue
            first = frame - SHORTEST_FRAMES + 1
            kind, before = self._kind(first, row, int(began))
            found.append(FoundNote(first, end, pitch + LOWEST_MIDI, kind, row - 1))
            come_from = (
                self._from_pitch[first, before] if self._leaps is None else self._leapt_from[first, pitch]
            )
            row, pitch, end, frame = before, int(come_from), first, first - 1
        return tuple(reversed(found))

    def _kind(self, first: int, row: int, began: int) -> tuple[str, int]:
        """Return what a note is to the line, and the row before it."""
        if began == 2:
            return PLAYED, row - int(self._right_steps[first, row])
        return (WRONG, row - 1) if self._any_wrong[first, row] else (EXTRA, row)


def _over(values: Floats) -> Floats:
    """Return, for each frame, the sum over the shortest note that begins there."""
    sums = np.concatenate([np.zeros((1, values.shape[1])), np.cumsum(values, axis=0, dtype=np.float64)])
    return np.asarray(sums[SHORTEST_FRAMES:] - sums[:-SHORTEST_FRAMES], np.float32)
