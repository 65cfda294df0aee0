"""Slates: tones by ITU-T Q.23, read through noise, a room and another rate.

Source of the frequencies: ITU-T Q.23, from memory; the spectrum is SciPy's.
"""

from __future__ import annotations

import numpy as np
import pytest
from numpy.typing import NDArray
from scipy.signal import find_peaks, resample_poly

from shedbook.sound.audio.slate import KEYS, PAUSE_S, TONE_S, read_slates, slate_tones

RATE = 48_000
Q23 = {
    "1": (697, 1209), "2": (697, 1336), "3": (697, 1477), "4": (770, 1209), "5": (770, 1336),
    "6": (770, 1477), "7": (852, 1209), "8": (852, 1336), "9": (852, 1477), "*": (941, 1209),
    "0": (941, 1336), "#": (941, 1477),
}  # fmt: skip


def test_every_key_has_its_pair_of_tones() -> None:
    assert sorted("".join(KEYS)) == sorted(Q23)
    for number in (12, 34, 56, 78, 90):
        sound = slate_tones(number, RATE)
        for place, key in enumerate(f"*{number:02}#"):
            first = round(place * (TONE_S + PAUSE_S) * RATE)
            tone = sound[first : first + round(TONE_S * RATE)]
            spectrum = np.abs(np.fft.rfft(tone * np.hanning(len(tone)), 1 << 16))
            peaks, _ = find_peaks(spectrum, height=spectrum.max() / 2, distance=100)
            heard = tuple(peaks * RATE / (1 << 16))
            assert heard == pytest.approx(Q23[key], abs=2)


def test_tones_are_long_enough_for_a_receiver() -> None:
    """ITU-T Q.24: 40 ms, from memory."""
    assert TONE_S >= 0.04
    assert PAUSE_S >= 0.04


def session(numbers: tuple[int, ...], rate: int = RATE) -> tuple[NDArray[np.float32], list[float]]:
    """Return a recording with a slate every six seconds and a line of sawtooth notes behind each."""
    rng = np.random.default_rng(2)
    sound = np.zeros(6 * rate * len(numbers) + rate, np.float32)
    starts = []
    for place, number in enumerate(numbers):
        at = 6.0 * place + float(rng.uniform(0.2, 0.6))
        slate = slate_tones(number, rate) * 0.4
        sound[round(at * rate) : round(at * rate) + len(slate)] += slate
        starts.append(at)
        for step in range(12):
            time = np.arange(round(0.25 * rate)) / rate
            frequency = 440 * 2 ** (rng.integers(-12, 15) / 12)
            first = round((at + 2 + 0.25 * step) * rate)
            sound[first : first + len(time)] += (0.3 * (2 * ((frequency * time) % 1) - 1)).astype(np.float32)
    return sound, starts


@pytest.mark.parametrize("rate", [44_100, 48_000, 96_000])
@pytest.mark.parametrize("noise", [0.0, 0.02])
def test_slates_are_told_from_the_music(rate: int, noise: float) -> None:
    numbers = (1, 7, 23, 99, 100, 101)
    sound, starts = session(numbers, rate)
    sound = sound + np.random.default_rng(5).normal(0, noise, len(sound)).astype(np.float32)
    found = read_slates(sound, rate)
    assert tuple(one.number for one in found) == numbers
    for one, start in zip(found, starts, strict=True):
        assert one.start_s == pytest.approx(start, abs=0.03)
        assert one.end_s == pytest.approx(start + 0.72 + 0.2 * (one.number > 99), abs=0.1)


def test_through_a_room_and_a_telephones_rate() -> None:
    """Three reflections, and no more than 4 kHz."""
    sound, _ = session((4, 58))
    room = sound.copy()
    for delay, share in ((0.011, 0.4), (0.023, 0.3), (0.041, 0.2)):
        room[round(delay * RATE) :] += share * sound[: -round(delay * RATE)]
    narrow = np.asarray(resample_poly(room, 1, 6), np.float32)
    assert [one.number for one in read_slates(narrow, 8_000)] == [4, 58]


def test_music_and_silence_have_no_slate() -> None:
    sound, starts = session((5,))
    music = sound[round((starts[0] + 1.5) * RATE) :]
    assert read_slates(music, RATE) == ()
    assert read_slates(np.zeros(RATE, np.float32), RATE) == ()
    assert read_slates(np.zeros(3, np.float32), RATE) == ()
    assert read_slates(np.stack([sound, sound], axis=1), RATE)[0].number == 5
