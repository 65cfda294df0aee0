"""How loud a track is.

Loudness is ITU-R BS.1770's, gated, in LUFS. True peak is BS.1770's annex 2: the highest sample after
four-fold oversampling, in dB below full scale. Both are measured in pieces that fit the processor's cache;
SciPy's filters are loaded when the first sound is measured, for MIDI does without them.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from shedbook.sound.audio.tables.formats import CEILING_DBTP, RATE_HZ
from shedbook.sound.audio.tables.loudness import (
    ABSOLUTE_GATE_LUFS,
    HOPS_A_SECOND,
    HOPS_A_WINDOW,
    K_WEIGHTING,
    OFFSET_LU,
    OVERSAMPLED,
    RELATIVE_GATE_LU,
)

Samples = NDArray[np.floating]

SILENT = float("-inf")
PIECE_FRAMES = RATE_HZ
"""How many frames are measured at a time: a whole number of hops and of blocks."""
_HOP = RATE_HZ // HOPS_A_SECOND
_BLOCK, _EDGE = 480, 64
_MOST_OVER_DB = 3.5
"""By how much a true peak may lie over the samples around it: a sine between its samples, 3.01 dB."""


@dataclass(frozen=True, slots=True)
class Levels:
    """What a meter says of a track: loudness in LUFS, true peak in dBTP; both −inf for silence."""

    lufs: float
    peak_dbtp: float


def levels_of(pieces: Iterable[Samples]) -> Levels:
    """Measure a track that comes in pieces, each but the last of `PIECE_FRAMES`."""
    loud, peak = _Loudness(), _Peak(_ratio(CEILING_DBTP))
    for piece in pieces:
        loud.hear(piece)
        peak.hear(piece)
    return Levels(loud.lufs(), peak.dbtp())


def loudness_lufs(samples: Samples) -> float:
    """Return the integrated loudness of stereo samples; −inf for silence, or for what the gate leaves out.

    A sound shorter than a window of the gate is measured with silence behind it.
    """
    meter = _Loudness()
    for piece in pieces_of(samples):
        meter.hear(piece)
    return meter.lufs()


def true_peak_dbtp(samples: Samples, *, under: float | None = None) -> float:
    """Return the true peak of samples.

    With `under`, a level in dB, only what could lie above that level is oversampled: a true peak far below
    it comes as the peak of the samples themselves, which is much quicker.
    """
    highest = float(np.abs(samples).max(initial=0.0)) if under is None else _ratio(under)
    meter = _Peak(highest)
    for piece in pieces_of(samples):
        meter.hear(piece)
    return meter.dbtp()


def pieces_of(samples: Samples) -> Iterator[Samples]:
    """Yield samples in the pieces that meters hear."""
    for first in range(0, len(samples), PIECE_FRAMES):
        yield samples[first : first + PIECE_FRAMES]


class _Loudness:
    """Hears the pieces of a track and tells their loudness."""

    def __init__(self) -> None:
        from scipy.signal import sosfilt  # noqa: PLC0415

        self._filtered = sosfilt
        self._filters = np.array(K_WEIGHTING)
        self._state = np.zeros((len(K_WEIGHTING), 2, 2))
        self._energies: list[NDArray[np.float64]] = [np.zeros(0)]
        self._cut = False

    def hear(self, piece: Samples) -> None:
        """Add the K-weighted mean squares of a piece's hops, both channels together."""
        left = len(piece) % _HOP
        if left:
            piece = np.pad(piece, ((0, _HOP - left), (0, 0)))
            self._cut = True
        sides = np.asarray(piece.T, np.float64)
        heard, self._state = self._filtered(self._filters, sides, axis=1, zi=self._state)
        hops = heard.reshape(len(sides), -1, _HOP)
        self._energies.append(np.einsum("chs,chs->h", hops, hops) / _HOP)

    def lufs(self) -> float:
        """Return the loudness of what was heard, gated; a rest shorter than a hop is left out."""
        hops = np.concatenate(self._energies)
        return gated_lufs(hops[:-1] if self._cut and len(hops) > HOPS_A_WINDOW else hops)


def gated_lufs(hops: NDArray[np.float64]) -> float:
    """Return the loudness, gated, of the K-weighted mean squares of tenths of a second, channels added."""
    hops = np.pad(hops, (0, max(0, HOPS_A_WINDOW - len(hops))))
    windows = np.lib.stride_tricks.sliding_window_view(hops, HOPS_A_WINDOW).mean(axis=1)
    over = windows[windows > _energy(ABSOLUTE_GATE_LUFS)]
    if not len(over):
        return SILENT
    return _lufs(over[over > _energy(_lufs(over.mean()) + RELATIVE_GATE_LU)].mean())


def _lufs(energy: float) -> float:
    return float(OFFSET_LU + 10.0 * np.log10(energy))


def _energy(lufs: float) -> float:
    return float(10.0 ** ((lufs - OFFSET_LU) / 10.0))


class _Peak:
    """Hears the pieces of a track and tells their true peak, exact where it lies above `under`."""

    def __init__(self, under: float) -> None:
        self._peak, self._under = 0.0, under
        self._before, self._piece = np.zeros((_EDGE, 2), np.float32), np.zeros((0, 2), np.float32)

    def hear(self, piece: Samples) -> None:
        """Measure the piece before this one: what stands at its end hangs on what follows."""
        self._measure(piece[:_EDGE])
        self._before = np.concatenate([self._before, self._piece[-_EDGE:]])[-_EDGE:]
        self._piece = np.asarray(piece, np.float32)

    def dbtp(self) -> float:
        """Return the true peak of what was heard; nothing can be heard after it."""
        self.hear(np.zeros((0, 2), np.float32))
        return _db(self._peak) if self._peak else SILENT

    def _measure(self, after: Samples) -> None:
        tops = _block_peaks(self._piece)
        self._peak = max(self._peak, float(tops.max(initial=0.0)))
        loud = np.flatnonzero(tops >= max(self._peak, self._under) * _ratio(-_MOST_OVER_DB))
        if len(loud) and self._peak:
            whole = np.concatenate([self._before, self._piece, after])
            fine = _oversampled(_around(whole, loud))
            self._peak = max(self._peak, float(np.abs(fine).max()))


def _block_peaks(samples: Samples) -> NDArray[np.floating]:
    """Return the highest sample of each block, of either channel and either sign."""
    whole = len(samples) // _BLOCK
    blocks = samples[: whole * _BLOCK].reshape(whole, _BLOCK * samples.shape[1])
    rest = samples[whole * _BLOCK :]
    tops = np.maximum(blocks.max(axis=1, initial=0.0), -blocks.min(axis=1, initial=0.0))
    return np.append(tops, max(rest.max(initial=0.0), -rest.min(initial=0.0)))


def _around(samples: Samples, blocks: NDArray[np.intp]) -> NDArray[np.float32]:
    """Return these blocks, each channel by itself, with what is around them; silence behind the end.

    The samples begin an edge before the first block.
    """
    size = _BLOCK + 2 * _EDGE
    short = int(blocks[-1]) * _BLOCK + size - len(samples)
    if short > 0:
        samples = np.concatenate([samples, np.zeros((short, samples.shape[1]), np.float32)])
    windows = np.lib.stride_tricks.sliding_window_view(samples, size, axis=0)
    return np.ascontiguousarray(windows[blocks * _BLOCK], np.float32).reshape(-1, size)


def _oversampled(blocks: NDArray[np.float32]) -> NDArray[np.float32]:
    """Return blocks with four times as many samples, without the edges that only lead in and out."""
    from scipy.signal import resample_poly  # noqa: PLC0415

    fine = resample_poly(blocks, OVERSAMPLED, 1, axis=1)
    found: NDArray[np.float32] = fine[:, _EDGE * OVERSAMPLED // 2 : -_EDGE * OVERSAMPLED // 2]
    return found


def _ratio(db: float) -> float:
    return float(10.0 ** (db / 20.0))


def _db(ratio: float) -> float:
    return float(20.0 * np.log10(ratio))
