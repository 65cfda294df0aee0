"""What speaks, at each moment of a sound, for each pitch, for a rest, and for the beginning of a note."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from shedbook.listen.pitch_evidence import PITCHES, hop_of, likeness, pitch_steps, views_of, window_of
from shedbook.listen.repeat_evidence import repeat_features
from shedbook.listen.tables.hearing import LEVEL_S, STEPS_A_SEMITONE
from shedbook.listen.tables.weights import (
    BANDS_HZ,
    ONSET,
    ONSET_AT_ALL,
    ONSET_FRAMES,
    PITCH,
    REPEAT,
    REPEAT_AT_ALL,
    VOICED,
)

Floats = NDArray[np.float32]

_ALIKE_AT_MOST = 0.003
_CHANGE_FRAMES = 5
_RANGE_DB = 45.0


@dataclass(frozen=True, slots=True)
class Evidence:
    """What is heard, a row a frame.

    Attributes:
        pitch: the logarithm of the probability of each pitch from LOWEST_MIDI on, if a note sounds.
        sounding: the logarithm of the probability that one sounds.
        silent: the same that none does.
        onset: how much speaks for the beginning of a note, as the logarithm of a ratio.
        again: the same for a note at the pitch that sounds already.
        alike: as `pitch_evidence.likeness`.
        level_db: the level in dB of full scale.
        tuning_cents: by how much the pitches lie above those of A4 = 440 Hz as a whole, −50 to 50.
        frame_s: the time from one frame to the next.
    """

    pitch: Floats
    sounding: Floats
    silent: Floats
    onset: Floats
    again: Floats
    alike: Floats
    level_db: Floats
    tuning_cents: float
    frame_s: float

    @property
    def frames(self) -> int:
        """How many frames there are."""
        return len(self.pitch)


@dataclass(frozen=True, slots=True)
class Seen:
    """What is seen of a sound before it is weighed, a row a frame.

    Attributes:
        alike: as `pitch_evidence.likeness`.
        by_pitch: the most of it near each pitch, the tuning taken into account.
        level_db: the level in dB of full scale.
        voicing: what says whether a note sounds: dB from the loud tenth, and −log(1 − likeness).
        around: what says whether one begins: each frame's features with those of the frames around it.
        dips: what says whether one begins at the pitch that sounds, as `repeat_evidence.repeat_features`.
        tuning_cents: as in `Evidence`.
        frame_s: the time from one frame to the next.
    """

    alike: Floats
    by_pitch: Floats
    level_db: Floats
    voicing: Floats
    around: Floats
    dips: Floats
    tuning_cents: float
    frame_s: float


def seen_of(samples: Floats, rate: int) -> Seen:
    """Return what is seen of a sound.

    Args:
        samples: one channel, full scale being 1.
        rate: its samples a second.
    """
    alike = likeness(samples, rate)
    level = _level_db(samples, rate, len(alike))
    loud = float(np.percentile(level, 90))
    tuning = _tuning_cents(alike, level, loud)
    steps = round(tuning * STEPS_A_SEMITONE / 100)
    by_pitch = np.roll(alike, -steps, axis=1).reshape(len(alike), PITCHES, STEPS_A_SEMITONE).max(axis=2)
    voicing = np.column_stack([level - loud, _unlike(by_pitch.max(axis=1))])
    features = _onset_features(samples, rate, by_pitch, level - loud)
    dips = repeat_features(level - loud, features[:, -2], features[:, -1])
    return Seen(alike, by_pitch, level, voicing, _around(features), dips, tuning, hop_of(rate) / rate)


def evidence_of(samples: Floats, rate: int) -> Evidence:
    """Return what is heard in a sound.

    Args:
        samples: one channel, full scale being 1.
        rate: its samples a second.
    """
    seen = seen_of(samples, rate)
    pitch = pitch_features(seen.by_pitch) @ np.asarray(PITCH, np.float32)
    pitch -= pitch.max(axis=1, keepdims=True)
    pitch -= np.log(np.exp(pitch).sum(axis=1, keepdims=True))
    voiced = seen.voicing @ np.asarray(VOICED[:2]) + VOICED[2]
    return Evidence(
        np.asarray(pitch, np.float32),
        np.asarray(-np.logaddexp(0, -voiced), np.float32),
        np.asarray(-np.logaddexp(0, voiced), np.float32),
        np.asarray(seen.around @ np.ravel(ONSET) + ONSET_AT_ALL, np.float32),
        np.asarray(seen.dips @ np.asarray(REPEAT) + REPEAT_AT_ALL, np.float32),
        seen.alike,
        seen.level_db,
        seen.tuning_cents,
        seen.frame_s,
    )


def pitch_features(by_pitch: Floats) -> Floats:
    """Return frames by pitches by features: what of the likeness speaks for and against each pitch.

    A period twice as long is just as alike, and one of half or a third of it is alike where the tone has
    strong upper partials: so the likeness an octave, a twelfth and two octaves higher and lower counts.
    """
    up, down = (_moved(by_pitch, 12), _moved(by_pitch, 19)), _moved(by_pitch, -12)
    features = [by_pitch, _unlike(by_pitch)]
    features += [np.maximum(0, one) for one in (*up, _moved(by_pitch, 24), down)]
    features += [_unlike(by_pitch, 0.03), _unlike(by_pitch, 0.1)]
    features += [_unlike(one, 0.03) for one in (*up, down)]
    features += [np.maximum(0, _moved(by_pitch, by)) for by in (28, -19, 7)]
    height = np.broadcast_to(np.arange(PITCHES, dtype=np.float32) / 12, by_pitch.shape)
    return np.stack([*features, height], axis=2)


def _unlike(alike: Floats, least: float = _ALIKE_AT_MOST) -> Floats:
    return np.asarray(-np.log(np.maximum(1 - alike, least)), np.float32)


def _moved(by_pitch: Floats, semitones: int) -> Floats:
    """Return at each pitch what stands so many half steps higher; 0 beyond the ends."""
    found = np.zeros_like(by_pitch)
    if semitones > 0:
        found[:, :-semitones] = by_pitch[:, semitones:]
    else:
        found[:, -semitones:] = by_pitch[:, :semitones]
    return found


def _level_db(samples: Floats, rate: int, frames: int) -> Floats:
    views = views_of(samples, rate, round(rate * LEVEL_S), frames)
    power = np.einsum("ns,ns->n", views, views) / views.shape[1]
    return np.asarray(10 * np.log10(power + 1e-9), np.float32)


def _tuning_cents(alike: Floats, level: Floats, loud: float) -> float:
    """Return by how much the steady frames lie above equal temperament: the mean on a circle of 100 cents."""
    steady = alike[(level > loud - 15) & (alike.max(axis=1) > 0.9)]
    if not len(steady):
        return 0.0
    pitches = pitch_steps()[steady.argmax(axis=1)]
    return float(100 * np.angle(np.exp(2j * np.pi * pitches).mean()) / (2 * np.pi))


def _onset_features(samples: Floats, rate: int, by_pitch: Floats, level: Floats) -> Floats:
    """Return frames by features of what changes: level, spectrum, likeness, pitch."""
    frames = len(by_pitch)
    heard = np.maximum(level, -_RANGE_DB)
    rise = np.zeros(frames, np.float32)
    rise[1:-1] = heard[2:] - heard[:-2]
    certain = _unlike(by_pitch.max(axis=1), 0.01)
    profile = np.maximum(0, by_pitch) ** 4
    profile /= np.linalg.norm(profile, axis=1, keepdims=True) + 1e-6
    change = np.zeros(frames, np.float32)
    if frames > 2 * _CHANGE_FRAMES:
        same = np.einsum("np,np->n", profile[2 * _CHANGE_FRAMES :], profile[: -2 * _CHANGE_FRAMES])
        change[_CHANGE_FRAMES:-_CHANGE_FRAMES] = 1 - same
    spectral = np.sqrt(10 * _spectral_rise(samples, rate, frames))
    return np.column_stack([rise / 10, spectral, certain / 3, change]).astype(np.float32)


def _spectral_rise(samples: Floats, rate: int, frames: int) -> Floats:
    """Return frames by bands: by how much the spectrum, its louder parts held down, grows over two frames."""
    from scipy.fft import rfft  # noqa: PLC0415 - takes a while to load

    width = window_of(rate)
    views = views_of(samples, rate, width, frames)
    spectrum = np.abs(rfft(views * np.hanning(width).astype(np.float32), axis=1))
    usual = np.percentile(spectrum.max(axis=1), 95) + 1e-9
    spectrum = np.log1p(spectrum * (100 / usual))
    rise = np.zeros_like(spectrum)
    rise[1:-1] = np.maximum(0, spectrum[2:] - spectrum[:-2])
    bounds = [min(rise.shape[1] - 1, int(hz * width / rate)) for hz in BANDS_HZ]
    bands = [rise[:, low : max(low + 1, high)].mean(axis=1) for low, high in pairwise(bounds)]
    return np.stack(bands, axis=1).astype(np.float32)


def _around(features: Floats) -> Floats:
    """Return each frame's features with those of the frames around it."""
    frames, edge = len(features), max(-ONSET_FRAMES[0], ONSET_FRAMES[-1])
    padded = np.pad(features, ((edge, edge), (0, 0)), mode="edge")
    return np.concatenate([padded[edge + at : edge + at + frames] for at in ONSET_FRAMES], axis=1)
