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

Codes = NDArray[np.uint8]

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
    """Return, for each frame, the sum over the shortest note that begins there; NEVER without room for it."""
    sums = np.concatenate([np.zeros((1, values.shape[1])), np.cumsum(values, axis=0, dtype=np.float64)])
    found = np.full(values.shape, NEVER, np.float32)
    found[: max(0, len(values) + 1 - SHORTEST_FRAMES)] = sums[SHORTEST_FRAMES:] - sums[:-SHORTEST_FRAMES]
    return found


class _Begun(NamedTuple):
    """What each note that begins at each of some frames is worth with its shortest length, and its codes."""

    values: Floats
    codes: Codes


class _Likeliest(NamedTuple):
    """The likeliest pitch of each row before each of some frames, and what it is worth."""

    pitch: NDArray[np.intp]
    value: Floats


class _Search:
    """One search: its evidence, and where each best value came from.

    A note lasts SHORTEST_FRAMES at least, so that of the notes which begin in so many frames in a row none
    comes after another: these frames are reckoned at once.
    """

    def __init__(self, evidence: Evidence, line: Sequence[int], expected: Expected | None) -> None:
        self._line = np.asarray(line, np.intp) - LOWEST_MIDI
        self._notes = np.arange(1, len(line) + 1)
        share = SHARE_OF_A_FRAME_KNOWN
        sounding = evidence.sounding[:, None]
        own = np.maximum(folded(evidence.pitch, OCTAVE_FOLD)[:, self._line], LEAST_PITCH)
        own = np.asarray(share * (own + sounding), np.float32)
        pitch = np.maximum(folded(evidence.pitch, OCTAVE_DOUBT), LEAST_PITCH)
        self._pitch = np.asarray(share * (pitch + sounding), np.float32)
        self._more = own - self._pitch[:, self._line]
        self._rest = np.asarray(share * np.maximum(evidence.silent, LEAST_PITCH), np.float32)[:, None]
        self._onset = beginnings(evidence.onset, KNOWN.new_note)[:, None]
        self._again = beginnings(evidence.again, KNOWN.new_note)[:, None]
        self._held, self._own_held = over_shortest(self._pitch), over_shortest(own)
        self._time = self._times(expected)
        self._extra, self._wrong = self._slips()
        skipped = np.arange(MOST_SKIPPED + 1)[:, None]
        sources = np.arange(len(line))[None] - skipped
        self._sources = np.maximum(sources, 0)
        self._skips = np.asarray(np.where(sources < 0, -NEVER, skipped * KNOWN.skipped), np.float32)
        self._remember(evidence.frames, len(line) + 1)

    def _remember(self, frames: int, rows: int) -> None:
        """Make room for where each value came from."""
        self._likeliest, self._second, self._stopped_from, self._right_steps, self._right_came = np.zeros(
            (5, frames, rows), np.uint8
        )
        self._stopped = np.zeros((frames, rows), bool)
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

    def _times(self, expected: Expected | None) -> Floats:
        """Return what speaks against each note of the line at each frame, less than 0."""
        frames = len(self._pitch)
        if expected is None:
            return np.zeros((frames, len(self._line)), np.float32)
        away = (np.arange(frames)[:, None] - expected.frames[None]) / expected.spread
        return np.asarray(-np.minimum(away**2 / 2, MOST_TIME_COST), np.float32)

    def notes(self) -> tuple[FoundNote, ...]:
        """Search, and return the notes."""
        frames, rows = self._stopped.shape
        sounding = np.full((rows, PITCHES), NEVER, np.float32)
        resting = np.full(rows, NEVER, np.float32)
        resting[0] = 0.0
        begun: _Begun | None = None
        for first in range(0, frames, SHORTEST_FRAMES):
            some = slice(first, min(first + SHORTEST_FRAMES, frames))
            each = self._gone_on(some, sounding, begun)
            rested, likeliest = self._rested(some, each, resting)
            begun = self._begin(some, *self._before(some, each, rested, likeliest))
            if some.stop - first == SHORTEST_FRAMES:
                self._arrive(some.stop - 1, 0, sounding, begun)
        return self._traced(sounding, resting)

    def _gone_on(self, some: slice, sounding: Floats, begun: _Begun | None) -> Floats:
        """Return what each row and pitch is worth before each of some frames; let `sounding` go on over them.

        The notes arrive that began one shortest length before.
        """
        heard = np.repeat(self._pitch[some, None], len(sounding), axis=1)
        heard[:, self._notes, self._line] += self._more[some]
        each = np.empty_like(heard)
        for place, own in enumerate(heard):
            each[place] = sounding
            sounding += own
            if begun is not None and place + 1 < SHORTEST_FRAMES:
                self._arrive(some.start + place, place + 1, sounding, begun)
        return each

    def _arrive(self, frame: int, place: int, sounding: Floats, begun: _Begun) -> None:
        """Let the notes go on whose shortest length ends with a frame."""
        values = begun.values[place]
        np.multiply(begun.codes[place], values > sounding, out=self._began[frame])
        np.maximum(sounding, values, out=sounding)

    def _rested(self, some: slice, each: Floats, resting: Floats) -> tuple[Floats, _Likeliest]:
        """Return what resting is worth before each of some frames; let `resting` go on over them."""
        pitch = each.argmax(axis=2)[:, :, None]
        best = np.take_along_axis(each, pitch, axis=2)
        stops = best[:, :, 0] - KNOWN.rest + self._rest[some]
        rested = np.empty_like(stops)
        for frame, (stop, rest) in enumerate(zip(stops, self._rest[some], strict=True)):
            rested[frame] = resting
            resting += rest
            np.greater(stop, resting, out=self._stopped[some.start + frame])
            np.maximum(stop, resting, out=resting)
        self._stopped_from[some] = pitch[:, :, 0]
        return rested, _Likeliest(pitch, best)

    def _before(
        self, some: slice, each: Floats, rested: Floats, likeliest: _Likeliest
    ) -> tuple[Floats, Codes]:
        """Return what each row is worth before a note of each pitch begins, and what that came from."""
        onset, again = self._onset[some], self._again[some]
        others = each.copy()
        np.put_along_axis(others, likeliest.pitch, np.float32(NEVER), axis=2)
        second = others.argmax(axis=2)[:, :, None]
        after_best = likeliest.value[:, :, 0] + onset
        after_second = np.take_along_axis(others, second, axis=2)[:, :, 0] + onset
        after_rest = rested + np.maximum(onset, again)
        self._likeliest[some] = np.where(after_rest >= after_best, _REST, likeliest.pitch[:, :, 0])
        self._second[some] = np.where(after_rest >= after_second, _REST, second[:, :, 0])
        value = np.repeat(np.maximum(after_best, after_rest)[:, :, None], PITCHES, axis=2)
        np.put_along_axis(value, likeliest.pitch, np.maximum(after_second, after_rest)[:, :, None], axis=2)
        came = np.zeros(value.shape, np.uint8)
        np.put_along_axis(came, likeliest.pitch, np.uint8(_SECOND), axis=2)
        repeated = each + again[:, :, None]
        came[repeated > value] = _SAME
        return np.maximum(value, repeated, out=value), came

    def _begin(self, some: slice, come: Floats, came: Codes) -> _Begun:
        """Say what a note is worth that begins at each of some frames: any pitch, and the line's own."""
        value, codes = come - self._extra, 1 + came
        wrong = come[:, :-1] - self._wrong[1:] + self._time[some, :, None]
        replaces = wrong > value[:, 1:]
        np.maximum(value[:, 1:], wrong, out=value[:, 1:])
        codes[:, 1:] = np.where(replaces, 4 + came[:, :-1], codes[:, 1:])
        value += self._held[some, None]
        if not len(self._line):
            return _Begun(value, codes)
        worth = come[:, self._sources, self._line] - self._skips
        steps = worth.argmax(axis=1)[:, None]
        right = np.take_along_axis(worth, steps, axis=1)[:, 0] + self._time[some] + self._own_held[some]
        sources = self._notes - 1 - steps[:, 0]
        self._right_steps[some, 1:] = 1 + steps[:, 0]
        self._right_came[some, 1:] = came[np.arange(len(come))[:, None], sources, self._line]
        other = value[:, self._notes, self._line]
        codes[:, self._notes, self._line] = np.where(right > other, _RIGHT, codes[:, self._notes, self._line])
        value[:, self._notes, self._line] = np.maximum(right, other)
        return _Begun(value, codes)

    def _traced(self, sounding: Floats, resting: Floats) -> tuple[FoundNote, ...]:
        """Return the notes of the best way, found from its end backwards."""
        left_out = KNOWN.skipped * np.arange(len(self._line), -1, -1)
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
