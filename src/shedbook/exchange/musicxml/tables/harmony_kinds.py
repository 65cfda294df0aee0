"""The chord kinds of MusicXML 4.0 and the chord that each means.

Row format: the value of the `kind` element; third, fifth, seventh (or sixth) and tensions as musicians hear
them; the implied degrees; the source. Implied degrees are those that the words of the schema name and that
musicians leave out: a thirteenth chord has no natural 11 against its major third, and an eleventh chord has
no third. They are written as subtracted, so that a program that follows the schema to the letter gets the
same chord.
"""

from __future__ import annotations

from typing import NamedTuple


class KindRow(NamedTuple):
    """One kind with a structure."""

    kind: str
    third: str
    fifth: str
    seventh: str
    tensions: tuple[str, ...]
    implied: tuple[int, ...]
    source: str


_SCHEMA = "MusicXML 4.0, simple type kind-value"
_TRADE = "MusicXML 4.0, simple type kind-value, less what is common practice to leave out"

KINDS: tuple[KindRow, ...] = (
    KindRow("major", "3", "5", "", (), (), _SCHEMA),
    KindRow("minor", "b3", "5", "", (), (), _SCHEMA),
    KindRow("augmented", "3", "#5", "", (), (), _SCHEMA),
    KindRow("diminished", "b3", "b5", "", (), (), _SCHEMA),
    KindRow("dominant", "3", "5", "b7", (), (), _SCHEMA),
    KindRow("major-seventh", "3", "5", "7", (), (), _SCHEMA),
    KindRow("minor-seventh", "b3", "5", "b7", (), (), _SCHEMA),
    KindRow("diminished-seventh", "b3", "b5", "bb7", (), (), _SCHEMA),
    KindRow("augmented-seventh", "3", "#5", "b7", (), (), _SCHEMA),
    KindRow("half-diminished", "b3", "b5", "b7", (), (), _SCHEMA),
    KindRow("major-minor", "b3", "5", "7", (), (), _SCHEMA),
    KindRow("major-sixth", "3", "5", "6", (), (), _SCHEMA),
    KindRow("minor-sixth", "b3", "5", "6", (), (), _SCHEMA),
    KindRow("dominant-ninth", "3", "5", "b7", ("9",), (), _SCHEMA),
    KindRow("major-ninth", "3", "5", "7", ("9",), (), _SCHEMA),
    KindRow("minor-ninth", "b3", "5", "b7", ("9",), (), _SCHEMA),
    KindRow("dominant-11th", "", "5", "b7", ("9", "11"), (3,), _TRADE),
    KindRow("major-11th", "3", "5", "7", ("9", "11"), (), _SCHEMA),
    KindRow("minor-11th", "b3", "5", "b7", ("9", "11"), (), _SCHEMA),
    KindRow("dominant-13th", "3", "5", "b7", ("9", "13"), (11,), _TRADE),
    KindRow("major-13th", "3", "5", "7", ("9", "13"), (11,), _TRADE),
    KindRow("minor-13th", "b3", "5", "b7", ("9", "11", "13"), (), _SCHEMA),
    KindRow("suspended-second", "2", "5", "", (), (), _SCHEMA),
    KindRow("suspended-fourth", "4", "5", "", (), (), _SCHEMA),
    KindRow("power", "", "5", "", (), (), _SCHEMA),
)

READ_ONLY: tuple[KindRow, ...] = (
    KindRow("suspended-fourth-seventh", "4", "5", "b7", (), (), "seen in files; the schema has no such kind"),
)
"""Kinds that are read and never written."""

NO_CHORD = "none"
"""The kind that says that no chord sounds."""

FROM_DEGREES = "other"
"""The kind of a chord that is made of added degrees alone."""

BY_FUNCTION = ("Neapolitan", "Italian", "French", "German", "pedal", "Tristan")
"""Kinds that name a function and not the chord's tones; they have no symbol in the trade."""
