"""The slow drift of players, as a series in time.

Source: Hennig et al. 2011 and Räsänen et al. 2015 (from memory): people wander; the figures are our own.
"""

from __future__ import annotations

from fractions import Fraction

import numpy as np
import pytest

from shedbook.sound.score.drift import by_tempo, drift
from shedbook.sound.score.seeded_dice import seeded


def test_milliseconds_go_with_the_length_of_the_beat_within_bounds() -> None:
    tempos = (40, 96, 100, 120, 150, 200, 300)
    found = [by_tempo(Fraction(tempo)) for tempo in tempos]
    assert found == pytest.approx([1.25, 1.25, 1.2, 1, 0.8, 0.6, 0.6])


@pytest.mark.parametrize("beats", [1, 2, 17])
def test_a_drift_has_a_place_for_each_beat_and_stands_still_at_both_ends(beats: int) -> None:
    found = drift(seeded(1, "drift"), beats, 8)
    assert len(found) == beats + 1
    assert found[0] == found[-1] == 0
    assert all(found[1:-1])


def test_a_drift_wanders_as_far_as_is_said() -> None:
    """Its standard deviation, what is left of it after a beat, and the bound of two and a half deviations."""
    found = np.array(drift(seeded(2, "drift"), 20_000, 4.0)[100:-1])
    assert found.std() == pytest.approx(4.0, rel=0.07)
    assert np.corrcoef(found[:-1], found[1:])[0, 1] == pytest.approx(0.9, abs=0.01)
    assert abs(found.mean()) < 0.4
    assert np.abs(found).max() == pytest.approx(10.0)
    assert found.max() == -found.min()
