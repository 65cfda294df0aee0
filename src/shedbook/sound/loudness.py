"""How loud a track is, and making it as loud as it shall be.

Loudness is ITU-R BS.1770's, gated, in LUFS: the one module that imports the library which measures it. True
peak is BS.1770's annex 2: the highest sample after four-fold oversampling, in dB below full scale.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from typing import Any

import numpy as np
from numpy.typing import NDArray

from shedbook.sound.limiter import limited
from shedbook.sound.tables.formats import CEILING_DBTP, RATE_HZ, TARGET_LUFS

Samples = NDArray[np.floating]

SILENT = float("-inf")
_OVERSAMPLED = 4
_BLOCK, _EDGE = 4096, 64
_MOST_OVER_DB = 3.5
"""By how much a true peak may lie over the samples around it: a sine between its samples, 3.01 dB."""
_SHORTEST_FRAMES = RATE_HZ * 2 // 5
_ROUNDS = 5
_NEAR_LU = 0.05
_SPARE_DB = 0.01


@dataclass(frozen=True, slots=True)
class Levels:
    """What a meter says of a track: loudness in LUFS, true peak in dBTP; both −inf for silence."""

    lufs: float
    peak_dbtp: float


@dataclass(frozen=True, slots=True)
class Levelled:
    """Samples at their loudness, how loud that is, and by how many dB peaks had to be held down."""

    samples: NDArray[np.float32]
    levels: Levels
    held_db: float = 0.0


def loudness_lufs(samples: Samples) -> float:
    """Return the integrated loudness of stereo samples; −inf for silence, or for what the gate leaves out."""
    if len(samples) < _SHORTEST_FRAMES:  # the gate's window is 400 ms
        samples = np.concatenate([samples, np.zeros((_SHORTEST_FRAMES - len(samples), 2), samples.dtype)])
    with np.errstate(divide="ignore", invalid="ignore"):
        return float(_meter().integrated_loudness(np.asarray(samples, np.float64)))


def true_peak_dbtp(samples: Samples, *, under: float | None = None) -> float:
    """Return the true peak of samples.

    With `under`, a level in dB, only what could lie above that level is oversampled: a true peak far below
    it comes as the peak of the samples themselves, which is much quicker.
    """
    peak = _sample_peak(samples)
    if peak == 0.0:
        return SILENT
    least = peak if under is None else max(peak, _ratio(under))
    blocks = _loud_blocks(samples, least * _ratio(-_MOST_OVER_DB))
    return _db(max(peak, float(np.max(np.abs(_oversampled(blocks)), initial=0.0))))


def _sample_peak(samples: Samples) -> float:
    return float(max(samples.max(initial=0.0), -samples.min(initial=0.0)))


def levels_of(samples: Samples) -> Levels:
    """Measure a track."""
    return Levels(loudness_lufs(samples), true_peak_dbtp(samples, under=CEILING_DBTP))


def levelled(
    samples: Samples, target_lufs: float = TARGET_LUFS, ceiling_dbtp: float = CEILING_DBTP
) -> Levelled:
    """Return samples made as loud as the target, no peak above the ceiling; silence stays as it is.

    Where the two are at odds, peaks are held down by a limiter that looks ahead, and what that takes of
    the loudness is given back, so far as a few rounds can.
    """
    loud = loudness_lufs(samples)
    if loud == SILENT:
        return Levelled(np.asarray(samples, np.float32), Levels(SILENT, true_peak_dbtp(samples)))
    gain = target_lufs - loud
    raised = np.asarray(samples * np.float32(_ratio(gain)), np.float32)
    peak = true_peak_dbtp(raised, under=ceiling_dbtp)
    if peak <= ceiling_dbtp:
        return Levelled(raised, Levels(target_lufs, peak))
    return _held(raised, peak, target_lufs, ceiling_dbtp)


def _held(samples: NDArray[np.float32], peak: float, target: float, ceiling: float) -> Levelled:
    """Hold peaks under the ceiling and give back the loudness that this takes."""
    lowered, gain = ceiling, 0.0
    for _ in range(_ROUNDS):
        held = limited(samples * np.float32(_ratio(gain)), _ratio(lowered))
        loud, over = loudness_lufs(held), true_peak_dbtp(held)
        if over <= ceiling and abs(target - loud) <= _NEAR_LU:
            break
        lowered -= max(0.0, over - ceiling) and over - ceiling + _SPARE_DB
        gain += target - loud
    if over > ceiling:  # the last round: no more loudness is given back
        held = np.asarray(held * np.float32(_ratio(ceiling - over)), np.float32)
        loud, over = loud + ceiling - over, ceiling
    return Levelled(held, Levels(loud, over), max(0.0, peak - ceiling))


def _ratio(db: float) -> float:
    return float(10.0 ** (db / 20.0))


def _db(ratio: float) -> float:
    return float(20.0 * np.log10(ratio))


@cache
def _meter() -> Any:
    import pyloudnorm  # noqa: PLC0415 - it loads half of SciPy, which MIDI does without

    return pyloudnorm.Meter(RATE_HZ)


def _loud_blocks(samples: Samples, least: float) -> NDArray[np.float64]:
    """Return the stretches of single channels that reach a level, each with what is around it."""
    frames = -(-len(samples) // _BLOCK) * _BLOCK
    whole = np.zeros((frames + 2 * _EDGE, samples.shape[1]), samples.dtype)
    whole[_EDGE : _EDGE + len(samples)] = samples
    blocks = whole[_EDGE : _EDGE + frames].reshape(-1, _BLOCK, samples.shape[1])
    loud = np.maximum(blocks.max(axis=1), -blocks.min(axis=1)) >= least
    found = [
        whole[block * _BLOCK : (block + 1) * _BLOCK + 2 * _EDGE, channel]
        for block, channel in np.argwhere(loud)
    ]
    return np.array(found, np.float64).reshape(-1, _BLOCK + 2 * _EDGE)


def _oversampled(blocks: NDArray[np.float64]) -> NDArray[np.float64]:
    """Return blocks with four times as many samples, without the edges that only lead in and out."""
    from scipy.signal import resample_poly  # noqa: PLC0415 - as for the meter

    fine = resample_poly(blocks, _OVERSAMPLED, 1, axis=1)
    found: NDArray[np.float64] = fine[:, _EDGE * _OVERSAMPLED // 2 : -_EDGE * _OVERSAMPLED // 2]
    return found
