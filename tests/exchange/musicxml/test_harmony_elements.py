"""Chord symbols and MusicXML's kinds and degrees, both ways."""

from __future__ import annotations

import itertools
from collections.abc import Iterator
from dataclasses import replace

import pytest

from exchange.musicxml_schema import schema
from shedbook.errors import ChordSymbolError
from shedbook.exchange.musicxml.harmony_elements import DegreeElement, HarmonyElement, harmony_of
from shedbook.exchange.musicxml.harmony_reading import ReadChord, chord_of, same_structure
from shedbook.exchange.musicxml.tables.harmony_kinds import BY_FUNCTION, FROM_DEGREES, KINDS, NO_CHORD
from shedbook.theory.chord_symbol import canonical, parse_chord
from shedbook.theory.pitch import NoteName
from shedbook.theory.tables.chord_qualities import TOKENS

# The kinds are those of the schema's documentation of kind-value and degree-value; the degrees are the
# difference between the symbol's tones (common practice) and the kind's, counted as degree-value says.
WRITTEN = [
    ("C", "major", ""),
    ("C6", "major-sixth", ""),
    ("Cm7", "minor-seventh", ""),
    ("C7", "dominant", ""),
    ("Cmaj7", "major-seventh", ""),
    ("CΔ", "major-seventh", ""),
    ("Cm7b5", "half-diminished", ""),
    ("Cø9", "half-diminished", "add 9 0"),
    ("Cdim7", "diminished-seventh", ""),
    ("Cm(maj7)", "major-minor", ""),
    ("C7#5", "augmented-seventh", ""),
    ("Cmaj7#5", "major-seventh", "alter 5 1"),
    ("C7b5", "dominant", "alter 5 -1"),
    ("C7b9", "dominant", "add 9 -1"),
    ("C7#9b13", "dominant", "add 9 1, add 13 -1"),
    ("C13", "dominant-13th", "subtract 11 0"),
    ("C13b9", "dominant-13th", "alter 9 -1, subtract 11 0"),
    ("C9sus4", "suspended-fourth", "add 7 0, add 9 0"),
    ("C7sus4", "suspended-fourth", "add 7 0"),
    ("C11", "dominant-11th", "subtract 3 0"),
    ("C7alt", "dominant", "subtract 5 0, add 9 -1, add 9 1, add 11 1, add 13 -1"),
    ("C7no3", "dominant", "subtract 3 0"),
    ("C5", "power", ""),
    ("Cadd9", "major", "add 9 0"),
    ("C6/9", "major-sixth", "add 9 0"),
    ("C9#11", "dominant-ninth", "add 11 1"),
    ("N.C.", "none", ""),
]


def degrees_text(harmony: HarmonyElement) -> str:
    return ", ".join(f"{degree.type} {degree.value} {degree.alter}" for degree in harmony.degrees)


@pytest.mark.parametrize(("symbol", "kind", "degrees"), WRITTEN, ids=[row[0] for row in WRITTEN])
def test_kind_and_degrees(symbol: str, kind: str, degrees: str) -> None:
    harmony = harmony_of(parse_chord(symbol))
    assert (harmony.kind, degrees_text(harmony)) == (kind, degrees)


def every_symbol() -> Iterator[str]:
    """Yield every quality that up to two tokens of the table make."""
    spellings = [row.spellings[0] for row in TOKENS]
    for count in (0, 1, 2):
        for tokens in itertools.product(spellings, repeat=count):
            yield "".join(tokens)


def test_every_symbol_comes_back() -> None:
    seen = 0
    for quality in every_symbol():
        try:
            chord = parse_chord(f"Db{quality}/F")
        except ChordSymbolError:
            continue
        seen += 1
        harmony = harmony_of(chord)
        assert chord_of(harmony) == ReadChord(chord), chord.text
        bare = chord_of(replace(harmony, text=None))
        assert bare.chord is not None, chord.text
        assert same_structure(bare.chord, chord), chord.text
        assert bare.lost == ()
    assert seen > 500


def test_the_kinds_are_those_of_the_schema() -> None:
    schema()  # skips where the packages are not there
    from lxml import etree  # noqa: PLC0415

    from exchange.musicxml_schema import _folder  # noqa: PLC0415

    tree = etree.parse(str(_folder("musicxml") / "generate_classes" / "musicxml_4_0.xsd"))
    space = {"xs": "http://www.w3.org/2001/XMLSchema"}
    values = tree.xpath("//xs:simpleType[@name='kind-value']//xs:enumeration/@value", namespaces=space)
    assert len(values) == 33
    assert {row.kind for row in KINDS} | {NO_CHORD, FROM_DEGREES, *BY_FUNCTION} == set(values)


C = NoteName.parse("C")

# How other programs write chords; what is meant is common practice.
READ = [
    (HarmonyElement(C, "dominant", "7", (DegreeElement(9, -1, "add"),)), "C7b9"),
    (HarmonyElement(C, "dominant", "7(b9)", (DegreeElement(9, -1, "add"),)), "C7b9"),
    (HarmonyElement(C, "dominant-13th", "13"), "C13"),
    (HarmonyElement(C, "dominant-11th", "11"), "C11"),
    (HarmonyElement(C, "dominant", None, (DegreeElement(5, 1, "alter"),)), "C7#5"),
    (HarmonyElement(C, "dominant", None, (DegreeElement(5, 1, "add"),)), "C7#5"),
    (HarmonyElement(C, "augmented", None, (DegreeElement(7, 0, "add"),)), "C7#5"),
    (HarmonyElement(C, "minor", None, (DegreeElement(7, 1, "add"),)), "Cm(maj7)"),
    (HarmonyElement(C, "suspended-fourth", "7sus4", (DegreeElement(7, 0, "add"),)), "C7sus4"),
    (
        HarmonyElement(C, "suspended-fourth", None, (DegreeElement(7, -1, "add"),)),
        "C7sus4",
    ),  # a common slip of writers
    (HarmonyElement(C, "dominant-ninth", None, (DegreeElement(9, 1, "alter"),)), "C7#9"),
    (HarmonyElement(C, "dominant", "7b9"), "C7b9"),  # the page says more than the kind
    (HarmonyElement(C, "", "m7"), "Cm7"),
    (HarmonyElement(C, "other", "7alt"), "C7alt"),
    (
        HarmonyElement(
            C,
            "other",
            None,
            (DegreeElement(3, -1, "add"), DegreeElement(5, 0, "add"), DegreeElement(7, 0, "add")),
        ),
        "Cm7",
    ),
    (HarmonyElement(C, "major", None, (), None, 1), "C/E"),
    (HarmonyElement(C, "none", ""), "N.C."),
]


@pytest.mark.parametrize(("harmony", "symbol"), READ, ids=[row[1] for row in READ])
def test_reading(harmony: HarmonyElement, symbol: str) -> None:
    read = chord_of(harmony)
    assert read.chord is not None
    assert canonical(read.chord) == canonical(parse_chord(symbol))
    assert read.lost == ()


LOST = [
    HarmonyElement(C, "Neapolitan"),
    HarmonyElement(C, "Tristan"),
    HarmonyElement(None, "major"),
    HarmonyElement(C, "no such kind"),
]


@pytest.mark.parametrize("harmony", LOST, ids=lambda harmony: harmony.kind)
def test_what_has_no_symbol_is_named(harmony: HarmonyElement) -> None:
    read = chord_of(harmony)
    assert read.chord is None
    assert read.lost


def test_degrees_that_no_symbol_holds_together_are_named() -> None:
    read = chord_of(
        HarmonyElement(C, "dominant", None, (DegreeElement(9, -1, "add"), DegreeElement(9, 0, "add")))
    )
    assert read.chord is not None
    assert read.lost


# What the page shows beside a plainer kind; the reading of the text is that of `theory`.
REFINED = [
    ("dominant", "7sus4"), ("dominant", "13b9"), ("dominant", "7#9#5"), ("dominant", "9sus"),
    ("major", "6/9"), ("major", "maj9#11"), ("major", "Δ"), ("minor", "m6/9"), ("minor", "-Δ7"),
    ("minor-seventh", "-7b5"), ("augmented-seventh", "7alt"), ("suspended-fourth-seventh", "7sus"),
]  # fmt: skip


@pytest.mark.parametrize(("kind", "text"), REFINED)
def test_the_text_on_the_page_goes_before_a_plainer_kind(kind: str, text: str) -> None:
    assert chord_of(HarmonyElement(C, kind, text)) == ReadChord(parse_chord(f"C{text}"))


def test_a_kind_that_no_schema_has_but_files_do() -> None:
    read = chord_of(HarmonyElement(C, "suspended-fourth-seventh"))
    assert read.chord is not None
    assert read.chord.text == "C7sus4"


DOUBTS = [
    ("minor", "7", "C7", "the page shows C7, the kind says Cm: the page is taken"),
    ("dominant", "5", "C5", "the page shows C5, the kind says C7: the page is taken"),
    ("dominant", "quartal", "C7", "the page shows Cquartal, the kind says C7: the kind is taken"),
]


@pytest.mark.parametrize(("kind", "text", "chord", "doubt"), DOUBTS)
def test_page_and_kind_that_differ_are_named(kind: str, text: str, chord: str, doubt: str) -> None:
    assert chord_of(HarmonyElement(C, kind, text)) == ReadChord(parse_chord(chord), (), doubt)


@pytest.mark.parametrize("kind", ["other", "pedal"])
def test_a_text_that_is_no_chord_symbol_is_named(kind: str) -> None:
    read = chord_of(HarmonyElement(C, kind, "quartal"))
    assert read.chord is None
    assert 'with the text "quartal"' in read.lost[0]


def test_an_empty_text_hides_no_kind() -> None:
    assert chord_of(HarmonyElement(C, "dominant", "")) == ReadChord(parse_chord("C7"))
