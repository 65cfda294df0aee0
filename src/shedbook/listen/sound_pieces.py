"""A recording as it is heard, what is wrong with its sound, and its pieces between silences."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from shedbook.errors import SoundError
from shedbook.listen.kept_sound import KeptSound
from shedbook.listen.tables.hearing import (
    LEAST_RATE_HZ,
    LONGEST_PIECE_S,
    NEAR_RATE_HZ,
    OVER_FLOOR_DB,
    PIECE_GAP_S,
    PIECE_MARGIN_S,
    SILENT_DBFS,
    UNDER_LOUD_DB,
)

_FULL_SCALE = 0.985
_PLAYED_DB = 40.0
_CLIPPED_IN_A_ROW = 3
_CANCELLED = 0.05
"""Of the power of one channel, what is left where a second one is the same upside down."""
_BLOCK_S, _LEVELS_AT_ONCE = 0.01, 6000
_TAPS_A_STEP = 24


@dataclass(frozen=True, slots=True)
class Heard:
    """A recording as it is heard.

    Attributes:
        kept: one channel, the mean of all, or one of them where they cancel one another out; full scale is 1.
        rate: its samples a second.
        seconds: how long it lasts.
        clipped_s: where the sound was cut off at full scale, in seconds; each place once.
        floor_dbfs: the level of the quietest twentieth.
        loud_dbfs: the level that the loudest tenth of what is played exceeds.
        channels: how many channels the recording has.
    """

    kept: KeptSound
    rate: int
    seconds: float
    clipped_s: tuple[float, ...]
    floor_dbfs: float
    loud_dbfs: float
    channels: int

    @property
    def samples(self) -> NDArray[np.float32]:
        """All its samples at once: much room for an hour."""
        return self.kept[:]

    def forgotten(self) -> Heard:
        """Return the same without its sound."""
        return replace(self, kept=KeptSound())


class Piece(NamedTuple):
    """A piece of a recording between two silences, in seconds."""

    start_s: float
    end_s: float


def hear(blocks: Iterable[NDArray[np.float32]], rate: int, channels: int) -> Heard:
    """Return a recording as it is heard.

    Args:
        blocks: its samples, frames by channels, block by block.
        rate: its samples a second.
        channels: how many channels a block has.

    Raises:
        SoundError: if it is silent, empty, or has too few samples a second.
    """
    if rate < LEAST_RATE_HZ:
        raise SoundError(
            f"The recording has {rate} samples a second, too few to hear where notes begin.",
            hint="Record at 44100 or 48000.",
        )
    step = max(1, round(rate / NEAR_RATE_HZ))
    thinner = _Thinner(step)
    kept, clipped, passed = KeptSound(), list[float](), 0
    for block in blocks:
        clipped += [(passed + at) / rate for at in _clipped(block)]
        kept.add(thinner.of(_as_one(block)))
        passed += len(block)
    kept.add(thinner.rest()[: max(0, passed // step - len(kept))])
    if not len(kept):
        raise SoundError("The recording is empty.", hint="Record it again.")
    ours = rate // step
    level = levels_db(kept, ours)
    top = float(level.max())
    floor, loud = float(np.percentile(level, 5)), float(np.percentile(level[level > top - _PLAYED_DB], 90))
    if top < SILENT_DBFS:
        raise SoundError(
            f"The recording is silent: nothing in it is louder than {top:.0f} dB of full scale.",
            hint="Was the microphone on, and the right one chosen? Record it again.",
        )
    return Heard(kept, ours, len(kept) / ours, _places(clipped), floor, loud, channels)


class _Thinner:
    """Takes every so-manyth sample, with what lies too high for that filtered away before, block by block."""

    def __init__(self, step: int) -> None:
        from scipy.signal import firwin  # noqa: PLC0415 - takes a while to load

        self._step = step
        self._taps = firwin(2 * _TAPS_A_STEP * step + 1, 0.92 / step) if step > 1 else np.ones(1)
        self._state: NDArray[np.float64] = np.zeros(len(self._taps) - 1)
        self._skip = (len(self._taps) - 1) // 2

    def of(self, samples: NDArray[np.float32]) -> NDArray[np.float32]:
        """Return what comes of a block."""
        if self._step == 1:
            return np.asarray(samples, np.float32)
        from scipy.signal import lfilter  # noqa: PLC0415 - takes a while to load

        exact = np.asarray(samples, np.float64)
        smooth, self._state = lfilter(self._taps, np.ones(1), exact, zi=self._state)
        kept = smooth[self._skip :: self._step]
        self._skip = self._skip + len(kept) * self._step - len(smooth)
        return np.asarray(kept, np.float32)

    def rest(self) -> NDArray[np.float32]:
        """Return what the filter still holds."""
        return self.of(np.zeros(len(self._taps), np.float32))


def _as_one(block: NDArray[np.float32]) -> NDArray[np.float32]:
    """Return the mean of the channels; the loudest of them where they cancel one another out."""
    mean = block.mean(axis=1)
    each = np.square(block).sum(axis=0)
    loudest = int(each.argmax())
    if float(np.square(mean).sum()) < _CANCELLED * float(each[loudest]):
        return np.ascontiguousarray(block[:, loudest])
    return np.asarray(mean)


def _clipped(block: NDArray[np.float32]) -> list[int]:
    """Return where some samples in a row, of one channel and one sign, stand at full scale."""
    found: list[int] = []
    for side in block.T:
        if np.abs(side).max(initial=0.0) < _FULL_SCALE:
            continue
        for sign in (1, -1):
            at = np.concatenate([[0], (sign * side >= _FULL_SCALE).astype(np.int8), [0]])
            edges = np.flatnonzero(np.diff(at))
            found += [
                int(a) for a, b in zip(edges[::2], edges[1::2], strict=True) if b - a >= _CLIPPED_IN_A_ROW
            ]
    return found


def _places(times: list[float]) -> tuple[float, ...]:
    """Return times in order, those within a tenth of a second of one another as one."""
    found: list[float] = []
    for time in sorted(times):
        if not found or time - found[-1] > 0.1:
            found.append(time)
    return tuple(found)


def levels_db(sound: KeptSound, rate: int) -> NDArray[np.float64]:
    """Return the level of each hundredth of a second, in dB of full scale."""
    width = max(1, round(rate * _BLOCK_S))
    if len(sound) < width:
        return np.array([10 * np.log10(np.mean(sound[:] ** 2, dtype=np.float64) + 1e-12)])
    found = []
    for first in range(0, len(sound) - width + 1, width * _LEVELS_AT_ONCE):
        some = sound[first : first + width * _LEVELS_AT_ONCE]
        rows = some[: len(some) // width * width].reshape(-1, width)
        found.append(np.einsum("ns,ns->n", rows, rows, dtype=np.float64) / width)
    return np.asarray(10 * np.log10(np.concatenate(found) + 1e-12))


def pieces_of(heard: Heard, left_out: Sequence[Piece] = ()) -> tuple[Piece, ...]:
    """Return the pieces of a recording that are parted by silence, or by what is left out.

    Args:
        heard: the recording.
        left_out: what of it is no playing, in order, such as its slates.
    """
    level = levels_db(heard.kept, heard.rate)
    silent_under = max(
        heard.loud_dbfs - UNDER_LOUD_DB, min(heard.floor_dbfs + OVER_FLOOR_DB, heard.loud_dbfs - 12)
    )
    sounds = level > silent_under
    for one in left_out:
        sounds[round(one.start_s / _BLOCK_S) : round(one.end_s / _BLOCK_S)] = False
    loud = np.flatnonzero(sounds)
    if not len(loud):
        return ()
    gap = round(PIECE_GAP_S / _BLOCK_S)
    breaks = np.flatnonzero(np.diff(loud) > gap)
    firsts = [loud[0], *loud[breaks + 1]]
    lasts = [*loud[breaks], loud[-1]]
    found = []
    for first, last in zip(firsts, lasts, strict=True):
        start = max(0.0, first * _BLOCK_S - PIECE_MARGIN_S)
        end = min(heard.seconds, (last + 1) * _BLOCK_S + PIECE_MARGIN_S)
        for own in _without(Piece(start, end), left_out):
            count = int(np.ceil((own.end_s - own.start_s) / LONGEST_PIECE_S))
            cuts = np.linspace(*own, count + 1)
            found += [Piece(float(a), float(b)) for a, b in pairwise(cuts)]
    return tuple(found)


def _without(piece: Piece, left_out: Sequence[Piece]) -> Iterator[Piece]:
    """Yield what is left of a piece; a rest that is no longer than its margins is nothing."""
    start = piece.start_s
    for one in left_out:
        if start < one.end_s and one.start_s < piece.end_s:
            if one.start_s - start > PIECE_MARGIN_S:
                yield Piece(start, one.start_s)
            start = one.end_s
    if piece.end_s - start > PIECE_MARGIN_S:
        yield Piece(start, piece.end_s)


def samples_between(heard: Heard, start_s: float, end_s: float) -> NDArray[np.float32]:
    """Return the samples from one time to another."""
    return heard.kept[round(start_s * heard.rate) : round(end_s * heard.rate)]
