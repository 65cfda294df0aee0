"""Guide tracks: who is in which ear, when, and how loud. Sources beside the checks."""

from __future__ import annotations

import numpy as np
import pytest

from other_ears import onset_times
from shedbook.phrase.fields import phrase_from_fields
from shedbook.sound.arranging.order import Order
from shedbook.sound.guide import guide_track
from sound.studio import Samples, synths

PHRASE = phrase_from_fields({
    "title": "A", "changes": "Dm7 | G7 | Cmaj7 | %", "tempo": 120,
    "line": "1/8 d4 f a c5 e d c a4 | g b d5 f a g f d | 1/4 e g 1/2 c | 1/1 e",
})  # fmt: skip
BAR = 2.0
RATE = 48_000


@pytest.fixture(scope="module")
def guide() -> Samples:
    return guide_track(PHRASE, Order(count_in=2), synths()[0])


def test_count_in_and_click_are_left_and_the_trio_is_right(guide: Samples) -> None:
    """Two bars counted in, four of the phrase."""
    counted = guide[: round(2 * BAR * RATE) - RATE // 10]
    band = guide[round(2 * BAR * RATE) : round(6 * BAR * RATE)]
    assert np.abs(counted[:, 1]).max() == 0
    assert np.abs(counted[:, 0]).max() > 0.1
    assert np.abs(band[:, 0]).max() > 0.1
    assert np.sqrt((band[:, 1] ** 2).mean()) > 0.005


def test_the_click_falls_on_every_beat(guide: Samples) -> None:
    """At 120 a beat is half a second."""
    left = guide[round(2 * BAR * RATE) : round(6 * BAR * RATE), 0]
    heard = onset_times(left, RATE)
    beats = np.arange(16) * 0.5
    found = [beat for beat in beats if len(heard) and np.abs(heard - beat).min() < 0.06]
    assert len(found) >= 15
    assert all(np.abs(beats - one).min() < 0.06 for one in heard)


def test_it_is_softer_than_a_track_of_the_book(guide: Samples) -> None:
    """8 LU under -16 LUFS, for ears (the project's design); no peak is near full scale."""
    assert np.abs(guide).max() < 0.6
    assert np.abs(guide[:, 0]).max() == pytest.approx(0.18, abs=0.01)


def test_the_line_is_in_neither_ear() -> None:
    """Another line over the same changes gives the same left ear."""
    other = phrase_from_fields({
        "title": "A", "changes": "Dm7 | G7 | Cmaj7 | %", "tempo": 120,
        "line": "1/1 d4 | 1/1 g | 1/1 c | 1/1 e",
    })  # fmt: skip
    one = guide_track(PHRASE, Order(count_in=2), synths()[0])[:, 0]
    two = guide_track(other, Order(count_in=2), synths()[0])[:, 0]
    assert np.abs(one - two).max() < 1e-3
