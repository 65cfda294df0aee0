"""The curve of swing at its rows and half-way between them, as docs/sound.md shows it.

Source: Friberg & Sundström 2002 and Nelias et al. 2022, as the table says; the curve is straight between its
rows.
"""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest

from shedbook.sound.feels.feel import FeelSwing
from shedbook.sound.feels.known_feels import feel_named
from shedbook.sound.score.swing import HALF, lag_ms, swing, swing_ratio, swings

ROWS = [
    (40, "7/2", 50), (80, "7/2", 50), (100, "13/4", 50), (120, "3", 50), (140, "11/4", 41), (160, "5/2", 32),
    (180, "9/4", "53/2"), (200, "2", 21), (220, "7/4", 17), (240, "3/2", 13), (270, "5/4", "13/2"),
    (300, "1", 0), (400, "1", 0),
]  # fmt: skip


@pytest.mark.parametrize(("tempo", "ratio", "lag"), ROWS)
def test_ratio_and_lag_at_a_tempo(tempo: int, ratio: str, lag: object) -> None:
    assert swing_ratio(Fraction(tempo)) == Fraction(ratio)
    assert lag_ms(Fraction(tempo)) == Fraction(str(lag))


@pytest.mark.parametrize(
    ("feel", "ratio", "lag"),
    [
        ("swing", "5/2", "32/375"),
        ("ballad", "2", "16/375"),
        ("shuffle", "2", "32/1125"),
        ("straight", "1", "0"),
    ],
)
def test_a_feel_has_its_own_ratio_and_its_share_of_the_lag(feel: str, ratio: str, lag: str) -> None:
    """At 160, where a beat has 375 ms: the whole 32 ms, half, a third, none."""
    found = swing(feel_named(feel), Fraction(160))
    assert (found.ratio, found.lag) == (Fraction(ratio), Fraction(lag))
    long = found.off_beat - found.lag
    assert found.soloist_ratio == long / (1 - long)


def test_even_eighths_leave_no_room_for_a_lag() -> None:
    even = replace(feel_named("swing"), swing=FeelSwing(Fraction(1), Fraction(1), "our own design"))
    assert swing(even, Fraction(160)).lag == 0
    little = replace(even, swing=FeelSwing(Fraction(13, 12), Fraction(1), "our own design"))
    found = swing(little, Fraction(160))
    assert found.lag == found.off_beat - HALF == Fraction(1, 50)
    assert found.soloist_ratio == 1


@pytest.mark.parametrize(
    ("places", "bent"),
    [
        ("", True), ("1/2", True), ("1/4", True), ("3/4", True), ("1/4 1/2", True), ("1/2 3/4", True),
        ("1/4 3/4", False), ("1/4 1/2 3/4", False), ("1/3 2/3", False), ("1/2 2/3", False), ("0 1/2 1", True),
    ],
)  # fmt: skip
def test_which_beats_are_bent(places: str, bent: bool) -> None:
    """Halves, and the quarters that go with one half; triplets and four sixteenths are even."""
    assert swings(frozenset(Fraction(place) for place in places.split())) == bent
