"""Beams and tuplets: common practice, Gould 2011, Behind Bars (from memory)."""

from __future__ import annotations

from fractions import Fraction

import pytest

from shedbook.phrase.beaming import starts_of, tuplets, tuplets_and_beams
from shedbook.phrase.line_text import parse_line
from shedbook.phrase.model import Value
from shedbook.theory.metre import Metre


def spans(metre: str, line: str, pickup: str = "0") -> tuple[list[tuple[int, int]], list[tuple[int, int]]]:
    read = Metre.parse(metre)
    bar = parse_line(line, read, Fraction(pickup))[0]
    values = [(value, event.pitch is None) for event in bar.events for value in event.values]
    first = read.bar_quarters - bar.quarters
    return tuplets_and_beams(tuple(v for v, _ in values), tuple(rest for _, rest in values), first, read)


BEAMS = [
    pytest.param("4/4", "1/8 c4 d e f g a b c5", [(0, 4), (4, 8)], id="eighths show the half bar"),
    pytest.param("4/4", "1/4 c4 1/8 d e f g 1/4 a", [(1, 3), (3, 5)], id="never over the middle of the bar"),
    pytest.param("4/4", "1/8 c4 - d e 1/2 f", [(2, 4)], id="a rest ends a beam"),
    pytest.param("4/4", "1/8 c4 1/4 d 1/8 e 1/2 f", [], id="no beam round a quarter"),
    pytest.param("4/4", "1/4. c4 1/8 d 1/8 e f 1/4 g", [(2, 4)], id="a lone eighth keeps its flag"),
    pytest.param("4/4", "1/16 c4 d e f g a b c5 1/2 c", [(0, 4), (4, 8)], id="sixteenths show the beat"),
    pytest.param("4/4", "1/8 c4 1/16 d e 1/8 f g 1/2 a", [(0, 3), (3, 5)], id="mixed values show the beat"),
    pytest.param("4/4", "1/8t c4 d e 1/8 f g 1/2 a", [(0, 3), (3, 5)], id="triplets show the beat"),
    pytest.param("3/4", "1/8 c4 d e f g a", [(0, 6)], id="six eighths in 3/4 together"),
    pytest.param("3/4", "1/4 c4 1/8 d e f g", [(1, 3), (3, 5)], id="otherwise 3/4 by the beat"),
    pytest.param("3/4", "1/8 c4 d - e f g", [(0, 2), (4, 6)], id="a rest in 3/4, so by the beat"),
    pytest.param("6/8", "1/8 c4 d e f g a", [(0, 3), (3, 6)], id="6/8 in two halves"),
    pytest.param("6/8", "1/16 c4 d e f g a 1/8 b c5 d", [(0, 6), (6, 9)], id="sixteenths in 6/8 as well"),
    pytest.param("5/4", "1/8 c4 d e f g a b c5 d e", [(0, 6), (6, 10)], id="5/4 as three and two"),
    pytest.param(
        "12/8", "1/8 c4 d e f g a b c5 d e f g", [(0, 3), (3, 6), (6, 9), (9, 12)], id="12/8 by threes"
    ),
    pytest.param("2/2", "1/8 c4 d e f g a b c5", [(0, 4), (4, 8)], id="2/2 by half notes"),
]


@pytest.mark.parametrize(("metre", "line", "expected"), BEAMS)
def test_beams(metre: str, line: str, expected: list[tuple[int, int]]) -> None:
    assert spans(metre, line)[1] == expected


def test_a_pickup_is_beamed_as_the_end_of_a_bar() -> None:
    assert spans("4/4", "1/8 c4 d e | 1/1 f", "3/2")[1] == [(0, 3)]
    assert spans("4/4", "1/8 c4 d e f g | 1/1 f", "5/2")[1] == [(1, 5)]


TUPLETS = [
    pytest.param("1/8t c4 d e f g a 1/2 b", [(0, 3), (3, 6)], id="two triplets, not a sextuplet"),
    pytest.param("1/4t c4 1/8t d 1/8t e 1/4t f 1/2 g", [(0, 2), (2, 4)], id="long and short fill a beat"),
    pytest.param("1/4t c4 d e 1/2 f", [(0, 3)], id="quarter triplet"),
    pytest.param("1/8t c4 1/16t d e 1/8t f 1/4 g 1/2 a", [(0, 4)], id="divided triplet ends on the beat"),
    pytest.param("1/16t c4 d e f g a 1/4 b 1/2 c", [(0, 3), (3, 6)], id="sixteenth triplets"),
    pytest.param("1/16(5:4) c4 d e f g 1/4 a 1/2 b", [(0, 5)], id="quintuplet"),
    pytest.param(
        "1/16 c4 1/16t d 1/32t e 1/16t f 1/32t g 1/16t a 1/32t b 1/2 c5 1/4 d",
        [(1, 7)],
        id="long and short go on to the beat",
    ),
    pytest.param("1/8t c4 - e 1/4 f 1/2 g", [(0, 3)], id="a rest inside"),
    pytest.param("1/4t c4 d e f g a", [(0, 3), (3, 6)], id="two quarter triplets"),
    pytest.param("1/8 c4 1/4t d 1/8t e 1/8 f 1/2 g", [(1, 3)], id="long and short off the beat"),
]


def test_a_tuplet_that_the_bar_cuts_off_has_what_there_is() -> None:
    for before in (0, 1):
        values = (*[Value(4)] * before, *[Value(8, 0, 3, 2)] * 2)
        assert tuplets(values, starts_of(values, Fraction(0))) == [(before, before + 2)]


@pytest.mark.parametrize(("line", "expected"), TUPLETS)
def test_tuplets(line: str, expected: list[tuple[int, int]]) -> None:
    assert spans("4/4", line)[0] == expected
