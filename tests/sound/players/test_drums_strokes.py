"""The drums stroke by stroke: how likely, how loud, what a hand can play, where fills stand.

Source of every check: the docstrings of the tables, common practice.
"""

from __future__ import annotations

import random
from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction

import pytest

from shedbook.sound.feels.known_feels import FEELS, feel_named
from shedbook.sound.feels.patterns import DrumVoice, DrumWay, strokes
from shedbook.sound.players.band_chart import ANSWER, ENDING, ROUND, SET_UP, SPACE, Chart, LineNote, Passage
from shedbook.sound.players.drums import (
    Hearing,
    _bar,
    _drawn_fill,
    _ending,
    _fill_bars,
    _filled,
    _in_hand,
    _once,
    _placed,
    _weight,
    accents_of,
    backbeats,
    click,
    counted,
    drums,
    pulse,
)
from shedbook.sound.players.energy import Arc
from shedbook.sound.score.written_score import PartNote
from shedbook.sound.tables.drum_keys import CRASH, KICK, RIDE, SNARE
from shedbook.theory.metre import Metre
from sound.demo_scores import chart

HALF = Fraction(1, 2)
LEVEL = Arc((Fraction(12),), (Fraction(64),), (57,))
"""50 where it begins."""


def laid(*rows: tuple[str, int], feel: str = "swing", loop: bool = False) -> Chart:
    """Return a chart of passages: kind and number of bars."""
    whole = chart(" | ".join(["Dm7"] * sum(bars for _, bars in rows)), feel=feel, loop=loop)
    (one,) = whole.passages
    found, at = [], 0
    for number, (kind, bars) in enumerate(rows):
        found.append(Passage(kind, number, Fraction(4 * at), bars, one.stretches[at : at + bars]))
        at += bars
    return replace(whole, passages=tuple(found))


def heard(over: Chart, *accents: object) -> Hearing:
    return Hearing(over, frozenset(Fraction(str(place)) for place in accents), LEVEL)


@pytest.mark.parametrize(
    ("hits", "accents", "line", "weight"),
    [
        pytest.param("", (), False, 300, id="nothing"),
        pytest.param("", (), True, 600, id="nothing, behind the line"),
        pytest.param("3/2", (), False, 100, id="where nobody has one"),
        pytest.param("3/2", ("27/2",), False, 1800, id="where another has one"),
        pytest.param("3/2 5/2", ("27/2",), False, 600, id="one of each"),
        pytest.param("1/2 1 3/2 2 5/2 3", (), False, 1, id="never nothing at all"),
    ],
)
def test_how_likely_an_accent_is(hits: str, accents: tuple[object, ...], line: bool, weight: int) -> None:
    """Three hundred each, six times that with the others, a third alone; rests twice that behind a line."""
    over = laid((ROUND, 4))
    note = LineNote(Fraction(0), Fraction(1), 72, Fraction(0), False, False)
    passage = replace(over.passages[0], start=Fraction(8), line=(note,) if line else ())
    voice = DrumVoice(SNARE, 42, {}, free=True)
    own = heard(over, *accents)
    assert _weight(strokes(3, hits), voice, own, passage, Fraction(4)) == weight
    assert _weight(strokes(3, hits), voice._replace(free=False), own, passage, Fraction(4)) == 3


def test_the_more_energy_the_likelier_an_accent() -> None:
    own = replace(heard(laid((ROUND, 4))), arc=replace(LEVEL, bases=(77,)))
    voice, passage = DrumVoice(SNARE, 42, {}, free=True), own.chart.passages[0]
    assert _weight(strokes(1, ""), voice, own, passage, Fraction(12)) == 80
    assert _weight(strokes(1, "3/2"), voice, own, passage, Fraction(12)) == 40


def test_the_arc_moves_loud_strokes_more() -> None:
    """Its full measure at a velocity of 64; a ghost hardly moves, and nothing leaves 1 to 127."""
    arc = Arc((Fraction(0),), (Fraction(64),), (107,))
    note = PartNote(Fraction(1), Fraction(1, 8), SNARE, 64)
    for velocity, loud in ((64, 76), (32, 38), (16, 19), (1, 1), (127, 127), (120, 127)):
        found = _placed(replace(note, velocity=velocity), Fraction(-1), arc)
        assert found.start == 0
        assert found.velocity == loud
    assert _placed(note, Fraction(8), arc).start == 9


@pytest.mark.parametrize(
    ("rows", "every", "fills"),
    [
        pytest.param([(ROUND, 4), (ENDING, 1)], 4, [{3}, set()], id="one round"),
        pytest.param([(ROUND, 4), (ENDING, 1)], 8, [{3}, set()], id="the last bar before the ending always"),
        pytest.param([(ROUND, 4), (ROUND, 4), (ROUND, 4)], 4, [{3}, {3}, {3}], id="each fourth bar"),
        pytest.param([(ROUND, 4), (ROUND, 4), (ROUND, 4)], 8, [set(), {3}, set()], id="each eighth bar"),
        pytest.param([(ROUND, 12)], 4, [{3, 7, 11}], id="inside a long one"),
        pytest.param([(ROUND, 16)], 8, [{7, 15}], id="each eighth of a long one"),
        pytest.param([(ROUND, 6)], 4, [{5}], id="none too near to the last"),
        pytest.param([(ROUND, 8)], 4, [{3, 7}], id="four bars before it is near enough"),
        pytest.param([(ROUND, 2), (SPACE, 2), (ROUND, 2)], 4, [set(), {1}, set()], id="after empty bars"),
        pytest.param([(ROUND, 4), (SET_UP, 1), (ROUND, 4)], 4, [set(), {0}, {3}], id="in the set-up"),
        pytest.param([(SET_UP, 1), (ROUND, 1), (SET_UP, 1)], 4, [{0}, set(), {0}], id="always in set-ups"),
        pytest.param([(ROUND, 3), (ROUND, 3), (ROUND, 3)], 4, [set(), {2}, set()], id="three are too few"),
        pytest.param([(ROUND, 5), (ROUND, 5)], 8, [{4}, {4}], id="of five bars each last one"),
    ],
)
def test_where_fills_stand(rows: list[tuple[str, int]], every: int, fills: list[set[int]]) -> None:
    """Bars of each passage from 0."""
    over = laid(*rows)
    assert [set(found) for found in _fill_bars(over, every).values()] == fills
    assert _fill_bars(laid(*rows, feel="free"), every) == {}


def test_a_hand_leaves_out_what_would_come_too_soon() -> None:
    """At 120 a sixteenth is 125 ms: 125 can be played, 126 cannot."""
    hits = tuple((Fraction(at, 4), 60) for at in range(4))
    assert _in_hand(hits, 125, Fraction(120)) == hits
    assert _in_hand(hits, 126, Fraction(120)) == hits[::2]
    assert _in_hand(hits, 0, Fraction(300)) == hits


class Likely(random.Random):
    """Dice that remember what they were offered, and take the first."""

    def choices(self, population: Sequence[object], weights: Sequence[int]) -> list[object]:  # type: ignore[override]
        self.offered, self.weights = list(population), list(weights)
        return [population[0]]


def test_a_fill_fits_into_the_bar_and_is_not_the_last_one() -> None:
    fills = feel_named("swing").drums.fills
    dice = Likely(0)
    first = _drawn_fill(laid((ROUND, 4)), dice, (), leads=False)
    assert dice.offered == [hits for _, hits in fills]
    assert dice.weights == [weight for weight, _ in fills]
    assert first not in (_drawn_fill(laid((ROUND, 4)), dice, first, leads=False), ())
    assert dice.offered == [hits for _, hits in fills if hits != first]
    _drawn_fill(laid((ROUND, 4)), dice, (), leads=True)
    assert {len(hits) for hits in dice.offered} == {3, 4}  # type: ignore[arg-type]
    short = replace(laid((ROUND, 4)), metre=Metre(3, 8))
    _drawn_fill(short, dice, (), leads=False)
    assert max(hit.before for hits in dice.offered for hit in hits) == Fraction(4, 3)  # type: ignore[attr-defined]
    assert _drawn_fill(replace(short, metre=Metre(1, 8)), dice, (), leads=True) == ()


def test_the_time_goes_on_through_a_fill() -> None:
    fill = feel_named("swing").drums.fills[0][1]
    keys = (RIDE, KICK, SNARE)
    notes = [PartNote(Fraction(at, 2), Fraction(1, 8), key, 50) for at in range(8) for key in keys]
    found = _filled(notes, fill, Fraction(4))
    assert {note.start for note in found if note.midi == RIDE} == {Fraction(at, 2) for at in range(8)}
    assert {note.start for note in found if note.midi == KICK} == {Fraction(at, 2) for at in range(6)}
    filled = [(float(note.start), note.velocity) for note in found if note.midi == SNARE][-2:]
    assert filled == [(3.0, fill[0].velocity), (3.5, fill[1].velocity)]
    assert _filled(notes, (), Fraction(4)) == notes


def test_one_stroke_at_a_time_on_a_key_the_louder_one() -> None:
    rows = [(1, SNARE, 40), (1, SNARE, 60), (1, SNARE, 50), (0, SNARE, 30), (1, KICK, 20)]
    notes = [PartNote(Fraction(start), Fraction(1, 8), key, velocity) for start, key, velocity in rows]
    assert [(int(note.start), note.midi, note.velocity) for note in _once(notes)] == [
        (0, SNARE, 30), (1, KICK, 20), (1, SNARE, 60),
    ]  # fmt: skip
    same = [replace(notes[0], quarters=HALF), notes[0]]
    assert _once(same) == (same[0],)


@pytest.mark.parametrize(("rings", "length"), [(True, 4), (False, HALF)])
def test_the_last_strokes(rings: bool, length: Fraction) -> None:
    over = laid((ROUND, 4), (ENDING, 1))
    found = _ending(over, replace(over.passages[1], held=rings))
    assert [(note.midi, note.velocity) for note in found] == [(CRASH, 74), (KICK, 64)]
    assert all(note.start == 16 and note.quarters == length for note in found)


@pytest.mark.parametrize(
    ("metre", "places", "beats"),
    [
        ("4/4", [1, 3], [0, 1, 2, 3]), ("3/4", [1, 2], [0, 1, 2]),
        ("6/8", [Fraction(3, 2)], [0, Fraction(3, 2)]),
        ("12/8", [Fraction(3, 2), Fraction(9, 2)], [Fraction(3 * at, 2) for at in range(4)]),
        ("9/8", [Fraction(3, 2), 3], [0, Fraction(3, 2), 3]), ("2/2", [2], [0, 2]), ("7/8", [2], [0, 2]),
        ("15/8", [Fraction(3 * at, 2) for at in (1, 2, 3, 4)], [Fraction(3 * at, 2) for at in range(5)]),
        ("18/8", [Fraction(3 * at, 2) for at in (1, 3, 5)], [Fraction(3 * at, 2) for at in range(6)]),
    ],
)  # fmt: skip
def test_pulse_and_backbeat(metre: str, places: list[Fraction], beats: list[Fraction]) -> None:
    """The second dotted quarter of 6/8, 2 and 4 of 12/8, all but the first of three groups."""
    time = Metre.parse(metre)
    assert list(pulse(time)) == beats
    if time.unit > 4:
        assert list(backbeats(time)) == places


def test_a_count_says_one_in_each_bar() -> None:
    assert [(float(place), number) for place, number in counted(Metre(), 3)] == [
        (0, 1), (2, 2), (4, 1), (6, 2), (8, 1), (9, 2), (10, 3), (11, 4),
    ]  # fmt: skip
    assert [(float(place), number) for place, number in counted(Metre(6, 8), 2)] == [
        (0, 1), (1.5, 2), (3, 1), (4.5, 2),
    ]  # fmt: skip


def test_what_the_drummer_hears() -> None:
    """The others' strokes off the beat, and the early notes of the line, wherever they are."""
    over = laid((ROUND, 1), (ANSWER, 1))
    line = tuple(
        LineNote(Fraction(start), Fraction(start) + HALF, 72, Fraction(start), early, False)
        for start, early in ((HALF, True), (Fraction(3, 2), False), (2, True))
    )
    over = replace(over, passages=(replace(over.passages[0], line=line), over.passages[1]))
    chords = [PartNote(Fraction(start), HALF, 60, 60) for start in (4, Fraction(9, 2))]
    assert accents_of(over, chords) == {HALF, Fraction(9, 2)}


@pytest.mark.parametrize(("kind", "per_bar"), [("beats", [2, 2]), ("2 and 4", [1, 1]), ("1", [1, 1])])
def test_clicks_of_six_eight_begin_where_they_are_told(kind: str, per_bar: list[int]) -> None:
    found = click(Metre(6, 8), Fraction(3), Fraction(9), kind)
    assert [sum(at <= note.start < at + 3 for note in found) for at in (3, 6)] == per_bar
    assert [note.velocity for note in found if note.start % 3 == 0] == [92] * (2 * (kind != "2 and 4"))
    assert all(note.velocity == 70 for note in found if note.start % 3)


def test_a_metre_without_a_backbeat_clicks_on_its_only_beat() -> None:
    assert len(click(Metre(1, 4), Fraction(0), Fraction(3), "2 and 4")) == 3


def test_a_voice_that_marks_the_backbeat_reads_no_cells_in_eighths() -> None:
    over = replace(laid((ROUND, 1)), metre=Metre(12, 8))
    voice = DrumVoice(SNARE, 68, {}, back=True)
    found = _bar(heard(over), over.passages[0], (voice,), Fraction(6), random.Random(0), 0, 0)
    assert [(note.start, note.velocity) for note in found] == [(Fraction(15, 2), 68), (Fraction(21, 2), 68)]


def test_a_pattern_of_two_bars_is_varied_now_and_then() -> None:
    """By turns, and in so many of a hundred last bars a cell is drawn in its place."""
    over = laid((ROUND, 1))
    cell = DrumWay(1, ((Fraction(3), 0),))
    sides = {Fraction(4): (((Fraction(0), 0),), ((Fraction(1), 30),))}
    voice = DrumVoice(SNARE, 50, {Fraction(4): (cell,)}, two_bars=sides)

    def first(turn: int, free: int, seed: int) -> tuple[float, int]:
        (note,) = _bar(heard(over), over.passages[0], (voice,), Fraction(0), random.Random(seed), turn, free)
        return float(note.start), note.velocity

    assert [first(turn, 0, 1) for turn in (0, 1)] == [(0, 50), (1, 30)]
    assert first(0, 100, 1) == (3, 50)
    varied = sum(first(0, 12, seed)[0] == 3 for seed in range(1000))
    assert 80 <= varied <= 160


def test_a_crash_opens_the_last_round_in_feels_that_end_with_one() -> None:
    over = chart("Dm7 | G7 | Cmaj7 | A7", rounds=3)
    for feel in ("swing", "ballad"):
        own = replace(over, feel=FEELS[feel])
        crashes = [(float(note.start), note.quarters) for note in drums(own, seed=1) if note.midi == CRASH]
        assert crashes == ([(32.0, HALF)] if feel == "swing" else [])


def test_empty_bars_are_not_played_as_the_round_before_them() -> None:
    """By places and drums; a bar of ballad has few ways to be played."""
    over = laid((ROUND, 1), (SPACE, 1), (ROUND, 1), feel="ballad")
    for seed in range(12):
        struck = {(note.start, note.midi) for note in drums(over, seed=seed)}
        before, between, after = (
            {(start - at, key) for start, key in struck if at <= start < at + 4} for at in (0, 4, 8)
        )
        assert between != before
        assert after != before
