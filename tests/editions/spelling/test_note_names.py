"""What single names cost, added up by hand from docs/spelling.md: a case for each way a price comes about."""

from __future__ import annotations

import pytest

from shedbook.editions.spelling.note_names import name_cost, names_over
from shedbook.theory.chord_symbol import parse_chord
from shedbook.theory.key import Key
from shedbook.theory.pitch import NoteName
from shedbook.theory.scale import parse_scale

PRICES = [
    pytest.param("C7", "", "C", "E", 0, id="the chord's own third"),
    pytest.param("C7", "", "C", "Fb", 12 + 12, id="another name for it, and no plain one"),
    pytest.param("C7", "", "C", "B#", 12 + 12, id="B sharp for the root"),
    pytest.param("F7", "", "F", "E#", 12 + 12, id="E sharp for the root"),
    pytest.param("C7", "", "C", "D##", 12 + 24, id="with a double accidental"),
    pytest.param("C7", "", "C", "A", 0, id="the key's own sixth, where no scale is named"),
    pytest.param("C7", "", "C", "Bbb", 4 + 24, id="against the key"),
    pytest.param("C7", "C mixolydian", "C", "Bbb", 4 + 24, id="against the scale"),
    pytest.param("C7", "", "C", "Db", 0, id="outside: by the letter of its degree, the flat nine"),
    pytest.param("C7", "", "C", "C#", 2, id="outside, by another letter"),
    pytest.param("C7b9", "", "C", "Db", 0, id="a tension that the symbol names"),
    pytest.param("C7b9", "", "C", "C#", 4, id="against a tension"),
    pytest.param("Cdim7", "", "Db", "A", 0, id="a diminished seventh by its plainest letters"),
    pytest.param("Cdim7", "", "Db", "Bbb", 5 + 24, id="never with a double flat"),
    pytest.param("Cdim7", "", "B", "D#", 0, id="or by the letters of the key"),
    pytest.param("Cdim7", "", "B", "Eb", 5, id="against the letters of the key"),
    pytest.param("Cbmaj7", "", "Gb", "Cb", 1, id="an odd white key that belongs to the key"),
    pytest.param("Abm7", "", "Ab", "Cb", 2, id="an odd white key as a third"),
    pytest.param("Abm7", "", "Ab", "B", 12, id="and its plain name, against the chord"),
    pytest.param("E7", "", "Ab minor", "A#", 0, id="a chord far from its key: its own degrees decide"),
    pytest.param("E7", "", "Ab minor", "Bb", 2, id="not the key, which has B flat"),
    pytest.param("D7", "", "Ab minor", "G#", 0, id="nine fifths from its key's signature are far"),
    pytest.param("D7", "", "Ab minor", "Ab", 2, id="and so the key does not say A flat"),
    pytest.param("G7", "", "Ab minor", "Db", 0, id="eight are near: the key says D flat"),
    pytest.param("G7", "", "Ab minor", "C#", 4, id="and not C sharp"),
    pytest.param("Edim7", "", "Ab minor", "G#", 4, id="a diminished seventh is never far from its key"),
    pytest.param("C7#9", "", "C", "Eb", 0, id="a #9 as the plain minor third"),
    pytest.param("C7#9", "", "C", "D#", 1, id="or by its own letter"),
    pytest.param("C7#9", "", "C minor", "D#", 4, id="unless the key has the minor third"),
    pytest.param("C7alt", "C altered", "F", "Ab", 0, id="alt has the letters of its scale"),
    pytest.param("C7alt", "C altered", "F", "G#", 2, id="and no other tells against them much"),
    pytest.param("C7alt", "C altered", "F", "Gb", 0, id="its flat fifth"),
    pytest.param("C7alt", "", "F", "F#", 0, id="without a scale the #11"),
    pytest.param("C7#11", "C altered", "F", "F#", 0, id="what the symbol names comes before the scale"),
    pytest.param("C7", "C altered", "F", "D#", 1, id="a note of the scale by the letter of its degree"),
    pytest.param("Eb7b9", "", "Ab", "Fb", 5, id="an odd white key as a tension"),
    pytest.param("Db7", "", "Gb", "Cb", 1, id="as a seventh that belongs to the key"),
    pytest.param("C/Db", "", "C", "Db", 0, id="a slash bass that is no tone has its name"),
    pytest.param("C/Db", "", "C", "C#", 12, id="as firmly as a tone of the chord"),
    pytest.param("Fdim7", "", "C", "B", 0, id="C flat over F in plain letters"),
    pytest.param("E#dim7", "", "C", "F", 0, id="F and not E sharp"),
    pytest.param("Bdim7", "", "C", "Ab", 0, id="a name that is plain already"),
    pytest.param("F#dim7", "", "F", "C", 0, id="C is plain and not B sharp"),
    pytest.param("Am", "", "C", "Bb", 0, id="near its key a chord says how outside notes are named"),
    pytest.param("N.C.", "", "C", "Db", 0, id="without a chord the lowered second"),
    pytest.param("N.C.", "", "C", "C#", 2, id="and not the raised first, by itself"),
]  # fmt: skip


@pytest.mark.parametrize(("chord", "scale", "key", "name", "price"), PRICES)
def test_the_price_of_a_name_by_hand(chord: str, scale: str, key: str, name: str, price: int) -> None:
    fifths = NoteName.parse(name).fifths
    found = name_cost(parse_chord(chord), parse_scale(scale) if scale else None, Key.parse(key), fifths)
    assert found == price


@pytest.mark.parametrize(
    ("chord", "key", "pitch_class", "tried"),
    [
        ("C7", "C", 4, "E"),
        ("C7", "C", 1, "Db C#"),
        ("C7", "C", 10, "Bb"),
        ("F#7", "B", 10, "A#"),
        ("G7alt", "C minor", 1, "C# Db"),
        (
            "A#7#5",
            "B",
            6,
            "F# Gb",
        ),  # E double sharp is no name: of two alike, the one with less to read first
    ],
)
def test_which_names_are_tried_and_in_which_order(chord: str, key: str, pitch_class: int, tried: str) -> None:
    found = names_over(parse_chord(chord), None, Key.parse(key)).candidates[pitch_class]
    assert " ".join(str(NoteName(name)) for name, _ in found) == tried
    assert [cost for _, cost in found] == sorted(cost for _, cost in found)
