"""The likeliest notes of a sound where the line is known, and what both searches for notes share.

A left-to-right hidden Markov model, solved by dynamic programming: a state says how many notes of the line
have come and which pitch sounds, or that none does. At each frame a note may begin: the next one of the line,
another pitch in its place, one that the line does not have, or one of those after the next. This is time
warping on pitch and beginnings that may also leave out, add and change. A note that begins at the pitch that
sounds already is weighed by the dip before it, every other by what changes.

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
    INTERVAL_SHARE,
    KNOWN,
    LEAST_ONSET,
    LEAST_PITCH,
    MOST_ONSET,
    MOST_SKIPPED,
    MOST_TIME_COST,
    NEAR_FRAMES,
    OCTAVE_DOUBT,
    OCTAVE_FOLD,
    SHARE_OF_A_FRAME_KNOWN,
    SHORTEST_FRAMES,
    TIME_SPREAD_FRAMES,
    WIDER_SHARE,
)

NEVER = -1e9
PLAYED, WRONG, EXTRA = "played", "wrong", "extra"
"""What a note is to the line: its note, another pitch in its place, none of it."""
_REST = PITCHES
_OTHER, _SECOND, _SAME = 0, 1, 2
"""After what a note begins: the likeliest, the likeliest but its own pitch, its own pitch."""
_RIGHT = 7


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


def line_notes(
    evidence: Evidence, line: Sequence[int], expected: Expected | None = None
) -> tuple[FoundNote, ...]:
    """Return the likeliest notes of a known line.

    Args:
        evidence: what is heard.
        line: the MIDI numbers of its notes, each from LOWEST_MIDI to HIGHEST_MIDI.
        expected: where they are expected, None where that is not known.
    """
    return _Search(evidence, line, expected).notes()


def leap_costs() -> NDArray[np.float32]:
    """Return what an interval of so many half steps costs, over the one that is played most."""
    shares = [INTERVAL_SHARE[0], *(share / 2 for share in INTERVAL_SHARE[1:])]
    shares += [WIDER_SHARE] * (PITCHES - len(shares))
    return np.asarray(np.log(max(shares) / np.asarray(shares)), np.float32)


def folded(pitch: Floats, cost: float) -> Floats:
    """Return the evidence for each pitch, which may be heard an octave away at a cost a frame."""
    found = pitch.copy()
    found[:, :-12] = np.maximum(found[:, :-12], pitch[:, 12:] - cost)
    found[:, 12:] = np.maximum(found[:, 12:], pitch[:, :-12] - cost)
    return found


def beginnings(values: Floats, cost: float) -> Floats:
    """Return what a beginning at each frame is worth.

    What speaks for one beginning is smeared over the frames around it. Each of these is worth less by as much
    as it lies under the best of them, so that one beginning does not stand for two notes.
    """
    from scipy.ndimage import maximum_filter1d  # noqa: PLC0415 - takes a while to load

    best = maximum_filter1d(values, 2 * NEAR_FRAMES + 1)
    return np.asarray(np.clip(2 * values - best, LEAST_ONSET, MOST_ONSET) - cost, np.float32)


def over_shortest(values: Floats) -> Floats:
    """Return, for each frame, the sum over the shortest note that begins there."""
    sums = np.concatenate([np.zeros((1, values.shape[1])), np.cumsum(values, axis=0, dtype=np.float64)])
    return np.asarray(sums[SHORTEST_FRAMES:] - sums[:-SHORTEST_FRAMES], np.float32)


class _Search:
    """One search: its evidence over a few frames at a time, and where each best value came from."""

    def __init__(self, evidence: Evidence, line: Sequence[int], expected: Expected | None) -> None:
        self._rows = len(line) + 1
        self._line = np.asarray(line, np.intp) - LOWEST_MIDI
        share = SHARE_OF_A_FRAME_KNOWN
        sounding = evidence.sounding[:, None]
        own = folded(evidence.pitch, OCTAVE_FOLD)[:, self._line]
        self._own = np.asarray(share * (np.maximum(own, LEAST_PITCH) + sounding), np.float32)
        pitch = np.maximum(folded(evidence.pitch, OCTAVE_DOUBT), LEAST_PITCH)
        self._pitch = np.asarray(share * (pitch + sounding), np.float32)
        self._rest = share * np.maximum(evidence.silent, LEAST_PITCH)
        self._onset = beginnings(evidence.onset, KNOWN.new_note)
        self._again = beginnings(evidence.again, KNOWN.new_note)
        self._held, self._own_held = over_shortest(self._pitch), over_shortest(self._own)
        self._time = self._times(expected)
        self._extra, self._wrong = self._slips()
        skipped = np.arange(MOST_SKIPPED + 1)[:, None]
        sources = np.arange(len(line))[None] - skipped
        self._sources = np.maximum(sources, 0)
        self._skips = np.asarray(np.where(sources < 0, -NEVER, skipped * KNOWN.skipped), np.float32)
        self._remember(evidence.frames)

    def _remember(self, frames: int) -> None:
        """Make room for where each value came from."""
        rows = self._rows
        self._likeliest = np.zeros((frames, rows), np.uint8)
        self._second = np.zeros((frames, rows), np.uint8)
        self._stopped_from = np.zeros((frames, rows), np.uint8)
        self._stopped = np.zeros((frames, rows), bool)
        self._any = np.full((SHORTEST_FRAMES, rows, PITCHES), NEVER, np.float32)
        self._any_came = np.zeros((SHORTEST_FRAMES, rows, PITCHES), np.uint8)
        self._right = np.full((SHORTEST_FRAMES, rows), NEVER, np.float32)
        self._right_steps = np.zeros((frames, rows), np.uint8)
        self._right_came = np.zeros((frames, rows), np.uint8)
        self._began = np.zeros((frames, rows, PITCHES), np.uint8)

    def _slips(self) -> tuple[Floats, Floats]:
        """Return what an extra and a wrong note of each pitch cost in each row.

        Each costs more, the farther it lies from the nearest of the notes of the line around it.
        """
        away = np.abs(np.subtract.outer(self._line, np.arange(PITCHES)))
        far = np.full((1, PITCHES), PITCHES - 1)
        before, after = np.concatenate([far, away]), np.concatenate([away, far])
        beside = np.minimum(before, after)
        around = beside.copy()
        around[1:] = np.minimum(beside[1:], before[:-1])
        costs = leap_costs()
        costs[0] = 0.0
        return KNOWN.extra + costs[beside], KNOWN.wrong + costs[around]

    def _times(self, expected: Expected | None) -> NDArray[np.float64]:
        """Return what speaks against each note of the line at each frame, less than 0."""
        frames = len(self._pitch)
        if expected is None:
            return np.zeros((frames, self._rows - 1))
        away = (np.arange(frames)[:, None] - expected.frames[None]) / expected.spread
        return -np.minimum(away**2 / 2, MOST_TIME_COST)

    def notes(self) -> tuple[FoundNote, ...]:
        """Search, and return the notes."""
        sounding = np.full((self._rows, PITCHES), NEVER, np.float32)
        resting = np.full(self._rows, NEVER, np.float32)
        resting[0] = 0.0
        rows = np.arange(self._rows)
        more = self._own - self._pitch[:, self._line]
        for frame in range(len(self._pitch)):
            pitch = sounding.argmax(axis=1)
            best = sounding[rows, pitch]
            self._begin(frame, self._before(frame, sounding, resting, pitch, best))
            stays = resting + self._rest[frame]
            stops = best - KNOWN.rest + self._rest[frame]
            self._stopped[frame], self._stopped_from[frame] = stops > stays, pitch
            resting = np.maximum(stays, stops)
            sounding += self._pitch[frame]
            sounding[rows[1:], self._line] += more[frame]
            if frame >= SHORTEST_FRAMES - 1:
                self._arrive(frame, sounding)
        return self._traced(sounding, resting)

    def _before(
        self, frame: int, sounding: Floats, resting: Floats, pitch: NDArray[np.intp], best: Floats
    ) -> tuple[Floats, NDArray[np.uint8]]:
        """Return what each row is worth before a note of each pitch begins, and what that came from."""
        rows, onset, again = np.arange(self._rows), self._onset[frame], self._again[frame]
        others = sounding.copy()
        others[rows, pitch] = NEVER
        second = others.argmax(axis=1)
        rested = resting + max(onset, again)
        self._likeliest[frame] = np.where(rested >= best + onset, _REST, pitch)
        self._second[frame] = np.where(rested >= others[rows, second] + onset, _REST, second)
        value = np.repeat(np.maximum(best + onset, rested)[:, None], PITCHES, axis=1)
        value[rows, pitch] = np.maximum(others[rows, second] + onset, rested)
        came = np.zeros(value.shape, np.uint8)
        came[rows, pitch] = _SECOND
        repeated = sounding + again
        return np.maximum(value, repeated), np.where(repeated > value, np.uint8(_SAME), came)

    def _begin(self, frame: int, before: tuple[Floats, NDArray[np.uint8]]) -> None:
        """Say what a note is worth that begins at a frame: any pitch, and the line's own."""
        (come, came), at, time = before, frame % SHORTEST_FRAMES, self._time[frame]
        value = come - self._extra
        self._any_came[at] = came
        wrong = come[:-1] - self._wrong[1:] + time[:, None]
        self._any_came[at][1:] = np.where(wrong > value[1:], came[:-1] + 3, came[1:])
        value[1:] = np.maximum(value[1:], wrong)
        self._any[at] = value
        if not len(self._line):
            return
        worth = come[self._sources, self._line] - self._skips
        steps = worth.argmax(axis=0)
        notes = np.arange(len(self._line))
        self._right[at][1:] = worth[steps, notes] + time
        self._right_steps[frame, 1:] = 1 + steps
        self._right_came[frame, 1:] = came[self._sources[steps, notes], self._line]

    def _arrive(self, frame: int, sounding: Floats) -> None:
        """Let the notes go on that began the shortest length ago."""
        first = frame - SHORTEST_FRAMES + 1
        at = first % SHORTEST_FRAMES
        came = self._any[at] + self._held[first]
        self._began[frame] = np.where(came > sounding, 1 + self._any_came[at], 0)
        np.maximum(sounding, came, out=sounding)
        notes = np.arange(1, self._rows)
        right = self._right[at][1:] + self._own_held[first]
        before = sounding[notes, self._line]
        began = self._began[frame]
        began[notes, self._line] = np.where(right > before, _RIGHT, began[notes, self._line])
        sounding[notes, self._line] = np.maximum(right, before)

    def _traced(self, sounding: Floats, resting: Floats) -> tuple[FoundNote, ...]:
        """Return the notes of the best way, found from its end backwards."""
        left_out = KNOWN.skipped * np.arange(self._rows - 1, -1, -1)
        row = int((np.maximum(sounding.max(axis=1), resting) - left_out).argmax())
        pitch = _REST if resting[row] >= sounding[row].max() else int(sounding[row].argmax())
        found, frame = [], len(self._pitch) - 1
        end = frame + 1
        while frame >= 0:
            if pitch == _REST:
                if self._stopped[frame, row]:
                    pitch, end = int(self._stopped_from[frame, row]), frame
                frame -= 1
                continue
            began = int(self._began[frame, row, pitch])
            if not began:
                frame -= 1
                continue
            first = frame - SHORTEST_FRAMES + 1
            kind, before, came = self._kind(first, row, began)
            found.append(FoundNote(first, end, pitch + LOWEST_MIDI, kind, row - 1))
            if came != _SAME:
                pitch = int((self._second if came == _SECOND else self._likeliest)[first, before])
            row, end, frame = before, first, first - 1
        return tuple(reversed(found))

    def _kind(self, first: int, row: int, began: int) -> tuple[str, int, int]:
        """Return what a note is to the line, the row before it, and after what it began."""
        if began == _RIGHT:
            return PLAYED, row - int(self._right_steps[first, row]), int(self._right_came[first, row])
        wrong, came = divmod(began - 1, 3)
        return (WRONG, row - 1, came) if wrong else (EXTRA, row, came)
