"""The arc of a track. Source of every check: common practice of accompanying; figures our own."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest

from shedbook.sound.players.band_chart import ENDING, SPACE, Chart
from shedbook.sound.players.energy import arc_of, last_round
from sound.demo_scores import chart

FOUR = "Dm7 | G7 | Cmaj7 | A7"


def energies(over: Chart, *places: int) -> list[int]:
    arc = arc_of(over)
    return [arc.at(Fraction(place)) for place in places]


def test_a_round_grows_to_its_last_quarter_and_a_track_to_its_last_round() -> None:
    """From 22 to 78 over the rounds; seven below that at the start of each, seven above at three quarters."""
    over = chart(FOUR, rounds=3)
    assert energies(over, 0, 6, 12, 15) == [15, 22, 29, 24]
    assert energies(over, 16, 28) == [43, 57]
    assert energies(over, 32, 44, 48, 60) == [71, 85, 78, 78]
    assert arc_of(over).at(Fraction(-1)) == 15


def test_one_round_and_a_loop_stay_in_the_middle() -> None:
    """A loop's end is as loud as its beginning, but for what a round does inside itself."""
    for over in (chart(FOUR), chart(FOUR, rounds=3, loop=True)):
        assert energies(over, 0, 12) == [43, 57]
    assert energies(chart(FOUR, rounds=3, loop=True), 16, 28, 32, 44) == [43, 57, 43, 57]


@pytest.mark.parametrize(("loop", "lower"), [(False, 12), (True, 0)])
def test_empty_bars_lie_lower_and_the_ending_as_the_last_round(loop: bool, lower: int) -> None:
    rounds = chart(FOUR, rounds=4, loop=loop)
    kinds = ("round", SPACE, "round", ENDING)
    passages = tuple(replace(one, kind=kind) for one, kind in zip(rounds.passages, kinds, strict=True))
    found = arc_of(replace(rounds, passages=passages)).bases
    assert found[1] == found[0] - lower
    assert found[3] == found[2]
    assert (found[0], found[2]) == ((50, 50) if loop else (22, 78))


def test_how_much_louder_each_player_gets() -> None:
    """Between no energy and all of it; the drums have the widest range, the line the narrowest."""
    arc = arc_of(chart(FOUR, rounds=3))
    at = [Fraction(0), Fraction(44)]
    players = ("line", "bass", "comping", "drums")
    found = [[arc.louder(player, place) for place in at] for player in players]
    assert found == [[-4, 4], [-6, 6], [-8, 8], [-8, 8]]


def test_the_last_round_is_one_of_three_at_least() -> None:
    assert last_round(chart(FOUR, rounds=2)) is None
    assert last_round(chart(FOUR, rounds=4, loop=True)) is None
    over = chart(FOUR, rounds=3)
    assert last_round(over) == over.passages[2]
    answered = tuple(
        replace(one, kind="answer" if one.number % 2 else one.kind) for one in chart(FOUR, rounds=4).passages
    )
    assert last_round(replace(over, passages=answered)) == answered[3]
