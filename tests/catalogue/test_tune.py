"""Lines as bytes."""

from __future__ import annotations

from fractions import Fraction

import pytest

from shedbook.catalogue.tune import CONTOUR, gaps_of, joined, lines_in, quarters_into_bar, steps_of, tune_of
from shedbook.phrase.fields import phrase_from_fields


def test_one_byte_a_note_and_a_zero_before_the_first() -> None:
    phrase = phrase_from_fields(
        {"changes": "C | F", "pickup": "1/4", "line": "1/8 g4 c5 | 1/4 c5 - 1/8t g4 c5 e 1/4 d | + 1/2 1/2 -"}
    )
    tune = tune_of(phrase)
    assert tune.pitches == b"\0" + bytes((67, 72, 72, 67, 72, 76, 74))
    assert tune.steps == b"\0\xff" + bytes((132, 127, 122, 132, 131, 125))
    assert tune.gaps == b"\0" + bytes((12, 12, 48, 8, 8, 8, 72))  # the last note is tied over the bar line
    assert tune.bars == b"\0" + bytes((1, 1, 2, 2, 2, 2, 2))
    assert [quarters_into_bar(beat) for beat in tune.beats[1:]] == [
        3, Fraction(7, 2), 0, 2, Fraction(7, 3).limit_denominator(24), Fraction(8, 3), 3,
    ]  # fmt: skip
    assert tune.steps.translate(CONTOUR) == b"\0?usduud"


def test_a_line_without_notes_is_only_its_beginning() -> None:
    tune = tune_of(phrase_from_fields({"changes": "C", "line": "1/1 -"}))
    assert tuple(tune) == (b"\0",) * 5


def test_texts_joined_are_divided_again() -> None:
    lines = [
        tune_of(phrase_from_fields({"changes": "C", "line": line}))
        for line in ("1/4 c5 d e f", "1/1 -", "1/2 g5 c5")
    ]
    assert lines_in(joined(lines)) == [(72, 74, 76, 77), (), (79, 72)]
    assert joined([]).pitches == b""


@pytest.mark.parametrize("pitches", [(60, 127, 1), (1, 127)])
def test_the_widest_steps_stay_apart_from_what_has_a_meaning(pitches: tuple[int, ...]) -> None:
    assert all(0 < step < 255 for step in steps_of(pitches))


def test_a_long_gap_is_the_longest_there_is() -> None:
    assert gaps_of([Fraction(100), Fraction(1, 1000)]) == bytes((254, 1))
