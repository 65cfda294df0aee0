"""The names that MusicXML gives to values, accidentals and marks, checked against those of a phrase.

Everything that a phrase can hold must have a name here. A row that is missing stops the program when it
starts.
"""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from shedbook.errors import MissingRowError
from shedbook.exchange.musicxml.tables.notation_words import (
    ACCIDENTALS,
    ARTICULATIONS,
    PARTS,
    ArticulationRow,
)
from shedbook.phrase.model import MARKS
from shedbook.phrase.value_text import PARTS as PHRASE_PARTS
from shedbook.table_index import Rows

_TABLE = "src/shedbook/exchange/musicxml/tables/notation_words.py"

GHOST = "ghost"
"""The mark that MusicXML shows by a note head in brackets, and not by an articulation."""

PART_OF_TYPE: Mapping[str, int] = MappingProxyType(dict(PARTS))
"""The part of a whole note (1 whole, 4 quarter) by the text of the `type` element."""

TYPE_OF_PART: Mapping[int, str] = MappingProxyType({part: name for name, part in PARTS})
"""The same the other way round."""

ARTICULATION = Rows("articulations", _TABLE, [(row.element, row) for row in ARTICULATIONS])
"""The row of each articulation by the name of its element."""

_ACCIDENTAL: Mapping[int, str] = MappingProxyType(dict(ACCIDENTALS))


def elements_of_marks(rows: tuple[ArticulationRow, ...]) -> Rows[str]:
    """Return the element that is written for each mark: the first row that is that mark and nothing else.

    Raises:
        MissingRowError: if a mark of a phrase has no element; a ghost note needs none.
    """
    first: dict[str, str] = {}
    for row in rows:
        if row.exact and len(row.marks) == 1:
            first.setdefault(row.marks[0], row.element)
    found = Rows("articulations of marks", _TABLE, first)
    found.must_have([mark for mark in MARKS if mark != GHOST], "a phrase can have this mark")
    return found


ELEMENT_OF_MARK = elements_of_marks(ARTICULATIONS)
"""The element of each mark but the ghost note."""


def accidental_name(alteration: int) -> str:
    """Return the text of an `accidental` element for an alteration in half steps.

    Raises:
        MissingRowError: if no accidental alters a note so far.
    """
    name = _ACCIDENTAL.get(alteration)
    if name is None:
        raise MissingRowError("accidentals", f"{alteration:+} half steps", _TABLE)
    return name


def check_values(parts: Mapping[int, str]) -> None:
    """Check that every note value of the manuscript has a name.

    Raises:
        MissingRowError: for the first value that has none.
    """
    for part in PHRASE_PARTS:
        if part not in parts:
            raise MissingRowError("note values", f"1/{part}", _TABLE, "a phrase can have this value")


check_values(TYPE_OF_PART)
