"""What the tests of the audio share: synthesisers, short performances, an independent meter."""

from __future__ import annotations

import contextlib
from fractions import Fraction
from functools import lru_cache
from importlib.util import find_spec
from pathlib import Path

import numpy as np
import pyebur128
from numpy.typing import NDArray

from other_ears import pitch_hz
from shedbook.errors import SoundError
from shedbook.sound.arranging.arrangement import Order
from shedbook.sound.audio.fluidsynth_door import Fluid
from shedbook.sound.audio.midirenderer_door import Wheel
from shedbook.sound.audio.rendering import rendered
from shedbook.sound.audio.sound_fonts import SoundFont, find_font
from shedbook.sound.audio.synthesiser import Synth
from shedbook.sound.audio.tables.formats import RATE_HZ
from shedbook.sound.feels.known_feels import feel_named
from shedbook.sound.score.performance import Performance, perform
from shedbook.sound.score.written_score import KeyAt, Part, PartNote, Score
from shedbook.sound.track import performance_of
from shedbook.theory.key import Key
from shedbook.theory.metre import Metre
from shedbook.theory.pitch import NoteName
from sound.demo_scores import demo

Samples = NDArray[np.float32]


def package_font() -> SoundFont:
    """Return the font that a Python package carries, whatever else is there."""
    spec = find_spec("pretty_midi")
    assert spec is not None
    assert spec.origin is not None
    return SoundFont("TimGM6mb", Path(spec.origin).parent / "TimGM6mb.sf2", "GPL-2.0")


@lru_cache(maxsize=1)
def synths() -> tuple[Synth, ...]:
    """Return the synthesiser of the package, and FluidSynth where its library is installed."""
    found: list[Synth] = [Wheel(package_font())]
    with contextlib.suppress(SoundError):
        found.append(Fluid(find_font()))
    return tuple(found)


def best() -> Synth:
    return synths()[-1]


def named(synth: Synth) -> str:
    return synth.name


@lru_cache(maxsize=64)
def played(number: int, order: Order) -> Performance:
    """Return a demo phrase as played, its number from 0."""
    return performance_of(demo()[number], order, font=best().font)


@lru_cache(maxsize=8)
def heard(number: int, order: Order) -> Samples:
    """Return a demo phrase as the best synthesiser renders it."""
    samples = rendered(played(number, order), best())
    samples.flags.writeable = False
    return samples


def single(
    *notes: tuple[float, float, int], quarters: int = 4, program: int = 71, name: str = "line"
) -> Performance:
    """Return notes (start, length in quarters, MIDI key) at 60 quarters a minute on one instrument."""
    row = tuple(PartNote(Fraction(start), Fraction(length), midi, 90) for start, length, midi in notes)
    part = Part(name, name, program, 0, row)
    key = KeyAt(Fraction(0), Key(NoteName.parse("C")))
    score = Score(
        "A test", (part,), Fraction(quarters), Fraction(60), Metre(4, 4), feel_named("straight"), (key,)
    )
    return perform(score, human=False)


def sine(seconds: float, hertz: float, level_db: float) -> Samples:
    """Return a stereo sine whose peak is so many dB below full scale."""
    time_s = np.arange(round(seconds * RATE_HZ)) / RATE_HZ
    wave = 10 ** (level_db / 20) * np.sin(2 * np.pi * hertz * time_s)
    return np.repeat(wave[:, None], 2, axis=1).astype(np.float32)


def independent_levels(samples: Samples) -> tuple[float, float]:
    """Return LUFS and dBTP by libebur128, which had no part in making the track."""
    mode = pyebur128.MeasurementMode.MODE_I | pyebur128.MeasurementMode.MODE_TRUE_PEAK
    state = pyebur128.R128State(2, RATE_HZ, mode)
    state.add_frames(np.ascontiguousarray(samples, np.float64).ravel(), len(samples))
    peak = max(pyebur128.get_true_peak(state, 0), pyebur128.get_true_peak(state, 1))
    return float(pyebur128.get_loudness_global(state)), float(20 * np.log10(max(peak, 1e-12)))


def off_by_cents(samples: Samples, midi: int) -> float:
    """Return how far the fundamental lies from equal temperament; the tracker searches a fifth round it."""
    hertz = 440 * 2 ** ((midi - 69) / 12)
    return float(np.median(1200 * np.log2(pitch_hz(samples, RATE_HZ, hertz) / hertz)))
