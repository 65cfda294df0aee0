"""Loudness as the mix needs it: quickly, to a tenth of an LU, with NumPy alone.

The K-weighting of ITU-R BS.1770 is laid over the spectrum of each tenth of a second instead of being run as a
filter. What a finished file has is measured by `loudness`, which is exact.
"""

from __future__ import annotations

from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from shedbook.sound.audio.loudness import gated_lufs
from shedbook.sound.audio.tables.formats import RATE_HZ
from shedbook.sound.audio.tables.loudness import HOPS_A_SECOND, K_WEIGHTING

HOP = RATE_HZ // HOPS_A_SECOND
_PIECE = 20
"""How many hops are transformed at a time: as many as fit the processor's cache."""


def quick_lufs(samples: NDArray[np.float32]) -> float:
    """Return the loudness of a sound, two channels by frames, gated; −inf for silence."""
    return gated_lufs(energies_of(samples))


def energies_of(samples: NDArray[np.float32]) -> NDArray[np.float64]:
    """Return the K-weighted mean square of each tenth of a second of a sound, two channels by frames.

    What is left behind the last whole tenth of a second counts as one with silence behind it, in a sound
    shorter than a window only.
    """
    frames = samples.shape[1]
    whole = frames // HOP * HOP
    energies = [
        _energies(samples[:, first : min(whole, first + _PIECE * HOP)])
        for first in range(0, whole, _PIECE * HOP)
    ]
    if frames < 4 * HOP:
        energies.append(_energies(np.pad(samples[:, whole:], ((0, 0), (0, whole + HOP - frames)))))
    return np.concatenate(energies) if energies else np.zeros(0)


def _energies(samples: NDArray[np.float32]) -> NDArray[np.float64]:
    """Return the K-weighted mean squares of whole hops, both channels together (Parseval's theorem)."""
    spectra = np.fft.rfft(samples.reshape(len(samples), -1, HOP), axis=2)
    power = np.square(spectra.real) + np.square(spectra.imag)
    heard: NDArray[np.float64] = (power @ _weights()).sum(axis=0, dtype=np.float64)
    return heard


@lru_cache(maxsize=1)
def _weights() -> NDArray[np.float32]:
    """Return what the power of each bin counts in the mean square of a hop."""
    turns = np.exp(-2j * np.pi * np.arange(HOP // 2 + 1) / HOP)
    found = np.full(len(turns), 2.0)
    found[[0, -1]] = 1.0
    for b0, b1, b2, a0, a1, a2 in K_WEIGHTING:
        above = b0 + b1 * turns + b2 * turns**2
        below = a0 + a1 * turns + a2 * turns**2
        found *= np.abs(above / below) ** 2
    return np.asarray(found / HOP**2, np.float32)
