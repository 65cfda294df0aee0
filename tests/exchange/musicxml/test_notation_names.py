"""All that a phrase can hold has a name in MusicXML; a missing row is named, with the file to write it in."""

from __future__ import annotations

import pytest

from shedbook.errors import MissingRowError
from shedbook.exchange.musicxml.notation_names import (
    ELEMENT_OF_MARK,
    TYPE_OF_PART,
    accidental_name,
    check_values,
    elements_of_marks,
)
from shedbook.exchange.musicxml.tables.notation_words import ARTICULATIONS
from shedbook.phrase.model import MARKS


def test_a_mark_without_an_articulation_is_named() -> None:
    with pytest.raises(MissingRowError, match="fall") as raised:
        elements_of_marks(tuple(row for row in ARTICULATIONS if row.marks != ("fall",)))
    assert "notation_words.py" in raised.value.hint


def test_a_value_without_a_name_is_named() -> None:
    with pytest.raises(MissingRowError, match="1/32"):
        check_values({part: name for part, name in TYPE_OF_PART.items() if part != 32})


def test_an_accidental_beyond_the_table_is_named() -> None:
    # MusicXML 4.0, accidental-value.
    assert accidental_name(-2) == "flat-flat"
    with pytest.raises(MissingRowError, match=r"\+4 half steps"):
        accidental_name(4)


def test_every_mark_but_the_ghost_note_has_one_element() -> None:
    assert set(ELEMENT_OF_MARK) == set(MARKS) - {"ghost"}
    assert len(set(ELEMENT_OF_MARK.values())) == len(ELEMENT_OF_MARK)
