"""The names of the feels. Source of every check: our own design."""

import pytest

from shedbook.errors import TableError
from shedbook.phrase.feels import FEEL_NAMES, feel_row, names_of
from shedbook.phrase.tables.feels import FEELS


def test_a_feel_by_its_name_and_by_any_alias() -> None:
    assert feel_row(FEEL_NAMES["jazz waltz"]).name == "waltz"
    assert all(FEEL_NAMES[row.name] == row.name for row in FEELS)


def test_a_name_twice_is_refused() -> None:
    more = FEELS[0]._replace(name="quick step", aliases=("bossa nova",))
    with pytest.raises(TableError) as caught:
        names_of((*FEELS, more))
    assert caught.value.message == (
        '"bossa nova" stands twice as the name of a feel: for "bossa" and for "quick step".'
    )
    assert "src/shedbook/phrase/tables/feels.py" in caught.value.hint


def test_a_feel_without_a_source_is_refused() -> None:
    with pytest.raises(TableError, match='"quick step", a feel, has no source'):
        names_of((*FEELS, FEELS[0]._replace(name="quick step", aliases=(), source="")))


def test_only_a_free_feel_has_no_tempo() -> None:
    """Common practice: rubato has no beat to count."""
    assert [row.name for row in FEELS if not row.steady] == ["free"]


def test_swung_feels_are_played_long_and_short() -> None:
    """Common practice: of a triplet the long eighth has two thirds."""
    assert feel_row("waltz").eighths == feel_row("swing").eighths == (2, 1)


def test_how_long_the_long_eighth_is() -> None:
    """Common practice: swing, shuffle and ballads by triplets, nearly even when fast, even in Latin."""
    ratios = {row.name: row.eighths for row in FEELS}
    assert ratios == {
        "swing": (2, 1), "shuffle": (2, 1), "waltz": (2, 1), "fast swing": (4, 3), "ballad": (2, 1),
        **dict.fromkeys(("straight", "bossa", "samba", "latin", "funk", "free"), (1, 1)),
    }  # fmt: skip
