from __future__ import annotations

import numpy as np
import pytest

from listen.tones import sound_of
from shedbook.listen.pitch_evidence import frequency_hz, likeness, pitch_steps


@pytest.mark.parametrize(("midi", "hertz"), [(69, 440.0), (60, 261.6256), (57, 220.0)])
def test_a_pitch_has_its_frequency(midi: int, hertz: float) -> None:
    """ISO 16: A4 is 440 Hz; middle C by equal temperament: common practice."""
    assert frequency_hz(midi) == pytest.approx(hertz, abs=1e-3)


@pytest.mark.parametrize("midi", [44, 55, 60, 69, 76, 88])
@pytest.mark.parametrize("rate", [22_050, 24_000])
def test_a_tone_is_most_like_itself_after_a_period_of_its_pitch_or_of_some_of_them(
    midi: int, rate: int
) -> None:
    sound = sound_of([(0.0, 0.5, midi)], rate=rate).mean(axis=1)
    row = likeness(sound, rate)[40]
    steps = pitch_steps()
    assert row[np.abs(steps - midi).argmin()] > 0.97
    if midi > 50:
        assert row[np.abs(steps - (midi + 5)).argmin()] < 0.8


def test_noise_is_like_nothing() -> None:
    noise = np.random.default_rng(1).normal(0, 0.1, 24_000).astype(np.float32)
    assert likeness(noise, 24_000)[10:-10].max(axis=1).mean() < 0.6
