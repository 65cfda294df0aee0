"""Rests and syncopations as players read them: Gould 2011, Behind Bars (from memory), common practice."""

from __future__ import annotations

import re
from collections.abc import Callable
from fractions import Fraction

import pytest
from hypothesis import given, settings

import strategies
from shedbook.engrave.notation.mei_score import mei
from shedbook.engrave.notation.readable_rhythm import regrouped
from shedbook.engrave.notation.score_notes import score_bars
from shedbook.phrase.line_text import parse_line
from shedbook.phrase.model import Phrase, Value
from shedbook.theory.metre import Metre

Make = Callable[..., Phrase]


def written(metre: str, line: str, pickup: str = "0") -> str:
    """Return a bar regrouped: "8r 4 8r+…"; r is a rest, + joins tied values."""
    read = Metre.parse(metre)
    bar = regrouped(parse_line(line, read, Fraction(pickup))[0], read)
    return " ".join(
        "+".join(map(_text, event.values)) + ("r" if event.pitch is None else "") for event in bar.events
    )


def _text(value: Value) -> str:
    return f"{value.part}{'.' * value.dots}" + (f"({value.actual})" if value.actual > 1 else "")


RESTS = [
    pytest.param("4/4", "1/8 d4 b c5 1/2 - 1/8 -", "8 8 8 8r 2r", id="beat 3 shows"),
    pytest.param("4/4", "1/4 c4 1/2 - 1/4 d", "4 4r 4r 4", id="no half rest over the middle"),
    pytest.param("4/4", "1/4 c4 1/2. -", "4 4r 2r", id="a half rest where half a bar begins"),
    pytest.param("4/4", "1/2 c4 1/4 - -", "2 2r", id="two quarter rests make a half rest"),
    pytest.param("4/4", "1/2. - 1/4 c4", "2r 4r 4", id="no dotted half rest"),
    pytest.param("4/4", "1/8 c4 1/4. - 1/2 d", "8 8r 4r 2", id="the eighth first"),
    pytest.param("4/4", "1/4. - 1/8 c4 1/2 d", "4r 8r 8 2", id="no dotted quarter rest"),
    pytest.param("4/4", "1/16 c4 - - - 1/4 c4 1/2 d", "16 16r 8r 4 2", id="within a beat"),
    pytest.param("4/4", "1/8. - 1/16 c4 1/4 c4 1/2 d", "8.r 16 4 2", id="a dotted rest within a beat stays"),
    pytest.param("4/4", "1/8t c4 - - 1/4 - 1/2 d", "8(3) 8(3)r 8(3)r 4r 2", id="triplets stay"),
    pytest.param("3/4", "1/4 c4 1/2 -", "4 4r 4r", id="3/4 by the beat"),
    pytest.param("3/4", "1/2 - 1/4 c4", "4r 4r 4", id="3/4 by the beat at the start"),
    pytest.param("6/8", "1/8 c4 1/4 - 1/4. d", "8 8r 8r 4.", id="6/8: end of a group"),
    pytest.param("6/8", "1/8 - - c4 1/4. -", "4r 8 4.r", id="6/8: start of a group, whole group"),
    pytest.param("6/8", "1/4 c4 1/4 - 1/4 d", "4 8r 8r 4", id="6/8: not over the middle"),
    pytest.param("12/8", "1/2. - 1/4. c4 d", "2.r 4. 4.", id="12/8: half a bar"),
    pytest.param("5/4", "1/2. c4 1/4 - -", "2. 2r", id="5/4: the second group"),
    pytest.param("7/8", "1/2 c4 1/8 - - -", "2 4.r", id="7/8: a group of three"),
    pytest.param("2/2", "1/4 c4 1/4 - 1/2 -", "4 4r 2r", id="2/2"),
    pytest.param("4/2", "1/2 c4 - 1/1 -", "2 2r 1r", id="4/2"),
]


@pytest.mark.parametrize(("metre", "line", "expected"), RESTS)
def test_rests(metre: str, line: str, expected: str) -> None:
    assert written(metre, line) == expected


def test_a_pickup_counts_from_where_it_stands() -> None:
    assert written("4/4", "1/8 c4 1/4. - 1/8 d | 1/1 e", "5/2") == "8 4r 8r 8"


NOTES = [
    pytest.param("4/4", "1/8 c4 1/4 d 1/4 e 1/4 f 1/8 g", "8 4 4 4 8", id="quarter on the and of two"),
    pytest.param("4/4", "1/4 c4 1/2 d 1/4 e", "4 2 4", id="half on two"),
    pytest.param("4/4", "1/4 c4 1/2. d", "4 2.", id="dotted half on two"),
    pytest.param("4/4", "1/2. c4 1/4 d", "2. 4", id="from the bar line"),
    pytest.param("4/4", "1/8 c4 1/2 d 1/4. e", "8 4.+8 4.", id="half on the and of one"),
    pytest.param("4/4", "1/4 c4 1/8 d 1/2 e 1/8 f", "4 8 8+4. 8", id="half on the and of two"),
    pytest.param("4/4", "1/4 c4 1/8 d 1/4. e 1/4 f", "4 8 8+4 4", id="dotted quarter on the and of two"),
    pytest.param("4/4", "1/4 c4 1/4. d 1/8 e 1/4 f", "4 4+8 8 4", id="dotted quarter on two"),
    pytest.param(
        "4/4", "1/4 c4 1/8. d 1/8 e 1/16 f 1/8 g 1/4 a", "4 8. 16+16 16 8 4", id="sixteenth before the middle"
    ),
    pytest.param("4/4", "1/4 c4 1/8 d 1/8+1/4 e 1/4 f", "4 8 8+4 4", id="the author's tie stays"),
    pytest.param("6/8", "1/2+1/4 c4", "2+4", id="the author's own way to fill a bar stays"),
    pytest.param("4/4", "1/2t c4 d e", "2(3) 2(3) 2(3)", id="a tuplet over the middle stays"),
    pytest.param("6/8", "1/4 c4 1/4 d 1/4 e", "4 8+8 4", id="6/8: over the middle"),
    pytest.param("3/4", "1/8 c4 1/4 d 1/4 e 1/8 f", "8 4 4 8", id="3/4 has no middle"),
]


@pytest.mark.parametrize(("metre", "line", "expected"), NOTES)
def test_notes(metre: str, line: str, expected: str) -> None:
    assert written(metre, line) == expected


def test_the_score_shows_it_and_a_divided_note_is_tied(make: Make) -> None:
    text = mei(make("1/4 c4 1/8 d 1/2 e.accent 1/8 f | 1/2 - 1/4 - -", "C | C"))
    assert re.findall(r'xml:id="(n2\w*)"[^>]* tie="(\w)"', text) == [("n2", "i"), ("n2t1", "t")]
    assert text.count("artic") == 1
    assert "<mRest/>" in text


@settings(max_examples=100, deadline=None)
@given(strategies.phrases())
def test_nothing_but_the_writing_changes(phrase: Phrase) -> None:
    for bar, heads in zip(phrase.bars, score_bars(phrase), strict=True):
        assert sum(head.value.quarters for head in heads.notes) == bar.quarters
        struck = [event.pitch for event in bar.events if event.pitch is not None and not event.tie_in]
        assert [head.pitch for head in heads.notes if head.pitch is not None and head.part == 0] == struck
