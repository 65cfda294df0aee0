"""What single names cost, added up by hand from docs/spelling.md: a case for each way a price comes about."""

from __future__ import annotations

import pytest

from shedbook.editions.spelling.note_names import name_cost
from shedbook.theory.chord_symbol import parse_chord
from shedbook.theory.key import Key
from shedbook.theory.pitch import NoteName
from shedbook.theory.scale import parse_scale

PRICES = [
    pytest.param("C7", "", "C", "E", 0, id="the chord's own third"),
    pytest.param("C7", "", "C", "Fb", 12 + 12, id="another name for it, and no plain one"),
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
    pytest.param("Am", "", "C", "Bb", 0, id="near its key a chord says how outside notes are named"),
    pytest.param("N.C.", "", "C", "Db", 0, id="without a chord the lowered second"),
    pytest.param("N.C.", "", "C", "C#", 2, id="and not the raised first, by itself"),
]  # fmt: skip


@pytest.mark.parametrize(("chord", "scale", "key", "name", "price"), PRICES)
def test_the_price_of_a_name_by_hand(chord: str, scale: str, key: str, name: str, price: int) -> None:
    fifths = NoteName.parse(name).fifths
    found = name_cost(parse_chord(chord), parse_scale(scale) if scale else None, Key.parse(key), fifths)
    assert found == price
