"""The quick meter against pyloudnorm, which implements ITU-R BS.1770 by itself."""

from __future__ import annotations

import numpy as np
import pyloudnorm
import pytest

from shedbook.sound.arranging.arrangement import Order
from shedbook.sound.audio.loudness import SILENT
from shedbook.sound.audio.quick_loudness import quick_lufs
from shedbook.sound.audio.tables.formats import RATE_HZ
from sound.studio import heard, sine


@pytest.mark.parametrize("order", [Order(), Order(parts="trio", feel="samba"), Order(parts="line")])
def test_a_track_within_a_tenth(order: Order) -> None:
    samples = heard(0, order)
    expected = pyloudnorm.Meter(RATE_HZ).integrated_loudness(samples.astype(np.float64))
    assert quick_lufs(samples.T) == pytest.approx(expected, abs=0.1)


@pytest.mark.parametrize("hertz", [50, 100, 997, 8000])
def test_a_tone_within_a_tenth(hertz: float) -> None:
    samples = sine(3, hertz, -20)
    expected = pyloudnorm.Meter(RATE_HZ).integrated_loudness(samples.astype(np.float64))
    assert quick_lufs(samples.T) == pytest.approx(expected, abs=0.1)


def test_silence_and_what_is_shorter_than_a_window() -> None:
    assert quick_lufs(np.zeros((2, 100), np.float32)) == SILENT
    assert quick_lufs(np.zeros((2, RATE_HZ), np.float32)) == SILENT
    assert quick_lufs(sine(0.25, 997, -10).T) > -30
