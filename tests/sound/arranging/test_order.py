"""Tracks of some bars, tracks that grow faster, lengths. Source of every check: our own design."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from shedbook.editions.keys.key_cycle import key_cycle
from shedbook.editions.keys.phrase_in_key import in_key
from shedbook.errors import UnknownNameError
from shedbook.sound.arranging.arrangement import arrange
from shedbook.sound.arranging.lengths import seconds_for
from shedbook.sound.arranging.order import PARTS, Order
from shedbook.sound.score.performance import perform
from shedbook.sound.score.written_score import LINE
from sound.demo_scores import phrase

TWO = phrase("Dm7 | G7", "1/8 d5 f a c b4 d5 f ab | 1/1 g", tempo=100)
FOUR = phrase("Dm7 | G7 | Cmaj7 | %", "1/8 d5 f a c b4 d5 f ab | 1/1 g | e | -", tempo=120)
SIX_EIGHTHS = phrase("Dm7 | G7", "1/8 d5 f a c5 b4 d5 | 1/2. g4", metre="6/8", tempo=60)
UP = (60, 80, 100)


@pytest.mark.parametrize("parts", PARTS)
@pytest.mark.parametrize("answers", [False, True])
def test_each_round_of_a_ramp_has_its_tempo(parts: str, answers: bool) -> None:
    """The bars of each round last as long as its tempo says; count-in, first tempo; ending, last."""
    score = arrange(FOUR, Order(parts=parts, ramp=UP, answers=answers, count_in=1))
    each = (2 if answers else 1) * 16
    ending = 0 if parts == "line" else 4
    expected = 4 * 60 / 60 + sum(each * 60 / tempo for tempo in UP) + ending * 60 / 100
    assert score.seconds == pytest.approx(expected)
    played = perform(score)
    assert played.seconds == pytest.approx(expected, abs=0.001)
    assert [row.tempo_bpm for row in played.later] == [80, 100]
    assert played.seconds_at(played.later[0].tick) == pytest.approx(4 + each)


def test_empty_bars_after_a_round_keep_its_tempo() -> None:
    score = arrange(TWO, Order(ramp=(60, 120), count_in=0))
    assert [(row.start, row.tempo_qpm) for row in score.later_tempos] == [(Fraction(16), Fraction(120))]


def test_a_ramp_taps_what_players_tap() -> None:
    """Dotted quarters in 6/8."""
    score = arrange(SIX_EIGHTHS, Order(ramp=(60, 80), count_in=0))
    assert [score.tempo_qpm, score.later_tempos[0].tempo_qpm] == [Fraction(90), Fraction(120)]


def test_a_note_swings_by_the_tempo_of_its_round() -> None:
    """Friberg & Sundström 2002: the off-beat falls earlier the faster it is."""
    score = arrange(FOUR, Order(parts="line", ramp=(80, 240), count_in=0))
    line = next(part for part in perform(score, human=False).parts if part.player == LINE)
    first, later = (
        next(note.start for note in line.notes if note.start >= tick + 480) - tick for tick in (0, 16 * 960)
    )
    assert first > later


def test_a_loop_does_not_grow_faster() -> None:
    with pytest.raises(ValueError, match="one tempo"):
        arrange(FOUR, Order(loop=True, ramp=UP))


def test_only_some_bars_are_played_and_nothing_between() -> None:
    score = arrange(FOUR, Order(bars=(1, 1), rounds=3, loop=True))
    assert score.quarters == 12
    line = next(part for part in score.parts if part.player == LINE)
    assert len(line.notes) == 3 * 8
    assert {sign.text for sign in score.signs if sign.start % 4 == 0} == {"round", "Dm7"}


def test_bars_that_are_not_there() -> None:
    with pytest.raises(UnknownNameError, match="no bars 4 to 5"):
        arrange(FOUR, Order(bars=(4, 5)))


@settings(max_examples=60, deadline=None)
@given(
    st.sampled_from([TWO, FOUR, SIX_EIGHTHS]),
    st.sampled_from(PARTS),
    st.integers(1, 3),
    st.sampled_from([1, 3]),
    st.booleans(),
    st.booleans(),
    st.sampled_from([(), (60, 90)]),
    st.sampled_from([None, (1, 1), (1, 2)]),
    st.sampled_from([None, 0, 2]),
)
def test_the_length_is_told_before_anybody_plays(
    over: object, parts: str, rounds: int, keys: int, answers: bool, loop: bool,
    ramp: tuple[int, ...], bars: tuple[int, int] | None, count_in: int | None,
) -> None:  # fmt: skip
    order = Order(
        parts=parts, rounds=rounds, answers=answers, loop=loop and not ramp, ramp=ramp, bars=bars,
        count_in=count_in,
    )  # fmt: skip
    row = [in_key(over, key) for key in key_cycle(over.key)[:keys]]  # type: ignore[arg-type, attr-defined]
    assert seconds_for(over, keys, order) == pytest.approx(arrange(row, order).seconds)  # type: ignore[arg-type]
