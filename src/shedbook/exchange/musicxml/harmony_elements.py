"""Chords as MusicXML writes them: a kind, degrees that are added, altered or subtracted, and a bass.

`harmony_of` chooses the kind that needs the cheapest degrees. The alteration of an added degree counts from
a dominant chord, whose seventh is minor. The alteration of an altered degree counts from the degree that the
kind has (MusicXML 4.0, `degree-value`).
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache
from types import MappingProxyType
from typing import NamedTuple

from shedbook.errors import MissingRowError
from shedbook.exchange.musicxml.tables.harmony_kinds import (
    KINDS,
    NO_CHORD,
    KindRow,
)
from shedbook.theory.chord import Chord
from shedbook.theory.pitch import NoteName

_TABLE = "src/shedbook/exchange/musicxml/tables/harmony_kinds.py"

ADD, ALTER, SUBTRACT = "add", "alter", "subtract"
"""What is done with a degree (`degree-type-value`)."""


class DegreeElement(NamedTuple):
    """A `degree` element: its number, its alteration in half steps, and `ADD`, `ALTER` or `SUBTRACT`."""

    value: int
    alter: int
    type: str


@dataclass(frozen=True, slots=True)
class HarmonyElement:
    """What a `harmony` element says.

    Attributes:
        root: the root; None where the file gives a numeral instead.
        kind: the value of the `kind` element.
        text: how the page shows the kind; None where the file does not say it.
        degrees: the degrees.
        bass: the bass note; None for the root.
        inversion: the number of the inversion, 0 for none.
    """

    root: NoteName | None
    kind: str
    text: str | None = None
    degrees: tuple[DegreeElement, ...] = ()
    bass: NoteName | None = None
    inversion: int = 0


FIFTH_ALTERATION: Mapping[str, int] = MappingProxyType({"b5": -1, "5": 0, "#5": 1})
"""The alteration of each fifth in half steps."""
SEVENTHS = ("bb7", "b7", "7")
"""The sevenths from the lowest; one half step lies between each and the next."""

# The costs of a degree when a kind is chosen (common practice). Musicians read an altered fifth most easily
# as an alteration, unless the kind is minor; a tension most easily as added to a plain kind; and a degree
# that is taken away least easily.
_ADD_COST, _ALTER_FIFTH_COST, _ALTER_COST, _SUBTRACT_COST, _IMPLIED_COST = 100, 90, 110, 150, 1


@lru_cache(maxsize=4096)
def harmony_of(chord: Chord) -> HarmonyElement:
    """Return a chord as MusicXML writes it; the text of its kind is as the author writes the quality.

    Raises:
        MissingRowError: if no kind and no degrees make the chord.
    """
    if chord.root is None:
        return HarmonyElement(NoteName(0), NO_CHORD, chord.text)
    ways = [(*way, row.kind) for row in KINDS if (way := _degrees(chord, row)) is not None]
    if not ways:
        raise MissingRowError("chord kinds", chord.text, _TABLE, "no kind and no degrees make this chord")
    _, degrees, kind = min(ways, key=lambda way: way[0])
    return HarmonyElement(chord.root, kind, chord.split_text()[1], degrees, chord.bass)


def _degrees(chord: Chord, row: KindRow) -> tuple[int, tuple[DegreeElement, ...]] | None:
    """Return the cost and the degrees that make a kind into a chord; None where no degrees do."""
    found: list[DegreeElement] = []
    cost = 0
    if row.kind == "power" and chord.seventh:
        return None  # a seventh chord without its third is no power chord
    if chord.third != row.third:
        if chord.third or row.third not in ("3", "b3"):
            return None
        found.append(DegreeElement(3, 0, SUBTRACT))
        cost += _SUBTRACT_COST
    if chord.fifth != row.fifth:
        alter = FIFTH_ALTERATION[chord.fifth] - FIFTH_ALTERATION[row.fifth] if chord.fifth else 0
        found.append(DegreeElement(5, alter, ALTER if chord.fifth else SUBTRACT))
        plain = _ALTER_FIFTH_COST if row.third != "b3" else _ALTER_COST
        cost += plain if chord.fifth else _SUBTRACT_COST
    seventh = _seventh_degree(chord.seventh, row.seventh)
    if seventh is None:
        return None
    found += seventh
    cost += _ADD_COST * len(seventh)
    for degree in _tension_degrees(chord, row):
        found.append(degree)
        cost += {ADD: _ADD_COST, ALTER: _ALTER_COST, SUBTRACT: _SUBTRACT_COST}[degree.type]
    for number in row.implied:
        if number == 11 and any(tension.endswith("11") for tension in chord.tensions):
            return None
        found.append(DegreeElement(number, 0, SUBTRACT))
        cost += _IMPLIED_COST
    return cost, tuple(found)


def _seventh_degree(wanted: str, there: str) -> list[DegreeElement] | None:
    """Return the degrees that make one seventh (or sixth) into another; None where no degree does."""
    if wanted == there:
        return []
    if there:
        return None
    if wanted == "6":
        return [DegreeElement(6, 0, ADD)]
    return [DegreeElement(7, SEVENTHS.index(wanted) - 1, ADD)]


def _tension_degrees(chord: Chord, row: KindRow) -> list[DegreeElement]:
    """Return the degrees that make the tensions of a kind into those of a chord."""
    found: list[DegreeElement] = []
    left = [tension for tension in chord.tensions if tension not in row.tensions]
    for natural in row.tensions:
        if natural in chord.tensions:
            continue
        altered = next((tension for tension in left if tension.strip("b#") == natural), None)
        if altered is None:
            found.append(DegreeElement(int(natural), 0, SUBTRACT))
        else:
            left.remove(altered)
            found.append(DegreeElement(int(natural), _alteration(altered), ALTER))
    found += [DegreeElement(int(tension.strip("b#")), _alteration(tension), ADD) for tension in left]
    return found


def _alteration(degree: str) -> int:
    """Return the alteration of a degree such as "b9" in half steps."""
    return degree.count("#") - degree.count("b")
