"""Where the piano strikes, and how likely a rhythm is. Source: the docstrings of the tables."""

from __future__ import annotations

import random
from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction
from itertools import pairwise

import pytest

from shedbook.sound.feels.patterns import CompingWay, chords
from shedbook.sound.players.band_chart import Chart, LineNote
from shedbook.sound.players.comping_rhythm import draw, ending_strike, strikes_of
from sound.demo_scores import chart

HALF = Fraction(1, 2)


class Watched(random.Random):
    """Dice that take the likeliest, and remember how likely everything was."""

    def __init__(self) -> None:
        super().__init__(0)
        self.rows: list[dict[CompingWay, int]] = []

    def choices(self, cells: Sequence[CompingWay], weights: Sequence[int]) -> list[CompingWay]:  # type: ignore[override]
        self.rows.append(dict(zip(cells, weights, strict=True)))
        return [max(cells, key=self.rows[-1].__getitem__)]

    def choice(self, cells: Sequence[CompingWay]) -> CompingWay:  # type: ignore[override]
        self.rows.append({})
        return cells[-1]


def heard(
    *notes: tuple[object, object, int], early: bool = False, loud: bool = False
) -> tuple[LineNote, ...]:
    """Return notes of the line: start, end, MIDI number; early ones stand for the next beat."""
    return tuple(
        LineNote(
            Fraction(str(start)), Fraction(str(end)), midi, Fraction(str(start)) + HALF * early, early, loud
        )
        for start, end, midi in notes
    )


def over(
    bars: str, line: tuple[LineNote, ...] = (), *, ways: tuple[CompingWay, ...] = (), feel: str = "swing"
) -> Chart:
    found = chart(bars, feel=feel)
    passage = replace(found.passages[0], line=line)
    if ways:
        comping = replace(found.feel.comping, ways={**found.feel.comping.ways, Fraction(4): ways})
        found = replace(found, feel=replace(found.feel, comping=comping))
    return replace(found, passages=(passage,))


WAYS = tuple(
    chords(6, text) for text in ("0:1/2", "3:1/2", "0:1/2 3:1/2", "2:1/2 3:1/2", "", "5/2:1/2^", "3/4:1/4")
)
RUN = heard(*((Fraction(at, 2), Fraction(at + 1, 2), 72) for at in range(4)))
"""Eighths through the first two beats."""


def test_a_rhythm_is_likelier_in_the_gaps_of_the_line() -> None:
    """Of 6000 a quarter where the line moves on, half as much again where it rests, half for a second hit."""
    dice, found = Watched(), over("Dm7", RUN, ways=WAYS)
    draw(found, found.passages[0], dice)
    assert [dice.rows[0][way] for way in WAYS] == [1501, 9001, 1126, 6751, 6001, 9001, 1501]


def test_the_border_of_a_run() -> None:
    """Busy is where two notes start within an eighth, the earlier end left out."""
    dice, ways = (
        Watched(),
        tuple(chords(1, f"{at}:1/4") for at in ("0", "1/4", "1/2", "3/4", "1", "5/4", "3/2")),
    )
    found = over("Dm7", heard(("1/2", 1, 72), (1, 2, 72)), ways=ways)
    draw(found, found.passages[0], dice)
    assert [dice.rows[0][way] for way in ways] == [1501, 1501, 251, 251, 1501, 1501, 1501]


def test_without_the_line_a_rhythm_is_likelier_the_more_it_has() -> None:
    dice, found = Watched(), over("Dm7", ways=WAYS)
    draw(found, found.passages[0], dice)
    assert [dice.rows[0][way] for way in WAYS] == [6750, 6750, 12750, 12750, 750, 6750, 6750]


def test_no_rhythm_comes_twice_or_as_in_the_round_before() -> None:
    dice, found = Watched(), over("Dm7 | G7 | Cmaj7", ways=WAYS[:4])
    first = draw(found, found.passages[0], dice)
    assert all(one != two for one, two in pairwise(first))
    again = draw(found, found.passages[0], dice, (first, first[:1]))
    assert all(one != two for one, two in zip(again, first, strict=True))
    one = over("Dm7 | G7", ways=WAYS[:1])
    assert draw(one, one.passages[0], dice, (WAYS[:1],)) == WAYS[:1] * 2
    two = over("Dm7 | G7", ways=WAYS[:2])
    assert draw(two, two.passages[0], dice, (WAYS[:1], WAYS[1:2]))[0] == WAYS[1]
    assert dice.rows[-2] == {}


def test_patterns_of_two_bars_begin_with_their_half() -> None:
    """The montuno of latin: off the beat on the side of three strokes, on 1 on the side of two."""
    found = over("Dm7 | G7 | Cmaj7", feel="latin")
    for half in (0, 1):
        rows = draw(found, found.passages[0], random.Random(1), half=half)
        assert [row.hits[0].at for row in rows] == [[HALF, 0, HALF], [0, HALF, 0]][half]


def struck(found: Chart, *cells: str) -> list[tuple[str, str, str]]:
    """Return place and length of each strike, and its ground."""
    names = ("C", "Db", "D", "Eb", "E", "F", "Gb", "G", "Ab", "A", "Bb", "B")
    rows = strikes_of(found, found.passages[0], tuple(chords(1, text) for text in cells))
    return [
        (str(row.start), str(row.quarters), names[row.over.root or 0] + "^" * row.ahead + "'" * row.soft)
        for row in rows
    ]


def test_a_strike_ends_where_the_next_begins_or_its_chord_does() -> None:
    assert struck(over("Dm7 | G7"), "0:3/2 1:4", "0:1/2 3:2") == [
        ("0", "1", "D"), ("1", "3", "D"), ("4", "1/2", "G"), ("7", "1", "G"),
    ]  # fmt: skip


def test_a_strike_ahead_takes_the_coming_chord_unless_the_line_holds_the_old_one() -> None:
    """It sounds into the chord for an eighth; a line that is early itself does not hold it back."""
    expected = [("7/2", "1", "G^")]
    assert struck(over("Dm7 | G7"), "7/2:1^", "") == expected
    assert struck(over("Dm7 | G7", heard(("7/2", 5, 71), early=True)), "7/2:1^", "") == expected
    old = struck(over("Dm7 | G7", heard((3, 4, 72))), "7/2:1^", "")
    assert old[0] == ("7/2", "1/2", "D^")
    assert struck(over("Dm7 | G7", heard((3, "7/2", 72))), "7/2:1^", "") == expected


def test_a_chord_that_nobody_strikes_is_struck_softly_or_early() -> None:
    """On its place, for three eighths; an eighth early where the line is busy there and rests before."""
    assert struck(over("Dm7 | G7"), "0:1", "") == [("0", "1", "D"), ("4", "3/2", "G'")]
    busy = over("Dm7 | G7", heard((4, 5, 71)))
    assert struck(busy, "0:1", "") == [("0", "1", "D"), ("7/2", "1", "G^'")]
    both = over("Dm7 | G7", heard(("7/2", 4, 72), (4, 5, 71)))
    assert struck(both, "0:1", "") == [("0", "1", "D"), ("4", "3/2", "G'")]
    assert struck(over("Dm7", heard((0, 1, 72))), "") == [("0", "3/2", "D'")]
    assert struck(over("Dm7 | Dm7"), "0:1", "") == [("0", "1", "D")]


def test_where_chords_are_held_each_is_played_at_full_length() -> None:
    assert struck(over("Dm7 | Dm7 | G7", feel="ballad"), "", "", "") == [
        ("0", "4", "D"), ("4", "4", "D"), ("8", "4", "G"),
    ]  # fmt: skip
    busy = over("Dm7 | G7", heard((4, 5, 71)), feel="ballad")
    assert struck(busy, "0:4", "") == [("0", "4", "D"), ("4", "4", "G")]


def test_a_strike_goes_where_the_line_comes_early() -> None:
    """With the note that the line pulls forward; a strike that is there already takes its place."""
    early = over("Dm7 | G7", heard(("7/2", 5, 71), early=True))
    assert struck(early, "0:1", "0:1") == [("0", "1", "D"), ("7/2", "1", "G^")]
    inside = over("Dm7 | G7", heard(("3/2", 3, 72), early=True))
    assert struck(inside, "2:1 3:1/2", "0:1")[:2] == [("3/2", "3/2", "D^"), ("3", "1/2", "D")]
    twice = over("Dm7", heard(("3/2", 3, 72), early=True))
    assert struck(twice, "3/2:1/2 2:1") == [("3/2", "1/2", "D^")]


def test_a_strike_knows_what_the_line_does_meanwhile() -> None:
    line = heard((0, 1, 74), (1, 2, 65), (2, 3, 60)) + heard((1, "3/2", 80), loud=True)
    found = over("Dm7 | N.C.", line)
    hits = strikes_of(found, found.passages[0], (chords(1, "1:1 3:1"), chords(1, "0:1")))
    assert [(hit.under, hit.landings, hit.behind, float(hit.end)) for hit in hits] == [
        (65, line[3:], True, 2), (None, (), True, 4),
    ]  # fmt: skip
    assert all(
        not hit.behind for hit in strikes_of(over("Dm7"), chart("Dm7").passages[0], (chords(1, "0:1"),))
    )


@pytest.mark.parametrize(("rings", "length"), [(True, 4), (False, HALF)])
def test_the_last_chord(rings: bool, length: Fraction) -> None:
    (found,) = ending_strike(replace(chart("C6").passages[0], held=rings))
    assert [found.start, found.quarters] == [0, length]
    assert (found.last, found.behind, found.ahead) == (True, False, False)
    assert ending_strike(chart("N.C.").passages[0]) == ()
