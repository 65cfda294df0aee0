"""Which pitch classes sound when in a track, and whether its sound agrees: the key by ear.

A track that lies under the name of another, or in another key, is as long and as loud as it should be. So
what was played is kept as the pitch classes of each half second, and the sound is held against that in each
of the twelve transpositions: the one that fits best must be none at all.
"""

from __future__ import annotations

from collections.abc import Collection

import numpy as np
from numpy.typing import NDArray

from shedbook.sound.audio.tables.formats import RATE_HZ
from shedbook.sound.score.performance import Performance
from shedbook.sound.score.written_score import COUNT, DRUMS

_PIECE = RATE_HZ // 2
"""Frames of a piece, half a second: two hertz between lines of its spectrum, half of a low half step."""
_LOW_HZ, _HIGH_HZ = 60.0, 1500.0
_A4_HZ, _A4 = 440.0, 69
_LEAST_PIECES = 4
_CLASSES = 12


def heard_classes(performance: Performance, without: Collection[str] = ()) -> str:
    """Return the pitch classes of each half second, three hexadecimal digits each, C being the lowest bit.

    Drums and clicks have none, and players that are left out do not count.
    """
    pieces = int(performance.seconds * 2)
    masks = [0] * pieces
    for part in performance.parts:
        if part.player in (DRUMS, COUNT, *without):
            continue
        for note in part.notes:
            first, last = performance.seconds_at(note.start), performance.seconds_at(note.end)
            for piece in range(int(first * 2), min(pieces, int(last * 2 + 0.8))):
                masks[piece] |= 1 << note.midi % _CLASSES
    return "".join(f"{mask:03x}" for mask in masks)


def transposition_heard(samples: NDArray[np.float32], heard: str) -> int | None:
    """Return by how many half steps up the sound fits what was played best; 0 where it agrees.

    Args:
        samples: frames by channels at `RATE_HZ`.
        heard: as `heard_classes` gives it.

    Returns:
        None where too little sounds to tell.
    """
    masks = np.array([int(heard[at : at + 3], 16) for at in range(0, len(heard), 3)], dtype=np.int64)
    pieces = min(len(masks), len(samples) // _PIECE)
    wanted = (masks[:pieces, None] >> np.arange(_CLASSES) & 1).astype(np.float64)
    told = (wanted.sum(axis=1) > 0) & (wanted.sum(axis=1) < _CLASSES)
    if told.sum() < _LEAST_PIECES:
        return None
    sound = _classes(samples[: pieces * _PIECE].mean(axis=1).reshape(pieces, _PIECE))[told]
    wanted = wanted[told] - wanted[told].mean(axis=1, keepdims=True)
    fits = [float((sound * np.roll(wanted, up, axis=1)).sum()) for up in range(_CLASSES)]
    return int(np.argmax(fits))


def _classes(pieces: NDArray[np.float32]) -> NDArray[np.float64]:
    """Return how strong each pitch class is in pieces of sound, as shares of each piece."""
    spectrum = np.abs(np.fft.rfft(pieces * np.hanning(_PIECE), axis=1))
    hertz = np.fft.rfftfreq(_PIECE, 1 / RATE_HZ)
    used = (hertz >= _LOW_HZ) & (hertz <= _HIGH_HZ)
    midi = _A4 + 12 * np.log2(hertz[used] / _A4_HZ)
    near = np.abs(midi - np.rint(midi)) < 0.3
    of_class = np.rint(midi).astype(int) % _CLASSES
    strong = np.sqrt(spectrum[:, used])
    found = np.stack(
        [strong[:, near & (of_class == number)].mean(axis=1) for number in range(_CLASSES)], axis=1
    )
    shares: NDArray[np.float64] = found / np.maximum(found.sum(axis=1, keepdims=True), 1e-9)
    return shares
