"""A track that is heard while it is made, against the same track as a whole. Tolerances: our own design."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np
import pytest

from shedbook.sound.arranging.arrangement import Order
from shedbook.sound.audio.limiter import REACH_FRAMES, limited
from shedbook.sound.audio.live import _held, live, live_loop
from shedbook.sound.audio.rendering import frames_of, rendered
from shedbook.sound.audio.tables.formats import RATE_HZ
from sound.studio import best, independent_levels, played, synths


@pytest.mark.parametrize("order", [Order(rounds=3), Order(feel="bossa"), Order(parts="line", click=True)])
def test_it_is_the_same_track_about_as_loud(order: Order) -> None:
    performance = played(0, order)
    whole = np.concatenate(list(live(performance, best(), -16.0)))
    assert len(whole) == frames_of(performance, tail=True)
    lufs, peak = independent_levels(whole)
    assert lufs == pytest.approx(-16, abs=2)
    assert peak <= -0.5
    again = rendered(performance, best())
    assert np.corrcoef(whole[:, 0], again[:, 0])[0, 1] > 0.95
    assert abs(whole[-1]).max() < 1e-3


def test_the_first_piece_comes_before_the_rest_is_rendered() -> None:
    class Counted(type(best())):  # type: ignore[misc]
        rendered = 0

        def blocks(self, *arguments: object) -> Iterator[object]:
            for block in super().blocks(*arguments):
                Counted.rendered += 1
                yield block

    synth = Counted(best().font)
    performance = played(0, Order(rounds=3))
    pieces = live(performance, synth, -16.0)
    next(pieces)
    assert Counted.rendered <= 1
    assert len(list(pieces)) > 20
    synth.close()


def test_both_synthesisers_can() -> None:
    performance = played(0, Order(parts="line", click=True))
    for synth in synths():
        assert sum(map(len, live(performance, synth, -16.0))) == frames_of(performance, tail=True)


def test_a_loop_is_heard_as_it_is_rendered_and_then_joins_its_beginning() -> None:
    performance = played(0, Order(loop=True))
    frames = frames_of(performance, tail=False)
    pieces = list(live_loop(performance, best(), -16.0, 3))
    whole = np.concatenate(pieces)
    assert len(whole) == 3 * frames
    assert len(pieces[0]) < frames // 4
    lufs, peak = independent_levels(whole)
    assert lufs == pytest.approx(-16, abs=2)
    assert peak <= -0.5
    first, second, third = (whole[at * frames : (at + 1) * frames] for at in range(3))
    inner = slice(REACH_FRAMES, -REACH_FRAMES)
    assert np.allclose(second[inner], third[inner], atol=1e-6)
    # As a file: what rings over the end sounds at the beginning, in all rounds but the first.
    file = rendered(performance, best(), loop=True)
    early = slice(REACH_FRAMES, RATE_HZ // 2)
    alike = [np.corrcoef(one[early, 0], file[early, 0])[0, 1] for one in (first, second)]
    assert alike[1] > 0.98
    assert alike[1] > alike[0] + 0.002


@pytest.mark.parametrize("length", [480, 4800, 9600])
def test_peaks_are_held_as_in_the_whole(length: int) -> None:
    dice = np.random.default_rng(3)
    whole = (dice.standard_normal((RATE_HZ, 2)) * 0.3).astype(np.float32)
    pieces = (whole[at : at + length] for at in range(0, len(whole), length))
    found = np.concatenate(list(_held(pieces)))
    assert len(found) == len(whole)
    inner = slice(REACH_FRAMES, -REACH_FRAMES)
    assert np.allclose(found[inner], limited(whole, 10 ** (-1.5 / 20))[inner], atol=1e-6)
