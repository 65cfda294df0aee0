"""Metres: bars, beats and strong beats."""

from __future__ import annotations

import unicodedata
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shedbook.theory.metre import Metre, beat_from_words, beat_words


# Common practice: the division of each metre, strong beats at the head of each group.
@pytest.mark.parametrize(
    ("text", "quarters", "groups", "strong"),
    [
        ("4/4", 4, (2, 2), (1, 3)),
        ("3/4", 3, (3,), (1,)),
        ("2/4", 2, (2,), (1,)),
        ("5/4", 5, (3, 2), (1, 4)),
        ("6/8", 3, (3, 3), (1, 4)),
        ("12/8", 6, (3, 3, 3, 3), (1, 4, 7, 10)),
        ("9/8", Fraction(9, 2), (3, 3, 3), (1, 4, 7)),
        ("7/8", Fraction(7, 2), (4, 3), (1, 5)),
        ("2/2", 4, (1, 1), (1, 2)),
        ("8/8", 4, (2, 2, 2, 2), (1, 3, 5, 7)),
        ("11/8", Fraction(11, 2), (2, 2, 2, 2, 2, 1), (1, 3, 5, 7, 9, 11)),
        ("15/8", Fraction(15, 2), (3, 3, 3, 3, 3), (1, 4, 7, 10, 13)),
    ],
)
def test_bars_and_strong_beats(
    text: str, quarters: Fraction, groups: tuple[int, ...], strong: tuple[int, ...]
) -> None:
    metre = Metre.parse(text)

    assert metre.bar_quarters == quarters
    assert metre.groups == groups
    assert tuple(metre.strong_beats) == strong
    assert str(metre) == text


@pytest.mark.parametrize("text", ["", "4", "4/3", "0/4", "4/0", "25/4", "4 / 4", "4/4x", "-4/4", "4/32"])
def test_what_is_no_metre(text: str) -> None:
    with pytest.raises(ValueError, match="not a metre"):
        Metre.parse(text)


@given(st.integers(1, 24), st.sampled_from([1, 2, 4, 8, 16]))
def test_groups_fill_the_bar(beats: int, unit: int) -> None:
    metre = Metre(beats, unit)

    assert sum(metre.groups) == beats
    assert metre.beat_at(metre.bar_quarters) == beats + 1
    assert metre.beat_at(Fraction(0)) == 1
    assert Metre.parse(str(metre)) == metre


def test_beats_count_in_the_denominator() -> None:  # common practice
    assert Metre.parse("6/8").beat_at(Fraction(5, 2)) == 6
    assert Metre.parse("4/4").beat_at(Fraction(3, 2)) == Fraction(5, 2)


@pytest.mark.parametrize(
    ("beat", "text"),
    [
        (Fraction(3), "3"),
        (Fraction(7, 2), "3½"),
        (Fraction(8, 3), "2⅔"),
        (Fraction(5, 4), "1¼"),
        (Fraction(11, 6), "1⅚"),
        (Fraction(19, 7), "2 5/7"),
    ],
)
def test_beats_in_words(beat: Fraction, text: str) -> None:
    assert beat_words(beat) == text


@given(st.fractions(min_value=1, max_value=24, max_denominator=48))
def test_a_beat_in_words_can_be_read_back(beat: Fraction) -> None:
    assert beat_from_words(beat_words(beat)) == beat


@pytest.mark.parametrize("words", ["", "x", "½x", "3 x"])
def test_what_are_no_words_for_a_beat(words: str) -> None:
    with pytest.raises(ValueError, match=r"[Ii]nvalid"):
        beat_from_words(words)


@pytest.mark.parametrize(
    ("text", "groups"),
    [
        ("2/4", (2,)), ("3/4", (3,)), ("4/4", (2, 2)), ("5/4", (3, 2)), ("6/4", (3, 3)), ("7/4", (4, 3)),
        ("2/2", (1, 1)), ("3/2", (1, 1, 1)), ("4/2", (2, 2)), ("3/8", (3,)), ("5/8", (3, 2)), ("6/8", (3, 3)),
        ("7/8", (4, 3)), ("9/8", (3, 3, 3)), ("12/8", (3, 3, 3, 3)),
    ],
)  # fmt: skip
def test_the_usual_division_of_each_metre(text: str, groups: tuple[int, ...]) -> None:
    """Common practice, as Gould 2011 groups beats (from memory)."""
    assert Metre.parse(text).groups == groups


def test_parts_of_a_beat_have_their_sign() -> None:
    """Unicode's vulgar fractions, by their names in the standard's own table."""
    for sign in "½⅓⅔¼¾⅙⅚⅛⅜⅝⅞":
        part = Fraction(unicodedata.numeric(sign)).limit_denominator(8)
        assert beat_words(1 + part) == f"1{sign}"


@pytest.mark.parametrize(
    ("text", "quarters"),
    [
        ("4/4", 1), ("3/4", 1), ("5/4", 1), ("6/4", 1), ("2/2", 2), ("3/2", 2), ("1/1", 2),
        ("6/8", Fraction(3, 2)), ("9/8", Fraction(3, 2)), ("12/8", Fraction(3, 2)), ("3/8", Fraction(1, 2)),
        ("5/8", 1), ("7/8", 1), ("6/16", 1),
    ],
)  # fmt: skip
def test_the_beat_that_players_tap(text: str, quarters: Fraction) -> None:  # common practice
    assert Metre.parse(text).tapped_quarters == quarters
