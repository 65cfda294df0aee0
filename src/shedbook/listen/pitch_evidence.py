"""How well each pitch explains each moment of a sound: YIN's difference function, read at every pitch.

De Cheveigné & Kawahara 2002, YIN, a fundamental frequency estimator for speech and music, JASA 111(4): the
sum of squared differences between a window and the window one period later. Here it is divided by the energy
of both windows (McLeod & Wyvill 2005, A smarter way to find pitch, ICMC): 1 where the two are alike, 0 where
they have nothing in common (both papers from memory). It is kept for every pitch, and no single pitch is
chosen yet: what comes after knows more.
"""

from __future__ import annotations

from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from shedbook.listen.tables.hearing import HIGHEST_MIDI, HOP_S, LOWEST_MIDI, STEPS_A_SEMITONE, WINDOW_S

PITCHES = HIGHEST_MIDI - LOWEST_MIDI + 1
_BATCH = 256
_QUIET = 1e-9


def hop_of(rate: int) -> int:
    """Return how many samples lie between two frames."""
    return round(rate * HOP_S)


def window_of(rate: int) -> int:
    """Return how many samples are compared."""
    return round(rate * WINDOW_S)


def views_of(samples: NDArray[np.float32], rate: int, width: int, frames: int) -> NDArray[np.float32]:
    """Return so many samples around each frame, without copying them."""
    padded = np.pad(samples, (width // 2, width + hop_of(rate)))
    return np.lib.stride_tricks.sliding_window_view(padded, width)[:: hop_of(rate)][:frames]


def likeness(samples: NDArray[np.float32], rate: int) -> NDArray[np.float32]:
    """Return frames by pitches: how alike the sound and itself one period later are, −1 to 1.

    Args:
        samples: one channel.
        rate: its samples a second.

    The columns are the pitches of `pitch_steps`.
    """
    lags = _longest_lag(rate)
    frames = 1 + max(0, len(samples) - 1) // hop_of(rate)
    views = views_of(samples, rate, window_of(rate) + lags, frames)
    at, weights = _reading(rate)
    found = np.empty((frames, len(at)), np.float32)
    for first in range(0, frames, _BATCH):
        alike = _alike(views[first : first + _BATCH], window_of(rate), lags)
        found[first : first + _BATCH] = sum(
            alike[:, at + place] * weight for place, weight in enumerate(weights)
        )
    return found


def _alike(views: NDArray[np.float32], window: int, lags: int) -> NDArray[np.float32]:
    """Return frames by lags (0 to `lags` included): twice the correlation over both energies."""
    from scipy.fft import irfft, next_fast_len, rfft  # noqa: PLC0415 - takes a while to load

    size = next_fast_len(views.shape[1] + 1, real=True)
    whole = rfft(views, size, axis=1)
    head = rfft(views[:, :window], size, axis=1)
    together = irfft(whole * np.conj(head), size, axis=1)[:, : lags + 1]
    squares = np.cumsum(np.square(views, dtype=np.float64), axis=1)
    squares = np.concatenate([np.zeros((len(views), 1)), squares], axis=1)
    energy = squares[:, window : window + lags + 1] - squares[:, : lags + 1]
    return np.asarray(2 * together / (energy + energy[:, :1] + _QUIET * window), np.float32)


def _longest_lag(rate: int) -> int:
    """Return one sample more than the period of the lowest pitch, and two for the reading between samples."""
    return int(rate / frequency_hz(LOWEST_MIDI - 0.5)) + 3


def frequency_hz(midi: float) -> float:
    """Return the frequency of a pitch, A4 being 440 Hz (ISO 16)."""
    return float(440.0 * 2.0 ** ((midi - 69) / 12))


def pitch_steps() -> NDArray[np.float64]:
    """Return the MIDI number, in fractions, of each column of `likeness`."""
    count = PITCHES * STEPS_A_SEMITONE
    return LOWEST_MIDI - 0.5 + (np.arange(count) + 0.5) / STEPS_A_SEMITONE


@lru_cache(maxsize=4)
def _reading(rate: int) -> tuple[NDArray[np.intp], NDArray[np.float32]]:
    """Return how lags are read between samples (cubic, Catmull and Rom).

    For each pitch that is the first of four lags in a row, and the weights of the four.
    """
    lag = rate / np.array([frequency_hz(float(midi)) for midi in pitch_steps()])
    at = lag.astype(np.intp)
    x = lag - at
    weights = (
        -0.5 * x + x**2 - 0.5 * x**3,
        1 - 2.5 * x**2 + 1.5 * x**3,
        0.5 * x + 2 * x**2 - 1.5 * x**3,
        -0.5 * x**2 + 0.5 * x**3,
    )
    return at - 1, np.asarray(weights, np.float32)
