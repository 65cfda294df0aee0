"""The voice that counts a track in: every number on its beat."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from math import gcd

import numpy as np
from numpy.typing import NDArray

from shedbook.errors import SoundError
from shedbook.sound.audio.tables import voices as table
from shedbook.sound.audio.tables.formats import RATE_HZ
from shedbook.sound.audio.voice_door import speech, voice_of, voice_there

_FULL_SCALE = 32768
_RATE_AT, _SAMPLES_AT = 24, 44
_LEVEL_FRAMES = RATE_HZ // 100
_SILENCE = 0.02
_FADE_FRAMES = RATE_HZ // 200


@dataclass(frozen=True, slots=True)
class Word:
    """A word of the count-in: its samples at `RATE_HZ`, one channel, and the frame that falls on the beat."""

    samples: NDArray[np.float32]
    beat: int


def spoken_count(
    counted: Sequence[tuple[float, int]], end_s: float, language: str = table.ENGLISH
) -> NDArray[np.float32]:
    """Return a voice that counts, one channel at `RATE_HZ` from the first beat of the track up to `end_s`.

    Args:
        counted: when each number is said, in seconds, and the number; in order.
        end_s: when the music begins; the last word has ended by then.
        language: the tag of the language in which is counted.

    A word begins a little ahead of its beat, so that its vowel falls on it; the first word of a track has no
    room for that.

    Raises:
        SoundError: if the program is not there, or does not speak.
    """
    place = voice_there()
    if not place:
        raise SoundError(f"Nothing here speaks: {table.PROGRAM} is not installed.", hint=table.INSTALL)
    found = np.zeros(round(end_s * RATE_HZ), np.float32)
    ends = [*(start for start, _ in counted[1:]), end_s]
    for (start, number), end in zip(counted, ends, strict=True):
        word = said(place, voice_of(language), number, end - start)
        first = max(0, round(start * RATE_HZ) - word.beat)
        room = found[first : first + len(word.samples)]
        room += word.samples[: len(room)]
    return found


@lru_cache(maxsize=64)
def said(place: str, voice: str, number: int, seconds: float) -> Word:
    """Return a number as a voice of a program says it, in less than the time that there is for it.

    Raises:
        SoundError: if the program does not speak.
    """
    most = round(seconds * table.FILLED * RATE_HZ)
    for speed in table.SPEEDS:
        word = _trimmed(_samples(speech(place, voice, number, speed)))
        if len(word.samples) - word.beat <= most:
            break
    kept = np.array(word.samples[: word.beat + most])
    fade = min(len(kept), _FADE_FRAMES)
    kept[len(kept) - fade :] *= np.linspace(1, 0, fade, dtype=np.float32)
    return Word(kept, word.beat)


def _samples(wav: bytes) -> NDArray[np.float32]:
    """Return the samples of a WAV file of one channel in 16 bit, at `RATE_HZ`."""
    rate = int.from_bytes(wav[_RATE_AT : _RATE_AT + 4], "little")
    samples = np.frombuffer(wav[_SAMPLES_AT : len(wav) // 2 * 2], "<i2")
    if not rate or not samples.any():
        raise SoundError("The program that speaks says nothing.", hint=table.INSTALL)
    return _at_our_rate(np.asarray(samples / _FULL_SCALE, np.float32), rate)


def _at_our_rate(samples: NDArray[np.float32], rate: int) -> NDArray[np.float32]:
    from scipy.signal import resample_poly  # noqa: PLC0415 - only for a voice

    shared = gcd(rate, RATE_HZ)
    return np.asarray(resample_poly(samples, RATE_HZ // shared, rate // shared), np.float32)


def _trimmed(samples: NDArray[np.float32]) -> Word:
    """Return a word without the silence around it, and where it is heard to begin."""
    width = np.ones(_LEVEL_FRAMES, np.float32) / _LEVEL_FRAMES
    level = np.sqrt(np.convolve(samples * samples, width, "same"))
    loud = np.flatnonzero(level > _SILENCE * level.max())
    first, last = int(loud[0]), int(loud[-1]) + 1
    beat = int(np.flatnonzero(level[first:last] > table.HEARD_AT * level.max())[0])
    return Word(samples[first:last], beat)
