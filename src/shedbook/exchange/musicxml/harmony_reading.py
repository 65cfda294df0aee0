"""Chord symbols of a MusicXML file become chords: from `harmony` elements, and from words that are chords.

Where the page shows a chord that is more than its kind says, the page is believed. What no chord symbol can
say is lost, and the reader of the file makes a remark on it.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from fractions import Fraction
from functools import lru_cache
from types import MappingProxyType
from typing import NamedTuple

from shedbook.errors import ChordSymbolError
from shedbook.exchange.ground.safe_xml import Element, child_text, number, text_of
from shedbook.exchange.musicxml.harmony_elements import (
    ADD,
    ALTER,
    FIFTH_ALTERATION,
    SEVENTHS,
    SUBTRACT,
    DegreeElement,
    HarmonyElement,
)
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
from shedbook.theory.interval import Interval
from shedbook.theory.pitch import LETTERS, NoteName
from shedbook.theory.tables.chord_qualities import TENSION_ORDER

_ZERO = Fraction(0)
_MOST_KNOWN = 1000
_ROWS: Mapping[str, KindRow] = MappingProxyType({row.kind: row for row in (*KINDS, *READ_ONLY)})
_TRIAD = "major"
_THIRDS: Mapping[tuple[int, int], str] = MappingProxyType({(3, 0): "3", (3, -1): "b3"})


class ReadChord(NamedTuple):
    """A chord that was read from a file.

    Attributes:
        chord: the chord; None where nothing could be kept.
        lost: in words, what no chord symbol can say of it.
        doubt: how page and kind differ, and which of them is taken; "" where they agree.
    """

    chord: Chord | None
    lost: tuple[str, ...] = ()
    doubt: str = ""


KnownChords = dict[tuple[str | None, ...], ReadChord]
"""Chords that were read before under the same transposition, by all the words of their elements."""


def read_chord(element: Element, shift: Interval, known: KnownChords) -> ReadChord:
    """Return the chord of a `harmony` element in concert pitch.

    Args:
        element: the element.
        shift: what must be added to a written pitch to get the sounding one.
        known: the chords that were read before; the new one is added.
    """
    words: list[str | None] = []
    for child in element.iter():
        words += (child.tag, child.text, child.get("text"))
    key = tuple(words)
    found = known.get(key)
    if found is None:
        found = chord_of(read_harmony(element, shift))
        if len(known) < _MOST_KNOWN:
            known[key] = found
    return found


def read_harmony(element: Element, shift: Interval) -> HarmonyElement:
    """Return what a `harmony` element says; its root and bass are moved by `shift` to concert pitch."""
    kind = element.find("kind")
    degrees = []
    for child in element.findall("degree"):
        value, alter = (
            number(child_text(child, "degree-value")),
            number(child_text(child, "degree-alter") or "0"),
        )
        if value is not None and alter is not None and 0 < value <= 13 and abs(alter) < 4:
            degrees.append(DegreeElement(int(value), int(alter), child_text(child, "degree-type")))
    inversion = number(child_text(element, "inversion") or "0") or _ZERO
    return HarmonyElement(
        _name(element.find("root"), "root", shift),
        "" if kind is None else text_of(kind),
        None if kind is None else kind.get("text"),
        tuple(degrees),
        _name(element.find("bass"), "bass", shift),
        int(inversion) if 0 < inversion < 8 else 0,
    )


def _name(element: Element | None, tag: str, shift: Interval) -> NoteName | None:
    """Return the sounding name of a `root` or `bass` element; None where it is missing or unreadable."""
    step = "" if element is None else child_text(element, f"{tag}-step")
    if element is None or not step or step not in LETTERS:
        return None
    alter = number(child_text(element, f"{tag}-alter") or "0") or _ZERO
    name = NoteName.of(step, max(-2, min(2, round(alter)))) + shift
    while abs(name.alteration) > 2:
        name = NoteName(name.fifths - 12 if name.alteration > 0 else name.fifths + 12)
    return name


def chord_in_words(text: str) -> Chord | None:
    """Return the chord that some words are, without the white space inside; None where they are no chord."""
    if len(text) > 24 or text[0] not in "ABCDEFGN":
        return None
    try:
        return parse_chord("".join(text.split()))
    except ChordSymbolError:
        return None


# From the element to a chord


@dataclass(slots=True)
class _Structure:
    """A chord while its degrees are applied; `lost` says in words what has no place in it."""

    third: str
    fifth: str
    seventh: str
    tensions: set[str]
    lost: list[str] = field(default_factory=list)


@lru_cache(maxsize=4096)
def chord_of(harmony: HarmonyElement) -> ReadChord:
    """Return the chord that a `harmony` element means, written as its author wrote it where the two agree.

    Args:
        harmony: what the element says, in concert pitch.
    """
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
        return ReadChord(author, (), doubt)  # the page mostly says more than the kind
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
    """Tell whether a chord is of a kind, perhaps with altered or added degrees, and not of another kind."""
    thirds = {row.third, ""} if row.third == "b3" else {row.third, "", "2", "4"}
    return author.third in thirds and (not row.seventh or author.seventh == row.seventh)


def _plain(harmony: HarmonyElement, row: KindRow) -> Chord:
    """Return the chord that a kind means without its text."""
    return Chord("", harmony.root, row.third, row.fifth, row.seventh, row.tensions, harmony.bass)


def _doubt(harmony: HarmonyElement, said: str, taken: str) -> str:
    """Return the remark that page and kind differ; `taken` is "page" or "kind"."""
    text = "".join((harmony.text or "").split())[:40]
    bass = "" if harmony.bass is None else f"/{harmony.bass}"
    return f"the page shows {harmony.root}{text}{bass}, the kind says {said}: the {taken} is taken"


def _author(harmony: HarmonyElement) -> Chord | None:
    """Return the chord that the page shows; None where it cannot be read."""
    if harmony.text is None or harmony.root is None:
        return None
    if not harmony.text.strip() and harmony.kind != _TRIAD:
        return None  # the page shows nothing, or a sign for the kind
    bass = "" if harmony.bass is None else f"/{harmony.bass}"
    return _parsed(f"{harmony.root}{''.join(harmony.text.split())}{bass}")


def _parsed(text: str) -> Chord | None:
    """Return the chord that a symbol means; None where it cannot be read."""
    try:
        return parse_chord(text)
    except ChordSymbolError:
        return None


def same_structure(one: Chord, other: Chord) -> bool:
    """Tell whether two chords have the same tones, root and bass, however they are written."""
    return replace(one, text="", altered=False) == replace(other, text="", altered=False)


def _written(chord: Chord, author: Chord | None, lost: list[str]) -> ReadChord:
    """Return a chord with a symbol that means it; tensions for which no symbol has room are lost."""
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
    """Return the chord of a kind (None for no kind) with the degrees of the element applied."""
    built = _Structure("", "", "", set())
    if row is not None:
        built = _Structure(row.third, row.fifth, row.seventh, set(row.tensions))
    for degree in harmony.degrees:
        {ADD: _add, ALTER: _alter, SUBTRACT: _subtract}.get(degree.type, _add)(built, degree)
    return built


def _add(built: _Structure, degree: DegreeElement) -> None:
    """Add a degree to a chord."""
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
    """Add a tension to a chord; one that chord symbols do not know is lost."""
    name = f"{'#' * alter}{'b' * -alter}{value}"
    if name in TENSION_ORDER:
        built.tensions.add(name)
    else:
        built.lost.append(f"the degree {name[:8]}")


def _set_fifth(built: _Structure, alter: int) -> None:
    """Set the fifth; of two altered fifths in a dominant chord the lower becomes #11, as in `theory`."""
    name = {-1: "b5", 0: "5", 1: "#5"}.get(alter)
    if name is None:
        built.lost.append(f"a fifth altered by {alter}")
    elif {name, built.fifth} == {"b5", "#5"} and built.seventh == "b7" and built.third == "3":
        built.fifth = "#5"
        built.tensions.add("#11")
    else:
        built.fifth = name


def _set_seventh(built: _Structure, index: int) -> None:
    """Set the seventh by its index in `SEVENTHS`; only a diminished chord has the first of them."""
    if not 0 <= index < len(SEVENTHS):
        built.lost.append("an altered seventh")
        return
    diminished = built.third == "b3" and built.fifth == "b5"
    if built.seventh == "6":
        built.lost.append("the sixth")
    built.seventh = SEVENTHS[index if diminished else max(1, index)]


def _alter(built: _Structure, degree: DegreeElement) -> None:
    """Alter a degree of a chord, counted from the degree that the chord has."""
    value, alter = degree.value, degree.alter
    if value == 3:
        moved = {("3", -1): "b3", ("b3", 1): "3", ("3", 0): "3", ("b3", 0): "b3"}.get((built.third, alter))
        if moved is None:
            built.lost.append(f"a third altered by {alter}")
        else:
            built.third = moved
    elif value == 5:
        _set_fifth(built, FIFTH_ALTERATION.get(built.fifth, 0) + alter)
    elif value == 7:
        there = SEVENTHS.index(built.seventh) if built.seventh in SEVENTHS else 1
        _set_seventh(built, there + alter)
    elif value != 1:
        natural = value + 7 if value in (2, 4, 6) else value
        built.tensions.discard(str(natural))
        _add_tension(built, natural, alter)


def _subtract(built: _Structure, degree: DegreeElement) -> None:
    """Take a degree away from a chord."""
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
    """Return the bass note of an inversion; None for the root position."""
    if harmony.inversion < 1 or harmony.root is None:
        return None
    chord = Chord("", harmony.root, built.third, built.fifth, built.seventh)
    tones = chord.tones
    return tones[harmony.inversion] if harmony.inversion < len(tones) else None
