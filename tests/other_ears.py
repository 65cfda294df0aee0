"""A library that listens, which had no part in making what it hears: librosa.

It is loaded when first used: it compiles for a quarter of a minute, and few tests need it.
"""

from __future__ import annotations

from typing import Any

import numpy as np
from numpy.typing import NDArray


def onset_times(samples: NDArray[Any], rate_hz: int) -> NDArray[np.float64]:
    """Return where notes begin in a recording of one channel, in seconds."""
    from librosa.onset import onset_detect  # noqa: PLC0415

    found = onset_detect(y=np.ascontiguousarray(samples), sr=rate_hz, hop_length=256, units="time")
    return np.asarray(found, np.float64)


def pitch_hz(samples: NDArray[Any], rate_hz: int, near_hz: float) -> NDArray[np.float64]:
    """Return the pitch frame by frame, searched a fifth round the one that is expected (YIN)."""
    from librosa import yin  # noqa: PLC0415

    found = yin(
        samples, fmin=near_hz / 1.5, fmax=near_hz * 1.5, sr=rate_hz, frame_length=4096, hop_length=512
    )
    return np.asarray(found, np.float64)
