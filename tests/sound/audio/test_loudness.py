"""Loudness and true peak against the test signals of the standards and an independent meter."""

from __future__ import annotations

import numpy as np
import pyloudnorm
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.signal import resample_poly

from shedbook.sound.arranging.arrangement import Order
from shedbook.sound.audio.formats import format_of
from shedbook.sound.audio.levelling import levelled
from shedbook.sound.audio.limiter import limited
from shedbook.sound.audio.loudness import (
    SILENT,
    Levels,
    levels_of,
    loudness_lufs,
    pieces_of,
    true_peak_dbtp,
)
from shedbook.sound.audio.rendering import audio_file, rendered
from shedbook.sound.audio.soundfile_door import decode
from shedbook.sound.audio.tables.formats import FORMATS, RATE_HZ, FormatRow
from sound.studio import Samples, best, heard, independent_levels, played, sine

AUDIO = tuple(row for row in FORMATS if row.container)
TRACKS = (
    pytest.param(0, Order(), id="demonstration"),
    pytest.param(0, Order(parts="line"), id="line alone"),
    pytest.param(3, Order(parts="trio", tempo_bpm=60), id="slow trio: high peaks"),
)


def joined(*parts: Samples) -> Samples:
    return np.concatenate(parts)


def one_side(samples: Samples) -> Samples:
    return samples * np.array([1, 0], np.float32)


LOUDNESS = [
    pytest.param(sine(20, 1000, -23), -23.0, id="EBU Tech 3341, test 1"),
    pytest.param(sine(20, 1000, -33), -33.0, id="EBU Tech 3341, test 2"),
    pytest.param(
        joined(sine(10, 1000, -36), sine(60, 1000, -23), sine(10, 1000, -36)), -23.0,
        id="EBU Tech 3341, test 3",
    ),
    pytest.param(
        joined(*(sine(*part) for part in (
            (10, 1000, -72), (10, 1000, -36), (60, 1000, -23), (10, 1000, -36), (10, 1000, -72),
        ))),
        -23.0, id="EBU Tech 3341, test 4",
    ),
    pytest.param(
        joined(sine(20, 1000, -26), sine(20.1, 1000, -20), sine(20, 1000, -26)), -23.0,
        id="EBU Tech 3341, test 5",
    ),
    pytest.param(one_side(sine(20, 997, 0)), -3.01, id="BS.1770-4, annex 1: 997 Hz in one channel"),
]  # fmt: skip


@pytest.mark.parametrize(("samples", "lufs"), LOUDNESS)
def test_loudness_of_test_signals(samples: Samples, lufs: float) -> None:
    assert loudness_lufs(samples) == pytest.approx(lufs, abs=0.1)


def quarter_rate(degrees: float, amplitude: float, divisor: int = 4) -> Samples:
    """Return a sine at a part of the sample rate, with a phase: the true peak lies between the samples."""
    wave = amplitude * np.sin(2 * np.pi * np.arange(RATE_HZ) / divisor + np.radians(degrees))
    fade = np.minimum(1, np.minimum(np.arange(RATE_HZ), np.arange(RATE_HZ)[::-1]) / 4800)
    return np.repeat((wave * fade)[:, None], 2, axis=1).astype(np.float32)


PEAKS = [
    pytest.param(quarter_rate(0, 0.5), -6.0, id="EBU Tech 3341, test 15"),
    pytest.param(quarter_rate(45, 0.5), -6.0, id="EBU Tech 3341, test 16"),
    pytest.param(quarter_rate(60, 0.5, 6), -6.0, id="EBU Tech 3341, test 17"),
    pytest.param(quarter_rate(67.5, 0.5, 8), -6.0, id="EBU Tech 3341, test 18"),
    pytest.param(quarter_rate(45, 1.41), 3.0, id="EBU Tech 3341, test 19"),
]


@pytest.mark.parametrize(("samples", "dbtp"), PEAKS)
def test_true_peak_of_test_signals(samples: Samples, dbtp: float) -> None:
    """Tech 3341 allows +0.2 and −0.4 dB."""
    assert dbtp - 0.4 <= true_peak_dbtp(samples) <= dbtp + 0.2


def test_a_peak_far_under_the_ceiling_need_not_be_exact() -> None:
    soft = quarter_rate(45, 0.1)
    assert true_peak_dbtp(soft, under=-1.0) <= -20.0
    assert true_peak_dbtp(quarter_rate(45, 1.0), under=-1.0) == true_peak_dbtp(quarter_rate(45, 1.0))


@pytest.mark.parametrize(("number", "order"), TRACKS)
def test_the_meter_agrees_with_an_independent_one(number: int, order: Order) -> None:
    """libebur128 by way of pyebur128."""
    samples = heard(number, order)
    mine = levels_of(pieces_of(samples))
    lufs, _ = independent_levels(samples)
    assert mine.lufs == pytest.approx(lufs, abs=0.01)
    assert true_peak_dbtp(samples) == pytest.approx(independent_levels(samples)[1], abs=0.2)


@pytest.mark.parametrize(("number", "order"), TRACKS)
def test_the_loudness_is_the_one_that_another_library_finds(number: int, order: Order) -> None:
    """pyloudnorm, whose high pass lets everything through 0.04 dB softer than the standard's."""
    samples = heard(number, order)
    expected = pyloudnorm.Meter(RATE_HZ).integrated_loudness(samples.astype(np.float64))
    assert loudness_lufs(samples) == pytest.approx(expected + 0.04, abs=0.01)


@pytest.mark.parametrize("frames", [48_000, 48_001, 95_999, 96_000, 100_003])
@pytest.mark.parametrize("place", [10, 4_799, 47_999, 48_000, 48_063])
def test_a_peak_is_found_wherever_the_pieces_part(frames: int, place: int) -> None:
    """Two samples of one sign beside each other peak between them; SciPy's oversampling of the whole."""
    samples = np.zeros((frames, 2), np.float32)
    samples[place % frames : place % frames + 2, 1] = 0.7
    whole = np.abs(resample_poly(np.pad(samples, ((200, 200), (0, 0))), 4, 1, axis=0)).max()
    assert true_peak_dbtp(samples) == pytest.approx(20 * np.log10(whole), abs=0.001)


@pytest.mark.parametrize(("number", "order"), TRACKS)
@pytest.mark.parametrize("row", AUDIO, ids=lambda row: row.name)
def test_every_file_has_its_loudness_and_stays_under_the_ceiling(
    number: int, order: Order, row: FormatRow
) -> None:
    """EBU R 128: −1 dBTP at most; measured after decoding, by the independent meter. Nothing clips."""
    made = audio_file(heard(number, order), row)
    samples = decode(made.content)
    lufs, peak = independent_levels(samples)
    assert lufs == pytest.approx(-16.0, abs=0.2)
    assert peak <= -1.0 + 0.1  # meters differ by so much
    assert np.abs(samples).max() < 1.0
    assert made.levels.lufs == pytest.approx(lufs, abs=0.1)
    assert made.levels.peak_dbtp <= -1.0 + 0.01


@pytest.mark.parametrize("target", [-23.0, -16.0, -14.0])
def test_another_target_is_met(target: float) -> None:
    row = next(row for row in AUDIO if row.ending == ".mp3")
    made = audio_file(heard(0, Order()), row, target_lufs=target)
    assert independent_levels(decode(made.content))[0] == pytest.approx(target, abs=0.2)


def test_the_loudness_that_the_limiter_takes_is_given_back() -> None:
    """Short bursts over a quiet tone: holding them down takes some 0.4 LU; the result is within 0.15 LU."""
    time_s = np.arange(4 * RATE_HZ) / RATE_HZ
    burst = 0.5 * np.sin(2 * np.pi * 880 * time_s) * (time_s % 0.2 < 0.01)
    wave = 0.1 * np.sin(2 * np.pi * 440 * time_s) + burst
    found = levelled(np.repeat(wave[:, None], 2, axis=1).astype(np.float32), -12.0)
    assert found.held_db > 0.5
    assert independent_levels(found.raw * np.float32(found.gain))[0] == pytest.approx(-12.0, abs=0.15)


def test_silence_stays_silent() -> None:
    silence = np.zeros((RATE_HZ, 2), np.float32)
    found = levelled(silence)
    assert found.levels == Levels(SILENT, SILENT)
    assert not found.samples.any()
    for row in AUDIO:
        assert np.abs(decode(audio_file(silence, row).content)).max() < 1e-4


def test_a_click_that_the_gate_leaves_out_is_left_alone() -> None:
    click = np.zeros((RATE_HZ, 2), np.float32)
    click[100] = 1e-5
    assert np.array_equal(levelled(click).samples, click)


@pytest.mark.parametrize("seconds", [0.0, 0.01, 0.3, 0.4, 0.41])
def test_very_short_sounds_can_be_measured(seconds: float) -> None:
    assert loudness_lufs(sine(seconds, 1000, -20)) < 0


def test_a_sound_of_peaks_alone_keeps_under_the_ceiling_and_is_as_loud_as_it_can_be() -> None:
    clicks = np.zeros((4 * RATE_HZ, 2), np.float32)
    clicks[::12_000] = 0.5
    found = levelled(clicks)
    assert true_peak_dbtp(found.samples) <= -1.0 + 0.01
    assert found.held_db > 0


# The limiter.

signals = st.integers(0, 2**32 - 1).map(
    lambda seed: (
        np.random.default_rng(seed).normal(0, 0.3, (3000, 2)) * np.random.default_rng(seed + 1).uniform(0, 3)
    ).astype(np.float32)
)


@settings(deadline=None)
@given(signals, st.floats(0.1, 1.0))
def test_the_limiter_lets_nothing_over_the_ceiling(samples: Samples, ceiling: float) -> None:
    held = limited(samples, ceiling)
    assert held.shape == samples.shape
    assert np.abs(held).max() <= ceiling + 1e-6


@settings(deadline=None)
@given(signals)
def test_the_limiter_never_makes_anything_louder_nor_turns_it_over(samples: Samples) -> None:
    held = limited(samples, 0.5)
    assert (np.abs(held) <= np.abs(samples) + 1e-6).all()
    assert (held * samples >= 0).all()


def test_the_limiter_leaves_what_is_far_from_a_peak_alone() -> None:
    samples = sine(1, 440, -12)
    samples[RATE_HZ // 2] = 1.0
    held = limited(samples, 0.5)
    around = slice(RATE_HZ // 2 - 1000, RATE_HZ // 2 + 1000)
    apart = np.ones(len(samples), bool)
    apart[around] = False
    assert np.array_equal(held[apart], samples[apart])
    assert np.abs(held[around] - samples[around]).max() > 0


def test_the_limiter_looks_ahead() -> None:
    """The gain goes down before the peak, smoothly: no step."""
    samples = sine(1, 30, -10)
    samples[RATE_HZ // 2] = 1.0
    held = limited(samples, 0.4)
    quiet = np.abs(samples[:, 0]) > 0.05
    gain = np.ones(len(samples))
    gain[quiet] = held[quiet, 0] / samples[quiet, 0]
    before = gain[RATE_HZ // 2 - 480 : RATE_HZ // 2]
    assert before.min() < 0.9
    assert np.abs(np.diff(gain[quiet])).max() < 0.02


@pytest.mark.parametrize("ending", [".wav", ".flac"])
@pytest.mark.parametrize("seed", range(3))
def test_a_finer_meter_finds_no_peak_above_the_ceiling_either(ending: str, seed: int) -> None:
    """BS.1770 asks for four-fold oversampling at least; SciPy's eight-fold one is the judge here."""
    order = Order(parts="trio", tempo_bpm=60 + 40 * seed, loop=True, seed=seed)
    samples = rendered(played(3, order), best(), loop=True)
    found = decode(audio_file(samples, format_of(ending), target_lufs=-12.0).content)
    fine = resample_poly(found, 8, 1, axis=0)
    assert 20 * np.log10(np.abs(fine).max()) <= -1.0
