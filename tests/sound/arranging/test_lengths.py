"""As many rounds as a length in minutes takes. Source of every check: our own design."""

from __future__ import annotations

import pytest

from shedbook.sound.arranging.arrangement import Order
from shedbook.sound.arranging.lengths import rounds_for, seconds_for
from sound.demo_scores import phrase

SHORT = phrase("Dm7 | G7", "1/8 d5 f a c b4 d5 f ab | 1/1 g", tempo=120)
LONG = phrase(" | ".join(["Dm7", "G7"] * 6), " | ".join(["1/1 d5"] * 12), tempo=120)


@pytest.mark.parametrize("over", [SHORT, LONG], ids=["two bars", "twelve bars"])
@pytest.mark.parametrize("minutes", [1, 4])
@pytest.mark.parametrize("answers", [False, True])
def test_the_track_lasts_about_as_long(over: object, minutes: int, answers: bool) -> None:
    order = Order(answers=answers)
    rounds = rounds_for(minutes, [over], order)  # type: ignore[list-item]
    seconds = seconds_for(over, 1, Order(answers=answers, rounds=rounds))  # type: ignore[arg-type]
    assert seconds == pytest.approx(60 * minutes, abs=32)
    assert not answers or rounds % 2 == 0


def test_there_is_one_round_at_least() -> None:
    assert rounds_for(0.5, [LONG] * 12, Order()) == 1
