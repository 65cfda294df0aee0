"""The key by ear. Source: sines at the pitches of equal temperament (ISO 16: A4 = 440 Hz), made here."""

from __future__ import annotations

from fractions import Fraction

import numpy as np
import pytest
from numpy.typing import NDArray

from shedbook.sound.audio.heard_classes import heard_classes, transposition_heard
from shedbook.sound.audio.tables.formats import RATE_HZ
from shedbook.sound.score.performance import Performance, PlayedNote, PlayedPart
from shedbook.sound.score.written_score import BASS, DRUMS, LINE, KeyAt
from shedbook.theory.key import Key
from shedbook.theory.metre import Metre

_MELODY = (60, 63, 67, 65, 62, 58, 59, 62)
"""A line of quarters in C minor, invented."""


def performance(*parts: tuple[str, tuple[int, ...]]) -> Performance:
    """Return parts of quarters at 120 a minute: half a second each."""
    played = tuple(
        PlayedPart(player, player, 0, 0, 64, tuple(
            PlayedNote(960 * at, 960 * at + 900, midi, 90) for at, midi in enumerate(notes)
        ))
        for player, notes in parts
    )  # fmt: skip
    length = 960 * max(len(notes) for _, notes in parts)
    return Performance("", played, length, 500_000, Metre(), (KeyAt(Fraction(0), Key.parse("C minor")),), ())


def sound(notes: tuple[int, ...], up: float = 0, harmonics: int = 4) -> NDArray[np.float32]:
    seconds = np.arange(RATE_HZ // 2) / RATE_HZ
    pieces = []
    for midi in notes:
        hertz = 440 * 2 ** ((midi + up - 69) / 12)
        pieces.append(sum(np.sin(2 * np.pi * hertz * n * seconds) / n for n in range(1, harmonics + 1)))
    mono = np.concatenate(pieces) * 0.1
    noise = np.random.default_rng(4).normal(0, 0.01, len(mono))
    return np.stack([mono + noise] * 2, axis=1).astype(np.float32)


def test_the_classes_of_each_half_second() -> None:
    told = heard_classes(performance((LINE, (60, 63)), (BASS, (36, 43)), (DRUMS, (38, 38))))
    assert told == "001" + "088"
    assert heard_classes(performance((LINE, (60, 63)), (BASS, (36, 43))), (BASS,)) == "001008"


@pytest.mark.parametrize("up", range(12))
def test_a_transposition_is_heard(up: int) -> None:
    told = heard_classes(performance((LINE, _MELODY)))
    assert transposition_heard(sound(_MELODY, up), told) == up


def test_another_melody_in_the_same_key_is_heard() -> None:
    told = heard_classes(performance((LINE, _MELODY)))
    assert transposition_heard(sound(_MELODY[4:] + _MELODY[:4]), told) != 0


def test_too_little_cannot_be_told() -> None:
    assert transposition_heard(sound(_MELODY[:3]), heard_classes(performance((LINE, _MELODY[:3])))) is None
    assert transposition_heard(sound(_MELODY), "") is None
