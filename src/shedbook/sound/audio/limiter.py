"""A limiter that looks ahead: short dips of the gain where peaks would stand above the ceiling.

The gain of each millisecond is what its peak needs; it is spread over the milliseconds around it and
smoothed over the same width, so that the smoothed gain is never above what is needed.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

BLOCK = 48
"""One millisecond at 48 kHz."""
_REACH = 6
"""How many milliseconds before and after a peak the gain dips."""
REACH_FRAMES = (2 * _REACH + 4) * BLOCK
"""What lies further away than so many frames does not change the gain at a place."""
_FROM_MIDDLE = (np.arange(BLOCK) + 0.5) / BLOCK - 0.5
_BETWEEN = np.stack([np.maximum(0, -_FROM_MIDDLE), 1 - np.abs(_FROM_MIDDLE), np.maximum(0, _FROM_MIDDLE)])
"""How much the gain at each sample of a millisecond has of the one before, its own and the one
behind: a straight line."""


def limited(
    samples: NDArray[np.floating], ceiling: float, peaks: NDArray[np.float32] | None = None
) -> NDArray[np.float32]:
    """Return samples whose peaks are held down.

    Args:
        samples: frames by channels, full scale being 1.
        ceiling: the highest absolute value that is left, as a share of full scale.
        peaks: `peaks_of` these samples, where they are known already.
    """
    frames = len(samples)
    blocks = -(-frames // BLOCK)
    padded = np.empty((blocks * BLOCK, samples.shape[1]), np.float32)
    padded[:frames] = samples
    padded[frames:] = 0
    tops = peaks_of(padded) if peaks is None else peaks
    if not blocks or tops.max() <= ceiling:
        return padded[:frames]
    blocks_of = padded.reshape(blocks, BLOCK, -1)
    near = np.pad(dips_of(tops, ceiling), 1, mode="edge")
    dips = np.flatnonzero(np.minimum(np.minimum(near[:-2], near[1:-1]), near[2:]) < 1.0 - 1e-7)
    beside = np.stack([near[dips], near[dips + 1], near[dips + 2]], axis=1)
    blocks_of[dips] *= (beside @ _BETWEEN).astype(np.float32)[:, :, None]
    return np.clip(padded[:frames], -ceiling, ceiling, out=padded[:frames])


def peaks_of(samples: NDArray[np.floating]) -> NDArray[np.float32]:
    """Return the highest absolute value of each millisecond, of either channel; the last may be shorter."""
    whole = len(samples) // BLOCK
    tops = np.abs(samples[: whole * BLOCK]).reshape(whole, -1).max(axis=1, initial=0.0)
    rest = samples[whole * BLOCK :]
    return np.asarray(np.append(tops, np.abs(rest).max()) if len(rest) else tops, np.float32)


def dips_of(peaks: NDArray[np.float32], ceiling: float) -> NDArray[np.float64]:
    """Return the gain of each millisecond that holds these peaks under a ceiling."""
    needed = np.minimum(1.0, ceiling / np.maximum(peaks, 1e-9))
    around = np.lib.stride_tricks.sliding_window_view(
        np.pad(needed, 2 * _REACH + 1, mode="edge"), 2 * _REACH + 3
    )
    shape = np.hanning(2 * _REACH + 3)[1:-1]
    return np.convolve(around.min(axis=1), shape / shape.sum(), mode="valid")
