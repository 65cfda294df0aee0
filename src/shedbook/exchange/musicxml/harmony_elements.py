"""Chord symbols as MusicXML says them: a kind, degrees added, altered or subtracted, and a bass.

`harmony_of` chooses the kind that needs the fewest degrees; `chord_of` puts a chord together from any.
The alteration of an added degree counts from a dominant chord (7 is the minor seventh), that of an
altered one from the degree that the kind has (MusicXML 4.0, `degree-value`).
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from functools import lru_cache
from types import MappingProxyType
from typing import NamedTuple

from shedbook.errors import ChordSymbolError
from shedbook.exchange.musicxml.tables.harmony_kinds import (
    BY_FUNCTION,
    FROM_DEGREES,
    KINDS,
    NO_CHORD,
    READ_ONLY,
    KindRow,
)
from shedbook.theory.chord import Chord
from shedbook.theory.chord_symbol import canonical, parse_chord
from shedbook.theory.pitch import NoteName
from shedbook.theory.tables.chord_qualities import TENSION_ORDER

ADD, ALTER, SUBTRACT = "add", "alter", "subtract"


class DegreeElement(NamedTuple):
    """One `degree` element: its number, its alteration in half steps, and what is done with it."""

    value: int
    alter: int
    type: str


@dataclass(frozen=True, slots=True)
class HarmonyElement:
    """What one `harmony` element says; `text` is None where the file gives none, `root` for a numeral."""

    root: NoteName | None
    kind: str
    text: str | None = None
    degrees: tuple[DegreeElement, ...] = ()
    bass: NoteName | None = None
    inversion: int = 0


_ROWS: Mapping[str, KindRow] = MappingProxyType({row.kind: row for row in (*KINDS, *READ_ONLY)})
_TRIAD = "major"
_FIFTHS: Mapping[str, int] = MappingProxyType({"b5": -1, "5": 0, "#5": 1})
_SEVENTHS = ("bb7", "b7", "7")
_THIRDS: Mapping[tuple[int, int], str] = MappingProxyType({(3, 0): "3", (3, -1): "b3"})

# What a degree costs when a kind is chosen: an altered fifth reads best as such (major seventh, raised
# fifth) unless the kind is minor, a tension best as added to a plainer kind, taking away least well.
_ADD_COST, _ALTER_FIFTH_COST, _ALTER_COST, _SUBTRACT_COST, _IMPLIED_COST = 100, 90, 110, 150, 1


@lru_cache(maxsize=4096)
def harmony_of(chord: Chord) -> HarmonyElement:
    """Return a chord as MusicXML says it; `text` is the author's own way of writing its quality."""
    if chord.root is None:
        return HarmonyElement(NoteName(0), NO_CHORD, chord.text)
    ways = [(*way, row.kind) for row in KINDS if (way := _degrees(chord, row)) is not None]
    _, degrees, kind = min(ways, key=lambda way: way[0])
    return HarmonyElement(chord.root, kind, chord.split_text()[1], degrees, chord.bass)


def _degrees(chord: Chord, row: KindRow) -> tuple[int, tuple[DegreeElement, ...]] | None:
    """Return the degrees that make a kind into the chord, with their cost; None where none do."""
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
        alter = _FIFTHS[chord.fifth] - _FIFTHS[row.fifth] if chord.fifth else 0
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
    """Return what makes one seventh (or sixth) into another; None where another kind must serve."""
    if wanted == there:
        return []
    if there:
        return None
    if wanted == "6":
        return [DegreeElement(6, 0, ADD)]
    return [DegreeElement(7, _SEVENTHS.index(wanted) - 1, ADD)]


def _tension_degrees(chord: Chord, row: KindRow) -> list[DegreeElement]:
    """Return the degrees that make the tensions of a kind those of the chord."""
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
    return degree.count("#") - degree.count("b")


# Reading


@dataclass(slots=True)
class _Structure:
    """A chord while its degrees are put together; `lost` says in words what has no place in it."""

    third: str
    fifth: str
    seventh: str
    tensions: set[str]
    lost: list[str] = field(default_factory=list)


class ReadChord(NamedTuple):
    """A chord, None where nothing could be kept, and in words what no symbol can say of it.

    `doubt` says where page and kind differ, and which of them is taken; "" where they do not.
    """

    chord: Chord | None
    lost: tuple[str, ...] = ()
    doubt: str = ""


@lru_cache(maxsize=4096)
def chord_of(harmony: HarmonyElement) -> ReadChord:
    """Return the chord that a `harmony` element says, written as its author wrote it where that agrees."""
    if harmony.kind == NO_CHORD:
        return ReadChord(_parsed(harmony.text or "N.C.") or parse_chord("N.C."))
    if harmony.root is None:
        return ReadChord(None, ("a numeral instead of a root",))
    row = _ROWS.get(harmony.kind)
    author = _author(harmony)
    if row is None and (harmony.kind != FROM_DEGREES or not harmony.degrees):
        named = f'the kind "{harmony.kind}"' if harmony.kind in BY_FUNCTION else f'"{harmony.kind[:40]}"'
        if harmony.text and author is None:
            named += f' with the text "{harmony.text[:40]}"'
        return ReadChord(author, () if author else (f"{named}, which has no chord symbol",))
    if author is not None and row is not None and not harmony.degrees:
        doubt = "" if _refines(author, row) else _doubt(harmony, canonical(_plain(harmony, row)), "page")
        return ReadChord(author, (), doubt)  # the page shows the text, and mostly it says more than the kind
    built = _built(harmony, row)
    bass = harmony.bass or _inverted(harmony, built)
    chord = Chord(
        "", harmony.root, built.third, built.fifth, built.seventh,
        tuple(tension for tension in TENSION_ORDER if tension in built.tensions), bass,
    )  # fmt: skip
    read = _written(chord, author, built.lost)
    if harmony.text and author is None and not harmony.degrees and read.chord is not None:
        return read._replace(doubt=_doubt(harmony, read.chord.text, "kind"))
    return read


def _refines(author: Chord, row: KindRow) -> bool:
    """Say whether a chord is what a kind says, altered or added to, but no other kind of chord."""
    thirds = {row.third, ""} if row.third == "b3" else {row.third, "", "2", "4"}
    return author.third in thirds and (not row.seventh or author.seventh == row.seventh)


def _plain(harmony: HarmonyElement, row: KindRow) -> Chord:
    """Return what a kind says without its text."""
    return Chord("", harmony.root, row.third, row.fifth, row.seventh, row.tensions, harmony.bass)


def _doubt(harmony: HarmonyElement, said: str, taken: str) -> str:
    """Return the remark that page and kind differ."""
    text = "".join((harmony.text or "").split())[:40]
    bass = "" if harmony.bass is None else f"/{harmony.bass}"
    return f"the page shows {harmony.root}{text}{bass}, the kind says {said}: the {taken} is taken"


def _author(harmony: HarmonyElement) -> Chord | None:
    """Return the chord that the author's own writing says, where it can be read."""
    if harmony.text is None or harmony.root is None:
        return None
    if not harmony.text.strip() and harmony.kind != _TRIAD:
        return None  # nothing is printed, or a sign stands for the kind
    bass = "" if harmony.bass is None else f"/{harmony.bass}"
    return _parsed(f"{harmony.root}{''.join(harmony.text.split())}{bass}")


def _parsed(text: str) -> Chord | None:
    try:
        return parse_chord(text)
    except ChordSymbolError:
        return None


def same_structure(one: Chord, other: Chord) -> bool:
    """Say whether two chords mean the same tones over the same root and bass, however they are written."""
    return replace(one, text="", altered=False) == replace(other, text="", altered=False)


def _written(chord: Chord, author: Chord | None, lost: list[str]) -> ReadChord:
    """Return a chord with a text that reads as it; tensions that no symbol can hold together are lost."""
    if author is not None and same_structure(author, chord):
        return ReadChord(author, tuple(lost))
    left = chord
    for _ in range(len(chord.tensions) + 1):
        read = _parsed(canonical(left))
        if read is not None and same_structure(read, left):
            return ReadChord(read, tuple(lost))
        if not left.tensions:
            break
        lost.append(f"the {left.tensions[-1]}")
        left = replace(left, tensions=left.tensions[:-1])
    if author is not None:
        return ReadChord(author, (*lost, "degrees that contradict its text"))
    return ReadChord(None, (*lost, "degrees that make no chord symbol"))


def _built(harmony: HarmonyElement, row: KindRow | None) -> _Structure:
    """Apply the degrees to the kind."""
    built = _Structure("", "", "", set())
    if row is not None:
        built = _Structure(row.third, row.fifth, row.seventh, set(row.tensions))
    for degree in harmony.degrees:
        {ADD: _add, ALTER: _alter, SUBTRACT: _subtract}.get(degree.type, _add)(built, degree)
    return built


def _add(built: _Structure, degree: DegreeElement) -> None:
    value, alter = degree.value, degree.alter
    if value == 3:
        built.third = _THIRDS.get((3, alter), built.third)
    elif value == 5:
        _set_fifth(built, alter)
    elif value == 7:
        _set_seventh(built, alter + 1)
    elif value == 6 and alter == 0 and not built.seventh:
        built.seventh = "6"
    elif value != 1:
        _add_tension(built, value + 7 if value in (2, 4, 6) else value, alter)


def _add_tension(built: _Structure, value: int, alter: int) -> None:
    name = f"{'#' * alter}{'b' * -alter}{value}"
    if name in TENSION_ORDER:
        built.tensions.add(name)
    else:
        built.lost.append(f"the degree {name[:8]}")


def _set_fifth(built: _Structure, alter: int) -> None:
    """Set the fifth; a second altered one is heard as #11, as `theory` reads it."""
    name = {-1: "b5", 0: "5", 1: "#5"}.get(alter)
    if name is None:
        built.lost.append(f"a fifth altered by {alter}")
    elif {name, built.fifth} == {"b5", "#5"} and built.seventh == "b7" and built.third == "3":
        built.fifth = "#5"
        built.tensions.add("#11")
    else:
        built.fifth = name


def _set_seventh(built: _Structure, index: int) -> None:
    """Set the seventh, 0 being the diminished one, which only a diminished chord has."""
    if not 0 <= index < len(_SEVENTHS):
        built.lost.append("an altered seventh")
        return
    diminished = built.third == "b3" and built.fifth == "b5"
    if built.seventh == "6":
        built.lost.append("the sixth")
    built.seventh = _SEVENTHS[index if diminished else max(1, index)]


def _alter(built: _Structure, degree: DegreeElement) -> None:
    value, alter = degree.value, degree.alter
    if value == 3:
        moved = {("3", -1): "b3", ("b3", 1): "3", ("3", 0): "3", ("b3", 0): "b3"}.get((built.third, alter))
        if moved is None:
            built.lost.append(f"a third altered by {alter}")
        else:
            built.third = moved
    elif value == 5:
        _set_fifth(built, _FIFTHS.get(built.fifth, 0) + alter)
    elif value == 7:
        there = _SEVENTHS.index(built.seventh) if built.seventh in _SEVENTHS else 1
        _set_seventh(built, there + alter)
    elif value != 1:
        natural = value + 7 if value in (2, 4, 6) else value
        built.tensions.discard(str(natural))
        _add_tension(built, natural, alter)


def _subtract(built: _Structure, degree: DegreeElement) -> None:
    value = degree.value
    if value in (2, 4) and built.third == str(value):
        value = 3
    if value == 3:
        built.third = ""
    elif value == 5:
        built.fifth = ""
    elif value == 7 or (value == 6 and built.seventh == "6"):
        built.seventh = ""
    elif value == 1:
        built.lost.append("the left-out root")
    else:
        built.tensions = {tension for tension in built.tensions if tension.strip("b#") != str(value)}


def _inverted(harmony: HarmonyElement, built: _Structure) -> NoteName | None:
    """Return the bass that an inversion puts under the chord."""
    if harmony.inversion < 1 or harmony.root is None:
        return None
    chord = Chord("", harmony.root, built.third, built.fifth, built.seventh)
    tones = chord.tones
    return tones[harmony.inversion] if harmony.inversion < len(tones) else None
