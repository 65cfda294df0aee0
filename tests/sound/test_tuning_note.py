"""The tuning note: its pitch by ISO 16, whatever SoundFont plays it."""

import numpy as np
import pytest
from scipy.signal import butter, hilbert, sosfiltfilt

from shedbook.sound.audio.rendering import rendered
from shedbook.sound.audio.tables.formats import RATE_HZ, TAIL_SECONDS
from shedbook.sound.tuning_note import in_tune, off_cents, tuning_note
from sound.studio import named, off_by_cents, sine, synths

SYNTHS = pytest.mark.parametrize("synth", synths(), ids=named)


@SYNTHS
def test_the_tuning_note_is_a4(synth: object) -> None:
    mono = rendered(tuning_note(), synth).mean(axis=1)  # type: ignore[arg-type]
    assert len(mono) / RATE_HZ == pytest.approx(8 + TAIL_SECONDS)
    assert abs(off_by_cents(mono[RATE_HZ : 3 * RATE_HZ], 69)) <= 5


@SYNTHS
def test_the_tuning_note_is_in_tune_within_a_cent(synth: object) -> None:
    """ISO 16: 440 Hz; by the slope of the phase of the fundamental over five seconds."""
    mono = rendered(in_tune(tuning_note(), synth), synth).mean(axis=1)  # type: ignore[arg-type]
    fundamental = sosfiltfilt(butter(4, (380, 500), "bandpass", fs=RATE_HZ, output="sos"), mono)
    phase = np.unwrap(np.angle(hilbert(fundamental)))[RATE_HZ : 6 * RATE_HZ]
    hertz = np.polyfit(np.arange(len(phase)) / RATE_HZ, phase, 1)[0] / (2 * np.pi)
    assert abs(1200 * np.log2(hertz / 440)) <= 1


@pytest.mark.parametrize("cents", [-7.3, 0.0, 0.4, 12.0])
def test_what_a_tone_is_off_is_measured(cents: float) -> None:
    tone = sine(3, 440 * 2 ** (cents / 1200), -6) + sine(3, 3 * 440 * 2 ** (cents / 1200), 0)
    assert off_cents(tone.mean(axis=1), 440.0) == pytest.approx(cents, abs=0.05)


def test_of_silence_nothing_is_off() -> None:
    assert off_cents(np.zeros(RATE_HZ), 440.0) == 0.0
