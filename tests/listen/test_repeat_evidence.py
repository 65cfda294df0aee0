from __future__ import annotations

import numpy as np
import pytest

from listen.tones import sound_of
from shedbook.listen.evidence import evidence_of

RATE = 24_000
AT_S = 0.6


def most_between(sound: np.ndarray, first_s: float, last_s: float) -> float:
    heard = evidence_of(sound.mean(axis=1), RATE)
    return float(heard.again[round(first_s / heard.frame_s) : round(last_s / heard.frame_s)].max())


@pytest.mark.parametrize("midi", [50, 62, 74, 86])
def test_a_tone_that_is_let_go_and_comes_back_begins_again(midi: int) -> None:
    """A tongued note of one pitch: the sound stops for a twentieth of a second (common practice)."""
    twice = sound_of([(0.1, AT_S - 0.05, midi), (AT_S, 1.1, midi)], rate=RATE)
    held = sound_of([(0.1, 1.1, midi)], rate=RATE)
    assert most_between(twice, AT_S - 0.03, AT_S + 0.03) > 3
    assert most_between(held, AT_S - 0.2, AT_S + 0.2) < 0


def test_a_tone_that_trembles_does_not_begin_again() -> None:
    """Breath vibrato of 5.5 Hz, 3 dB up and down: usual on a flute (from memory: 4 to 7 Hz)."""
    held = sound_of([(0.1, 1.6, 74)], rate=RATE)
    time = np.arange(len(held)) / RATE
    swelling = held * (10 ** (3 * np.sin(2 * np.pi * 5.5 * time) / 20))[:, None]
    assert most_between(swelling.astype(np.float32), 0.4, 1.3) < 3
