"""Making a track as loud as it shall be, its peaks under a ceiling.

Loudness is measured quickly here; the finished file is measured exactly.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from shedbook.sound.audio.limiter import BLOCK, dips_of, limited, peaks_of
from shedbook.sound.audio.loudness import SILENT, Levels, gated_lufs, true_peak_dbtp
from shedbook.sound.audio.quick_loudness import HOP, energies_of, quick_lufs
from shedbook.sound.audio.stems import ratio
from shedbook.sound.audio.tables.formats import CEILING_DBTP, TARGET_LUFS

_ROUNDS = 5
_NEAR_LU = 0.05
_SPARE_DB = 0.01
_BETWEEN_DB = 0.55
"""How much lower than the ceiling samples are held at first: in our tracks a true peak lies 0.3 to 0.52 dB
higher than the highest sample."""


@dataclass(frozen=True, slots=True)
class Levelled:
    """Samples and the `gain` that brings them to their loudness, how loud that is, dB of peaks held down."""

    raw: NDArray[np.float32]
    gain: float
    levels: Levels
    held_db: float = 0.0

    @property
    def samples(self) -> NDArray[np.float32]:
        """The samples at their loudness."""
        return self.raw * np.float32(self.gain)


def levelled(
    samples: NDArray[np.floating],
    target_lufs: float = TARGET_LUFS,
    ceiling_dbtp: float = CEILING_DBTP,
    *,
    energies: NDArray[np.float64] | None = None,
) -> Levelled:
    """Return samples made as loud as the target, no peak above the ceiling; silence stays as it is.

    Where the two are at odds, peaks are held down by a limiter that looks ahead, and what that takes of
    the loudness is given back, so far as a few rounds can. `energies` are those of `energies_of` the samples,
    where they are known already.
    """
    raw = np.asarray(samples, np.float32)
    if energies is None:
        energies = energies_of(raw.T)
    loud = gated_lufs(energies)
    if loud == SILENT:
        return Levelled(raw, 1.0, Levels(SILENT, true_peak_dbtp(raw)))
    gain = target_lufs - loud
    peak = true_peak_dbtp(raw, under=ceiling_dbtp - gain) + gain
    if peak <= ceiling_dbtp:
        return Levelled(raw, ratio(gain), Levels(target_lufs, peak))
    return _held(raw, energies, gain, peak, target_lufs, ceiling_dbtp)


def _held(
    samples: NDArray[np.float32],
    energies: NDArray[np.float64],
    gain: float,
    peak: float,
    target: float,
    ceiling: float,
) -> Levelled:
    """Hold peaks under the ceiling and give back the loudness that this takes.

    What the limiter will take is told beforehand from the peaks of the milliseconds; so one round is mostly
    enough.
    """
    peaks = peaks_of(samples)
    lowered, last = ceiling - _BETWEEN_DB, 0.0
    gain = _foretold(peaks, energies, gain, target, ratio(lowered))
    for _ in range(_ROUNDS):
        times = np.float32(ratio(gain))
        held = limited(samples * times, ratio(lowered), peaks * times)
        loud, over = quick_lufs(held.T), true_peak_dbtp(held, under=ceiling)
        if over <= ceiling and abs(target - loud) <= _NEAR_LU:
            break
        lowered -= max(0.0, over - ceiling) and over - ceiling + _SPARE_DB
        gain += target - loud
    if over > ceiling:  # the last round: no more loudness is given back
        last = ceiling - over
        loud, over = loud + last, ceiling
    return Levelled(held, ratio(last), Levels(loud, over), max(0.0, peak - ceiling))


def _foretold(
    peaks: NDArray[np.float32], energies: NDArray[np.float64], gain: float, target: float, ceiling: float
) -> float:
    """Return the gain in dB with which held samples are about as loud as the target.

    A tenth of a second loses as much as its milliseconds do, each counted by the square of its peak.
    """
    whole = len(energies) * HOP // BLOCK
    if len(peaks) < whole:  # a sound shorter than a window, with silence behind it
        return gain
    squares = np.square(peaks[:whole].astype(np.float64)).reshape(len(energies), -1)
    sums = np.maximum(squares.sum(axis=1), 1e-30)
    for _ in range(_ROUNDS):
        dips = dips_of(peaks * np.float32(ratio(gain)), ceiling)[:whole].reshape(len(energies), -1)
        kept = (squares * np.square(dips)).sum(axis=1) / sums
        off = target - gated_lufs(energies * kept * ratio(gain) ** 2)
        gain += off
        if abs(off) < _NEAR_LU / 5:
            break
    return gain
