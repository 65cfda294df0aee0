"""What is awkward for the hands, held against what players are taught; the laws of its points.

Source of every expectation: common practice, as beginners' methods teach it, from memory.
"""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shedbook.editions.fingering.air_columns import columns, tubes
from shedbook.editions.fingering.finger_charts import joined_charts
from shedbook.editions.instruments.awkward import MOST, awkward
from shedbook.editions.instruments.instrument import instrument_named, instruments
from shedbook.editions.tables.awkward_moves import CHARTS, COLUMNS, LEAPS, STRINGS
from shedbook.errors import TableError
from shedbook.theory.pitch import Pitch

NAMES = [one.name for one in instruments()]


def points(name: str, before: str, after: str) -> int:
    """Return the points of two written notes."""
    instrument = instrument_named(name)
    up = instrument.transposition.semitones
    return awkward(instrument, Pitch.parse(before).midi - up, Pitch.parse(after).midi - up)


def test_a_trumpet_presses_the_valves_that_are_taught() -> None:
    """The chart of every beginner's method: F sharp 3 to C6, 0 for no valve."""
    taught = "123 13 23 12 1 2 0 123 13 23 12 1 2 0 23 12 1 2 0 12 1 2 0 1 2 0 23 12 1 2 0"
    row = columns()["trumpet"]
    pressed = [row.valves[tubes(row, midi)[0].down] or "0" for midi in range(54, 85)]
    assert " ".join(pressed) == taught


def test_a_horn_presses_the_valves_that_are_taught_for_its_f_side() -> None:
    """The chart of beginners' methods for the single horn in F: F sharp 2 to C6, written notes."""
    low = "123 13 23 12 1 2 0 123 13 23 12 1 2 0 23 12 1 2 0"
    middle, high = "12 1 2 0 1 2 0 23 12 1 2 0", "12 1 2 0 1 2 0 23 12 1 2 0"
    taught = f"{low} {middle} {high}"
    row = columns()["horn in F"]
    pressed = [row.valves[tubes(row, midi)[0].down] or "0" for midi in range(42, 85)]
    assert " ".join(pressed) == taught


def test_a_trombone_finds_its_notes_where_they_are_taught() -> None:
    """First positions B flat 2, F3, B flat 3, D4, F4; sixth C3; seventh E2 and B2; fourth G3."""
    row = columns()["trombone"]
    taught = {
        "Bb2": 1,
        "F3": 1,
        "Bb3": 1,
        "D4": 1,
        "F4": 1,
        "C3": 6,
        "E2": 7,
        "B2": 7,
        "G3": 4,
        "A3": 2,
        "E3": 2,
    }
    assert {name: tubes(row, Pitch.parse(name).midi)[0].down + 1 for name in taught} == taught


@pytest.mark.parametrize(
    ("name", "hard", "easy"),
    [
        pytest.param("clarinet", "A4 B4", "G4 A4", id="the break between throat and clarion"),
        pytest.param("clarinet", "Bb4 C5", "C5 D5", id="over the break to C"),
        pytest.param("tenor saxophone", "Bb3 B3", "C4 D4", id="the left little finger slides"),
        pytest.param("tenor saxophone", "B3 C#4", "D4 E4", id="and again"),
        pytest.param("alto saxophone", "C4 Eb4", "D4 Eb4", id="the right little finger slides"),
        pytest.param("alto saxophone", "C#5 D5", "A4 B4", id="from no finger to all"),
        pytest.param("soprano saxophone", "C6 D6", "D6 Eb6", id="the hand goes to the palm keys"),
        pytest.param("flute", "C5 D5", "G4 A4", id="all fingers but one go down"),
        pytest.param("flute", "E6 F6", "E5 F5", id="crossed fingers of the third octave"),
        pytest.param("trumpet", "D4 E4", "C5 D5", id="1-3 to 1-2"),
        pytest.param("trumpet", "Ab4 Bb4", "G4 A4", id="2-3 to 1"),
        pytest.param("flugelhorn", "G4 G5", "G4 C5", id="a slur over two partials"),
        pytest.param("horn in F", "D3 E3", "C4 D4", id="1-3 to 1-2 in the low register"),
        pytest.param("horn in F", "Ab4 Bb4", "Bb4 C5", id="2-3 to 1 on the F side"),
        pytest.param(
            "horn in F", "C4 C5", "C4 G4", id="an octave over two partials more than a fifth over one"
        ),
        pytest.param("trombone", "Bb2 B2", "A2 Bb2", id="first position to seventh"),
        pytest.param("trombone", "Bb2 C3", "C4 D4", id="first position to sixth"),
        pytest.param("guitar", "E4 E5", "E4 B4", id="a string is passed over"),
        pytest.param("piano", "C4 C5", "C4 G4", id="the hand leaps"),
        pytest.param("alto voice", "C4 F#4", "C4 F4", id="a tritone to be sung"),
    ],
)
def test_what_teachers_call_awkward_costs_more(name: str, hard: str, easy: str) -> None:
    assert points(name, *hard.split()) > points(name, *easy.split())


def test_one_alone_moves_two_octaves_on_a_saxophone_for_nothing() -> None:
    """The octave key alone goes down; a scale over the middle fingers only lifts."""
    assert points("tenor saxophone", "G4", "G5") == 0
    assert [points("tenor saxophone", one, other) for one, other in (("G4", "A4"), ("E4", "F4"))] == [0, 0]


@given(st.sampled_from(NAMES), st.integers(36, 96), st.integers(36, 96))
def test_points_are_bounded_the_same_both_ways_and_nothing_for_no_move(
    name: str, before: int, after: int
) -> None:
    instrument = instrument_named(name)
    found = awkward(instrument, before, after)
    assert 0 <= found <= MOST
    assert found == awkward(instrument, after, before)
    assert awkward(instrument, before, before) == 0


def test_the_tables_name_instruments_that_are_there_and_hold_their_comfortable_notes() -> None:
    named = [name for row in CHARTS for name in row.instruments]
    named += [name for row in COLUMNS for name in row.instruments]
    named += [name for row in LEAPS for name in row.instruments]
    named += [row.name for row in STRINGS]
    assert len(named) == len(set(named))
    assert set(NAMES) == set(named)
    for name, chart in joined_charts(CHARTS).items():
        band = instrument_named(name).bands.comfortable
        assert set(range(band.low.midi, band.high.midi + 1)) <= set(chart)


def test_a_chart_with_a_finger_too_few_is_refused() -> None:
    wrong = CHARTS[2]._replace(lines="C4 xxxx. xxxc\nD4 xxxx. xxx")
    with pytest.raises(TableError, match="has 8 fingers, not 9"):
        joined_charts([wrong._replace(again=())])
