"""What speaks for a note that begins again at the pitch that sounds: the dip of the level between two.

Between two notes of one pitch neither pitch nor spectrum need change, and what a beginning looks like depends
on the instrument. What does not is that the tone is let go and comes back (common practice: a wind instrument
tongues, a string is stopped or struck): the level dips, falls before and rises after.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float32]

_RANGE_DB = 45.0
_BEFORE, _AFTER, _LOW = (-20, -3), (2, 14), (-8, 2)
"""The frames, from that of the beginning, in which the level stands before, after, and lowest between."""
_RISE, _FALL, _STEP = (-3, 1), (-18, 0), 4
_CHANGES = (-9, 9)
_LITTLE_DB, _MUCH_DB = 6.0, 12.0


def repeat_features(level: Floats, certain: Floats, change: Floats) -> Floats:
    """Return frames by features of a dip around each frame.

    Args:
        level: in dB from the loud tenth of the sound.
        certain: how surely there is a pitch, −log(1 − likeness).
        change: how much of the pitch changes there, 0 to 1.
    """
    heard = np.maximum(level, -_RANGE_DB)
    deep = _dip(heard)
    steps = _ahead(heard, 0, _STEP)
    rise, fall = _most(steps, *_RISE), _most(-steps, *_FALL)
    columns = (
        deep,
        np.minimum(deep, _LITTLE_DB),
        np.maximum(deep - _MUCH_DB, 0),
        rise,
        np.minimum(rise, fall),
        _ahead(heard, -3, 3),
        _ahead(heard, -5, 0) * -1 + _ahead(heard, 0, 5),
        _dip(certain),
        change,
        _most(change, *_CHANGES),
    )
    return np.column_stack(columns).astype(np.float32)


def _dip(values: Floats) -> Floats:
    """Return by how much the values between lie under those before and those after."""
    return np.minimum(_most(values, *_BEFORE), _most(values, *_AFTER)) + _most(-values, *_LOW)


def _most(values: Floats, first: int, last: int) -> Floats:
    """Return the most of the values from `first` to `last` frames after each frame."""
    from scipy.ndimage import maximum_filter1d  # noqa: PLC0415 - takes a while to load

    edge = max(abs(first), abs(last))
    padded = np.pad(values, edge, mode="edge")
    size = last - first + 1
    found = maximum_filter1d(padded, size, origin=0, mode="nearest")
    at = edge + first + size // 2
    return np.asarray(found[at : at + len(values)], np.float32)


def _ahead(values: Floats, first: int, last: int) -> Floats:
    """Return by how much the value `last` frames after each frame lies over that `first` frames after it."""
    edge = max(abs(first), abs(last))
    padded = np.pad(values, edge, mode="edge")
    count = len(values)
    return np.asarray(padded[edge + last : edge + last + count] - padded[edge + first : edge + first + count])
