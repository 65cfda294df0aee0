"""Making a track as loud as it shall be, its peaks under a ceiling.

Loudness is measured quickly here; the finished file is measured exactly.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from shedbook.sound.audio.limiter import limited
from shedbook.sound.audio.loudness import SILENT, Levels, true_peak_dbtp
from shedbook.sound.audio.quick_loudness import quick_lufs
from shedbook.sound.audio.stems import ratio
from shedbook.sound.audio.tables.formats import CEILING_DBTP, TARGET_LUFS

_ROUNDS = 5
_NEAR_LU = 0.05
_SPARE_DB = 0.01


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
    loud: float | None = None,
) -> Levelled:
    """Return samples made as loud as the target, no peak above the ceiling; silence stays as it is.

    Where the two are at odds, peaks are held down by a limiter that looks ahead, and what that takes of
    the loudness is given back, so far as a few rounds can. `loud` is the loudness of the samples where it is
    known already.
    """
    loud = quick_lufs(samples.T) if loud is None else loud
    raw = np.asarray(samples, np.float32)
    if loud == SILENT:
        return Levelled(raw, 1.0, Levels(SILENT, true_peak_dbtp(raw)))
    gain = target_lufs - loud
    peak = true_peak_dbtp(raw, under=ceiling_dbtp - gain) + gain
    if peak <= ceiling_dbtp:
        return Levelled(raw, ratio(gain), Levels(target_lufs, peak))
    return _held(raw * np.float32(ratio(gain)), peak, target_lufs, ceiling_dbtp)


def _held(samples: NDArray[np.float32], peak: float, target: float, ceiling: float) -> Levelled:
    """Hold peaks under the ceiling and give back the loudness that this takes."""
    lowered, gain, last = ceiling, 0.0, 0.0
    for _ in range(_ROUNDS):
        held = limited(samples * np.float32(ratio(gain)), ratio(lowered))
        loud, over = quick_lufs(held.T), true_peak_dbtp(held, under=ceiling)
        if over <= ceiling and abs(target - loud) <= _NEAR_LU:
            break
        lowered -= max(0.0, over - ceiling) and over - ceiling + _SPARE_DB
        gain += target - loud
    if over > ceiling:  # the last round: no more loudness is given back
        last = ceiling - over
        loud, over = loud + last, ceiling
    return Levelled(held, ratio(last), Levels(loud, over), max(0.0, peak - ceiling))
