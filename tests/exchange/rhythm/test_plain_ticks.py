"""Ticks that are plain fractions of a quarter."""

from __future__ import annotations

import random
from fractions import Fraction

import pytest

from shedbook.exchange.rhythm.plain_ticks import exact_places, is_plain, plain_place


def test_exact_places_are_told_from_played_ones() -> None:
    written = [0, 240, 480, 640, 800, 960, 1200]
    places = exact_places(written, 480)
    assert places is not None
    assert " ".join(map(str, places)) == "0 1/2 1 4/3 5/3 2 5/2"
    dice = random.Random(5)
    assert exact_places([tick + dice.randint(-12, 12) for tick in range(0, 4800, 240)], 480) is None
    assert exact_places([0, 1], 0) is None


# 480 ticks to the quarter: which of them a written note begins on is arithmetic.
@pytest.mark.parametrize(
    ("tick", "plain"), [(0, True), (240, True), (160, True), (60, True), (96, True), (7, False), (233, False)]
)
def test_plain_ticks(tick: int, plain: bool) -> None:
    assert is_plain(tick, 480) is plain
    assert is_plain(tick + 480, 480) is plain


def test_the_place_of_a_tick_on_some_parts_of_the_quarter() -> None:
    assert plain_place(480 + 160, (3,), 480) == Fraction(4, 3)
    assert plain_place(160, (2, 4), 480) is None
