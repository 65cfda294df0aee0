"""A slate that sounds: the number of a take in tones, so that recordings can be told apart, and its reader.

The tones are those of the keys of a telephone, pairs of one low and one high frequency (ITU-T Q.23): a star,
the figures of the number, a hash. Each lasts longer than a receiver needs (40 ms, ITU-T Q.24), so that they
are read through a loudspeaker, a room and a microphone.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from typing import NamedTuple, Protocol

import numpy as np
from numpy.typing import NDArray

LOW_HZ, HIGH_HZ = (697, 770, 852, 941), (1209, 1336, 1477)
KEYS = ("123", "456", "789", "*0#")
"""The keys by row and column (ITU-T Q.23)."""
TONE_S, PAUSE_S = 0.12, 0.08
_LEVEL = 0.22
_FADE_S = 0.005
_STEP_S, _WINDOW_S = 0.01, 0.03
_SHARE, _TWIST = 0.45, 12.0
"""How much of the energy a pair of tones has at least, and how unlike in power the two may be."""
_FEWEST = 4
"""In how many windows after one another a tone is heard at least."""
_LONGEST_GAP_S = 0.4


class OneChannel(Protocol):
    """Samples of one channel, that may be kept in less room than an array needs."""

    def __len__(self) -> int:
        """How many there are."""

    def __getitem__(self, which: slice, /) -> NDArray[np.float32]:
        """Return some of them."""


class Slate(NamedTuple):
    """A slate that was heard: its number, and where it begins and ends in seconds."""

    number: int
    start_s: float
    end_s: float


def slate_tones(number: int, rate: int) -> NDArray[np.float32]:
    """Return the slate of a take, one channel, full scale being 1.

    Args:
        number: the number of the take.
        rate: samples a second.
    """
    pieces = []
    for key in f"*{number:02}#":
        row = next(place for place, keys in enumerate(KEYS) if key in keys)
        pieces += [_tone(LOW_HZ[row], HIGH_HZ[KEYS[row].index(key)], rate), np.zeros(round(PAUSE_S * rate))]
    return np.asarray(np.concatenate(pieces), np.float32)


def _tone(low: int, high: int, rate: int) -> NDArray[np.floating]:
    time = np.arange(round(TONE_S * rate)) / rate
    tone = _LEVEL * (np.sin(2 * np.pi * low * time) + np.sin(2 * np.pi * high * time))
    fade = np.linspace(0, 1, round(_FADE_S * rate))
    tone[: len(fade)] *= fade
    tone[-len(fade) :] *= fade[::-1]
    return np.asarray(tone)


def read_slates(samples: NDArray[np.floating] | OneChannel, rate: int) -> tuple[Slate, ...]:
    """Return the slates that are heard in a recording, in order.

    Args:
        samples: one channel, or frames by channels.
        rate: samples a second.
    """
    if isinstance(samples, np.ndarray):
        samples = np.asarray(samples if samples.ndim == 1 else samples.mean(axis=1), np.float32)
    keys = _keys_heard(samples, rate)
    found: list[Slate] = []
    run: list[tuple[str, float]] = []
    for key, at in keys:
        if run and at - run[-1][1] > TONE_S + _LONGEST_GAP_S:
            run = []
        if key == "*":
            run = [(key, at)]
        elif key == "#":
            figures = "".join(one for one, _ in run[1:])
            if run and figures.isdecimal() and len(figures) < 6:
                found.append(Slate(int(figures), run[0][1], at + TONE_S))
            run = []
        elif run:
            run.append((key, at))
    return tuple(found)


def _keys_heard(mono: OneChannel, rate: int) -> list[tuple[str, float]]:
    """Return the keys that are heard, and when each begins."""
    step, window = round(_STEP_S * rate), round(_WINDOW_S * rate)
    if len(mono) < window:
        return []
    frequencies = np.array((*LOW_HZ, *HIGH_HZ))
    waves = np.exp(-2j * np.pi * np.outer(np.arange(window) / rate, frequencies)).astype(np.complex64)
    found: list[tuple[str, float]] = []
    for first in range(0, len(mono) - window + 1, 4096 * step):
        block = mono[first : first + 4095 * step + window]
        frames = np.lib.stride_tricks.sliding_window_view(block, window)[::step]
        found += [
            (key, (first + place * step) / rate)
            for place, key in enumerate(_told(frames, waves, window))
            if key
        ]
    return _joined(found)


def _told(frames: NDArray[np.float32], waves: NDArray[np.complex64], window: int) -> Sequence[str]:
    """Return the key of each frame, "" where none is heard."""
    power = np.abs(frames @ waves) ** 2 * (2 / window)
    energy = (frames.astype(np.float32) ** 2).sum(axis=1) + 1e-9
    low, high = power[:, : len(LOW_HZ)], power[:, len(LOW_HZ) :]
    best_low, best_high = low.max(axis=1), high.max(axis=1)
    twist = np.maximum(best_low, best_high) / np.maximum(np.minimum(best_low, best_high), 1e-12)
    heard = ((best_low + best_high) / energy > 2 * _SHARE) & (twist < _TWIST) & (energy > 1e-4)
    rows, columns = low.argmax(axis=1), high.argmax(axis=1)
    return [
        KEYS[row][column] if is_heard else ""
        for row, column, is_heard in zip(rows.tolist(), columns.tolist(), heard.tolist(), strict=True)
    ]


def _joined(heard: Sequence[tuple[str, float]]) -> list[tuple[str, float]]:
    """Return each key once for as long as it is heard, if that is long enough."""
    found: list[tuple[str, float]] = []
    start = 0
    apart = [
        place
        for place, (one, other) in enumerate(pairwise(heard), 1)
        if one[0] != other[0] or other[1] - one[1] > 2.5 * _STEP_S
    ]
    for end in (*apart, len(heard)):
        if end - start >= _FEWEST:
            found.append(heard[start])
        start = end
    return found
