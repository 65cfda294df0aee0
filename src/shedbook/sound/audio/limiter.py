"""A limiter that looks ahead: short dips of the gain where peaks would stand above the ceiling.

The gain of each millisecond is what its peak needs; it is spread over the milliseconds around it and
smoothed over the same width, so that the smoothed gain is never above what is needed.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

_BLOCK = 48
"""One millisecond at 48 kHz."""
_REACH = 6
"""How many milliseconds before and after a peak the gain dips."""
REACH_FRAMES = (2 * _REACH + 4) * _BLOCK
"""What lies further away than so many frames does not change the gain at a place."""
_FROM_MIDDLE = (np.arange(_BLOCK) + 0.5) / _BLOCK - 0.5
_BETWEEN = np.stack([np.maximum(0, -_FROM_MIDDLE), 1 - np.abs(_FROM_MIDDLE), np.maximum(0, _FROM_MIDDLE)])
"""How much the gain at each sample of a millisecond has of the one before, its own and the one
behind: a straight line."""


def limited(samples: NDArray[np.floating], ceiling: float) -> NDArray[np.float32]:
    """Return samples whose peaks are held down.

    Args:
        samples: frames by channels, full scale being 1.
        ceiling: the highest absolute value that is left, as a share of full scale.
    """
    frames = len(samples)
    blocks = -(-frames // _BLOCK)
    padded = np.empty((blocks * _BLOCK, samples.shape[1]), np.float32)
    padded[:frames] = samples
    padded[frames:] = 0
    rows = padded.reshape(blocks, -1)
    peaks = np.maximum(rows.max(axis=1, initial=0.0), -rows.min(axis=1, initial=0.0))
    if not blocks or peaks.max() <= ceiling:
        return padded[:frames]
    needed = np.minimum(1.0, ceiling / np.maximum(peaks, 1e-9))
    around = np.lib.stride_tricks.sliding_window_view(
        np.pad(needed, 2 * _REACH + 1, mode="edge"), 2 * _REACH + 3
    )
    dipped = around.min(axis=1)
    shape = np.hanning(2 * _REACH + 3)[1:-1]
    smooth = np.convolve(dipped, shape / shape.sum(), mode="valid")
    blocks_of = padded.reshape(blocks, _BLOCK, -1)
    near = np.pad(smooth, 1, mode="edge")
    dips = np.flatnonzero(np.minimum(np.minimum(near[:-2], near[1:-1]), near[2:]) < 1.0 - 1e-7)
    beside = np.stack([near[dips], near[dips + 1], near[dips + 2]], axis=1)
    blocks_of[dips] *= (beside @ _BETWEEN).astype(np.float32)[:, :, None]
    return np.clip(padded[:frames], -ceiling, ceiling, out=padded[:frames])
