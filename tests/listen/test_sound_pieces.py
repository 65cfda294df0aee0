from __future__ import annotations

import numpy as np
import pytest

from listen.tones import RATE, sound_of
from shedbook.errors import SoundError
from shedbook.listen.sound_pieces import hear, pieces_of


def test_silence_is_refused_in_words() -> None:
    with pytest.raises(SoundError, match="silent"):
        hear([np.zeros((RATE, 2), np.float32)], RATE, 2)


def test_nothing_is_refused_in_words() -> None:
    with pytest.raises(SoundError, match="empty"):
        hear([], RATE, 1)


def test_a_telephone_is_refused_in_words() -> None:
    with pytest.raises(SoundError, match="8000 samples a second"):
        hear([np.ones((8000, 1), np.float32)], 8000, 1)


@pytest.mark.parametrize("rate", [22_050, 44_100, 48_000, 96_000, 192_000])
def test_any_rate_keeps_time_and_level(rate: int) -> None:
    sound = sound_of([(1.0, 2.0, 69)], seconds=3, rate=rate)
    heard = hear(np.array_split(sound, 7), rate, 2)
    assert heard.seconds == pytest.approx(3, abs=0.001)
    loud = np.flatnonzero(np.abs(heard.samples) > 0.05) / heard.rate
    assert loud[0] == pytest.approx(1.0, abs=0.006)
    assert loud[-1] == pytest.approx(2.0, abs=0.006)
    middle = heard.samples[round(1.3 * heard.rate) : round(1.7 * heard.rate)]
    before = sound[round(1.3 * rate) : round(1.7 * rate)].mean(axis=1)
    assert np.sqrt(np.mean(middle**2)) == pytest.approx(float(np.sqrt(np.mean(before**2))), rel=0.02)


def test_blocks_of_any_length_give_the_same_samples() -> None:
    sound = sound_of([(0.1, 0.9, 60)], seconds=1)
    whole, parts = hear([sound], RATE, 2), hear(np.array_split(sound, 13), RATE, 2)
    np.testing.assert_allclose(whole.samples, parts.samples, atol=1e-6)


def test_what_is_cut_off_at_full_scale_is_found_where_it_is() -> None:
    sound = sound_of([(0.2, 1.8, 60)], seconds=2)
    sound[RATE : RATE + 4800] = np.clip(sound[RATE : RATE + 4800] * 12, -1, 1)
    heard = hear([sound], RATE, 2)
    assert heard.clipped_s
    assert all(0.99 <= at <= 1.11 for at in heard.clipped_s)
    assert not hear([sound_of([(0.2, 1.8, 60)])], RATE, 2).clipped_s


def test_silences_part_pieces() -> None:
    sound = sound_of([(0.5, 1.0, 60), (1.4, 2.0, 62), (4.0, 4.5, 64)], seconds=6)
    pieces = pieces_of(hear([sound], RATE, 2))
    assert [round(piece.start_s + 0.35, 1) for piece in pieces] == [0.5, 4.0]
    assert [round(piece.end_s - 0.35, 1) for piece in pieces] == [2.0, 4.5]


def test_a_second_channel_that_is_the_first_upside_down_does_not_silence_it() -> None:
    sound = sound_of([(0.2, 0.8, 60)], seconds=1)
    sound[:, 1] *= -1
    one = hear([sound[:, :1]], RATE, 1)
    np.testing.assert_array_equal(hear([sound], RATE, 2).samples, one.samples)


def test_a_sound_that_is_forgotten_keeps_what_is_said_of_it() -> None:
    heard = hear([sound_of([(0.2, 0.8, 60)], seconds=1)], RATE, 2)
    gone = heard.forgotten()
    assert (gone.seconds, gone.loud_dbfs, len(gone.samples)) == (heard.seconds, heard.loud_dbfs, 0)
