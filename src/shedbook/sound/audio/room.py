"""What a mix is filtered with, as spectra: the room, and the overtones that a phone can play.

Butterworth's band passes, bilinear, are written down as the frequencies have them, so that NumPy is enough.
"""

from __future__ import annotations

import hashlib
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from shedbook.sound.audio.tables import stage as table
from shedbook.sound.audio.tables.formats import RATE_HZ

_NOISE = b"the room"
_EARS = 2
_PHONE_FRAMES = 2048
"""How long the filter of the phone answers: behind 40 ms nothing is left of it."""

TAIL_FRAMES = round(table.ROOM_LENGTH_SECONDS * RATE_HZ)
"""How long the room answers; no filter here answers longer."""


def band(order: int, low_hz: float, high_hz: float, size: int) -> NDArray[np.complex128]:
    """Return the response of a band pass at the frequencies of a real transform.

    Args:
        order: 1 or 2, that of each slope.
        low_hz: where it has fallen by 3 dB below.
        high_hz: and above.
        size: the length of the transform.
    """
    low, high = (np.tan(np.pi * hertz / RATE_HZ) for hertz in (low_hz, high_hz))
    at = np.tan(np.pi * np.arange(size // 2 + 1) / size)
    at = np.clip(at, 1e-12, 1e12)
    slope = 1j * (at**2 - low * high) / (at * (high - low))
    return np.asarray(1 / (slope + 1 if order == 1 else slope**2 + 2**0.5 * slope + 1), np.complex128)


@lru_cache(maxsize=8)
def room_response(size: int) -> NDArray[np.complex64]:
    """Return how the room answers each ear, as spectra of a transform of this length."""
    return np.asarray(np.fft.rfft(_answers(), size, axis=1), np.complex64)


@lru_cache(maxsize=8)
def phone_response(size: int) -> NDArray[np.complex64]:
    """Return the filter behind the drive of the bass, as the spectrum of a transform of this length."""
    kept = np.fft.irfft(band(2, *table.PHONE_BAND_HZ, 4 * _PHONE_FRAMES))[:_PHONE_FRAMES]
    return np.asarray(np.fft.rfft(kept, size), np.complex64)


@lru_cache(maxsize=1)
def _answers() -> NDArray[np.float64]:
    """Return how the room answers a click: noise that dies away, another for each ear."""
    # A hash as noise: the same on every machine and with every NumPy, whose own chance takes long to load.
    drawn = np.frombuffer(hashlib.shake_256(_NOISE).digest(_EARS * TAIL_FRAMES * 4), "<i4")
    noise = drawn.reshape(_EARS, TAIL_FRAMES).astype(np.float64)
    falls = 10.0 ** (-3 * np.arange(TAIL_FRAMES) / (table.ROOM_SECONDS * RATE_HZ))
    size = 2 * TAIL_FRAMES
    shaped = np.fft.irfft(np.fft.rfft(noise * falls, size) * band(1, *table.ROOM_HZ, size))[:, :TAIL_FRAMES]
    shaped[:, : round(table.ROOM_DELAY_SECONDS * RATE_HZ)] = 0
    return np.asarray(shaped / np.sqrt((shaped**2).sum(axis=1, keepdims=True)), np.float64)
