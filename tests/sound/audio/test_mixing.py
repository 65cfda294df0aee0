"""The mix: balance, stage, phone, count-in.

Loudness is judged by pyloudnorm (ITU-R BS.1770), which has no part in making the mix. Aims: common practice.
"""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pyloudnorm
import pytest
from numpy.typing import NDArray
from scipy.signal import butter, sosfilt, sosfreqz

from shedbook.sound.arranging.arrangement import Order
from shedbook.sound.audio.mixing import Desk, mixed
from shedbook.sound.audio.rendering import stems_of
from shedbook.sound.audio.room import band
from shedbook.sound.audio.stems import Stems, balance_of, gains_of
from shedbook.sound.audio.tables.formats import RATE_HZ
from shedbook.sound.score.midi_file import smf
from shedbook.sound.score.written_score import BASS, COMPING, DRUMS, LINE
from shedbook.sound.track import performance_of
from sound.demo_scores import demo
from sound.studio import Samples, best, named, synths

PLAYERS = (LINE, BASS, COMPING, DRUMS)
SYNTHS = pytest.mark.parametrize("synth", synths(), ids=named)


def lufs(samples: NDArray[np.floating]) -> float:
    return float(pyloudnorm.Meter(RATE_HZ).integrated_loudness(samples.astype(np.float64)))


SWELL = next(phrase for phrase in demo() if phrase.title == "Long swell")


def stems(feel: str, synth: object = None) -> Stems:
    order = Order(rounds=2, feel=feel)
    chosen = synth or best()
    return stems_of(performance_of(SWELL, order, font=chosen.font), chosen)  # type: ignore[attr-defined, arg-type]


def alone(found: Stems, player: str) -> Samples:
    whole = mixed(found, without=[one for one in PLAYERS if one != player])
    return whole[found.first :]


@SYNTHS
def test_the_balance_is_that_of_the_stage(synth: object) -> None:
    found = stems("swing", synth)
    bass = lufs(alone(found, BASS))
    assert lufs(alone(found, LINE)) - bass == pytest.approx(4.7, abs=1)
    assert lufs(alone(found, COMPING)) - bass == pytest.approx(-2, abs=1)
    assert lufs(alone(found, DRUMS)) - bass == pytest.approx(-6, abs=1)


def test_the_balance_holds_from_feel_to_feel() -> None:
    rows = []
    for feel in ("swing", "straight", "bossa", "funk"):
        found = stems(feel)
        bass = lufs(alone(found, BASS))
        rows.append([lufs(alone(found, player)) - bass for player in (LINE, COMPING)])
    assert np.ptp(np.array(rows), axis=0).max() <= 1.2


def test_both_sides_are_equally_loud() -> None:
    found = stems("swing")
    whole = mixed(found, sides=True, without=(LINE, DRUMS))[found.first :]
    left, right = (np.stack([whole[:, side]] * 2, axis=1) for side in (0, 1))
    assert lufs(left) - lufs(right) == pytest.approx(0, abs=0.5)


def test_the_bass_is_heard_on_a_phone() -> None:
    """High-passed at 250 Hz it stands at most 10 dB under the piano; it was 13 before it was driven."""
    found = stems("swing")
    phone = butter(4, 250, "highpass", fs=RATE_HZ, output="sos")
    low, chords = (lufs(sosfilt(phone, alone(found, player), axis=0)) for player in (BASS, COMPING))
    assert low - chords >= -10
    tone = np.sin(2 * np.pi * 55 * np.arange(RATE_HZ) / RATE_HZ).astype(np.float32)
    one = Stems({BASS: np.stack([tone, tone], axis=1)}, 0)
    heard = mixed(one)[:, 0]
    spectrum = np.abs(np.fft.rfft(heard))
    spectrum[50:60] = 0
    assert spectrum[200:2400].sum() > 3 * spectrum[:100].sum()


def test_the_count_in_is_as_loud_as_the_band() -> None:
    found = stems("swing")
    whole = mixed(found)
    assert lufs(whole[: found.first - 2400]) - lufs(whole[found.first :]) == pytest.approx(-1, abs=2)


def test_without_a_player_the_others_stay_as_they_are() -> None:
    """Stems add up: the whole is what lacks a player and the player."""
    found = stems("bossa")
    parts = mixed(found, without=(BASS,)) + mixed(found, without=(LINE, COMPING, DRUMS))
    assert np.allclose(mixed(found), parts, atol=1e-4)


def test_stems_are_what_the_synthesiser_plays_together() -> None:
    """Dry and without a mix they sum to one pass of the synthesiser, but for its reverb."""
    performance = performance_of(demo()[0], Order(rounds=1))
    synth = best()
    frames = 6 * RATE_HZ
    apart = synth.stems(smf(performance), frames, [part.channel for part in performance.parts])
    together = synth.render(smf(performance), frames)
    both = np.corrcoef(sum(apart.values())[:, 0], together[:, 0])[0, 1]  # type: ignore[index]
    assert both > 0.97


def test_blocks_of_any_length_join() -> None:
    found = stems("bossa")
    frames = len(found.players[BASS])
    desk, heard, at = Desk(balance_of(found), found.first), [], 0
    for length in (1, 480, 4096, 40_000, 13, *[46_000] * (frames // 46_000 + 1)):
        block = {player: samples[at : at + length].T for player, samples in found.players.items()}
        if block[BASS].shape[1]:
            heard.append(desk.mix(block).T)
        at += length
    assert np.allclose(np.concatenate(heard), mixed(found), atol=1e-5)


@pytest.mark.parametrize("order", [1, 2])
def test_band_passes_are_those_of_a_library(order: int) -> None:
    """SciPy's Butterworth filters."""
    sos = butter(order, (230, 2400), "bandpass", fs=RATE_HZ, output="sos")
    at, expected = sosfreqz(sos, 2048, fs=RATE_HZ)
    found = band(order, 230, 2400, 4096)[: len(at)]
    assert np.allclose(found, expected, atol=1e-6)


def test_a_player_who_is_silent_is_left_alone() -> None:
    silent = np.zeros((RATE_HZ, 2), np.float32)
    assert gains_of(Stems({BASS: silent, LINE: silent}, 0)) == {BASS: 1.0, LINE: 1.0}
    assert not mixed(Stems({BASS: silent, LINE: silent}, 0)).any()


def test_no_note_is_outside_its_stem() -> None:
    """A player's stem is what he plays alone; a player without notes is silent to the sample."""
    performance = performance_of(demo()[0], Order(rounds=1))
    whole = stems_of(performance, best())
    for part in performance.parts:
        others = tuple(
            one if one is part else replace(one, notes=(), bends=(), filters=()) for one in performance.parts
        )
        apart = stems_of(replace(performance, parts=others), best())
        for player, samples in apart.players.items():
            assert samples.any() == (player == part.player)
        heard = apart.players[part.player][:, 0], whole.players[part.player][:, 0]
        assert np.corrcoef(*heard)[0, 1] > 0.999
