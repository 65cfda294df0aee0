"""A library that listens, which had no part in making what it hears: librosa.

It is loaded when first used, for few tests need it. By itself it then compiles each of its loops for every
type that samples may have, which takes a third of a minute; here they are compiled when they are called, for
the types that come.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from typing import Any

import numpy as np
import pytest
from numpy.typing import NDArray


@contextmanager
def _compiled_when_called() -> Iterator[None]:
    """Let numba's decorator for loops over arrays forget types; librosa loads modules within calls too."""
    import numba  # noqa: PLC0415

    decorator: Callable[[str], Callable[..., Any]] = numba.guvectorize

    def without_types(types: object, layout: str, **_: object) -> Callable[..., Any]:
        return decorator(layout)

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(numba, "guvectorize", without_types)
        yield


def onset_times(samples: NDArray[Any], rate_hz: int) -> NDArray[np.float64]:
    """Return where notes begin in a recording of one channel, in seconds."""
    with _compiled_when_called():
        from librosa.onset import onset_detect  # noqa: PLC0415

        found = onset_detect(y=np.ascontiguousarray(samples), sr=rate_hz, hop_length=256, units="time")
    return np.asarray(found, np.float64)


def pitch_hz(samples: NDArray[Any], rate_hz: int, near_hz: float) -> NDArray[np.float64]:
    """Return the pitch frame by frame, searched a fifth round the one that is expected (YIN)."""
    with _compiled_when_called():
        from librosa import yin  # noqa: PLC0415

        found = yin(
            samples, fmin=near_hz / 1.5, fmax=near_hz * 1.5, sr=rate_hz, frame_length=4096, hop_length=512
        )
    return np.asarray(found, np.float64)
