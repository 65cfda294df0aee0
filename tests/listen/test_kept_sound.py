from __future__ import annotations

import numpy as np
import pytest

from shedbook.listen.kept_sound import KeptSound


def kept(samples: np.ndarray, parts: int = 7) -> KeptSound:
    found = KeptSound()
    for part in np.array_split(samples.astype(np.float32), parts):
        found.add(part)
    return found


@pytest.mark.parametrize("loud", [1.0, 0.001])
def test_what_is_rounded_away_lies_far_under_the_sound_however_soft_it_is(loud: float) -> None:
    """16 bits: noise 98 dB under a sine at full scale (common practice)."""
    sound = loud * np.sin(np.arange(100_000) / 17)
    away = kept(sound)[:] - sound
    assert 20 * np.log10(np.std(sound) / np.std(away)) > 95


def test_any_part_can_be_taken_out_and_is_the_same_as_of_the_whole() -> None:
    sound = kept(np.random.default_rng(1).normal(0, 0.1, 75_001), 13)
    whole = sound[:]
    assert len(sound) == len(whole) == 75_001
    for first, end in ((0, 10), (23_990, 24_010), (10, 72_500), (71_999, 75_001), (74_000, 99_000), (5, 5)):
        np.testing.assert_array_equal(sound[first:end], whole[first:end])


def test_silence_stays_silent() -> None:
    assert not kept(np.zeros(50_000))[:].any()
