"""The feels that the band plays are the feels that a phrase can name. Source: our own design."""

import pytest

from shedbook.errors import TableError, UnknownNameError
from shedbook.phrase.tables.feels import FEELS as VOCABULARY
from shedbook.phrase.tables.feels import FeelRow
from shedbook.sound.arranging.arrangement import Order, arrange
from shedbook.sound.feels.feel import module_name
from shedbook.sound.feels.known_feels import FEELS, feel_named, joined
from sound.demo_scores import demo

MODULES = {module_name(name): feel for name, feel in FEELS.items()}
NAMES = [row.name for row in VOCABULARY]


def test_every_feel_of_the_vocabulary_is_played_and_no_other() -> None:
    assert list(FEELS) == NAMES


def test_a_name_that_nobody_plays_is_refused() -> None:
    with pytest.raises(TableError) as caught:
        joined(MODULES, [*NAMES, "quick step"])
    assert caught.value.message == (
        'The feel "quick step" stands in src/shedbook/phrase/tables/feels.py, but nobody can play it.'
    )
    assert "Write src/shedbook/sound/feels/rows/quick_step.py" in caught.value.hint


def test_a_feel_that_no_phrase_can_name_is_refused() -> None:
    with pytest.raises(TableError) as caught:
        joined(MODULES, [name for name in NAMES if name != "fast swing"])
    assert "rows/fast_swing.py" in caught.value.message
    assert 'Write FeelRow("fast swing", …) in src/shedbook/phrase/tables/feels.py' in caught.value.hint


def test_a_module_without_a_feel_is_refused() -> None:
    with pytest.raises(TableError, match=r"rows/quick_step\.py defines no feel"):
        joined({**MODULES, "quick_step": None}, NAMES)


def test_a_module_with_the_feel_of_another_is_refused() -> None:
    with pytest.raises(TableError, match=r'rows/quick_step\.py holds the feel "swing"'):
        joined({**MODULES, "quick_step": FEELS["swing"]}, NAMES)


@pytest.mark.parametrize("order", [Order(feel="swng"), Order(bass_feel="swng")])
def test_no_player_takes_another_feel_for_an_unknown_one(order: Order) -> None:
    with pytest.raises(UnknownNameError) as caught:
        arrange(demo()[0], order)
    assert '"swng" is not a feel' in caught.value.message
    assert '"swing"' in caught.value.hint


@pytest.mark.parametrize("row", VOCABULARY, ids=lambda row: row.name)
def test_a_feel_swings_for_the_band_as_notation_says(row: FeelRow) -> None:
    """Even eighths are even in both; how long the long one is, notation says in small whole numbers only."""
    long, short = row.eighths
    assert (long > short) == (FEELS[row.name].swing.ratio != 1)


def test_a_feel_by_its_name() -> None:
    assert feel_named("bossa").name == "bossa"
