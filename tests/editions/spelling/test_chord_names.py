"""What the names of chords cost, added up by hand from the table: a case for each way a price comes about."""

from __future__ import annotations

import pytest

from shedbook.editions.spelling.chord_names import chords_cost, respelled_chords
from shedbook.theory.chord import Chord
from shedbook.theory.chord_symbol import parse_chord
from shedbook.theory.key import Key


def read(text: str) -> tuple[Chord, ...]:
    return tuple(parse_chord(symbol) for symbol in text.split())


PRICES = [
    pytest.param("C", "", 0, id="no chord and no signature"),
    pytest.param("C", "N.C.", 0, id="silence"),
    pytest.param("Eb", "", 3 * 3, id="each accidental of the signature"),
    pytest.param("C# minor", "N.C. C#m", 4 * 3, id="of minor too"),
    pytest.param("C", "Dm7 G7 Cmaj7", 0, id="plain roots and falling fifths"),
    pytest.param("C", "N.C. Ab N.C. E", 0, id="nothing stands beside silence"),
    pytest.param("C", "Ab E", 4, id="eight fifths between two roots"),
    pytest.param("C", "Abm7", 2, id="C flat as a third"),
    pytest.param("C", "F#7 B", 0, id="A sharp as a third is no odd tone"),
    pytest.param("C", "C#7", 2, id="E sharp as a third"),
    pytest.param("C", "C#maj7", 2 * 2, id="E sharp and B sharp"),
    pytest.param("C", "G#7", 2, id="B sharp"),
    pytest.param("C", "D#7", 6, id="F double sharp as a third"),
    pytest.param("C", "D#m7b5", 0, id="and as a minor third none"),
    pytest.param("C", "G#7b9", 2, id="tensions do not count"),
    pytest.param("C", "A#dim7", 0, id="a diminished seventh goes by plain letters"),
    pytest.param("C", "C Gb", 0, id="a tritone"),
    pytest.param("C", "D D#dim7", 0, id="seven fifths: a line in the bass"),
    pytest.param("C", "C F# C", 0, id="six fifths"),
    pytest.param("Gb", "Cb", 6 * 3 + 8, id="C flat in G flat"),
    pytest.param("C", "Cb", 10, id="C flat elsewhere is called B"),
    pytest.param("C", "Fb7 Bbb7", 2 * 10, id="E7 A7"),
    pytest.param("C", "F# Gb", 4 + 6, id="one root by two names"),
    pytest.param("C", "D# Db", 6 + 4, id="a double sharp inside, and far apart"),
    pytest.param("Db", "Gb7 Cb7", 5 * 3 + 2 * 10, id="a falling fifth is renamed as one"),
    pytest.param("C", "G#7 Db", 10, id="G sharp gives way to D flat"),
    pytest.param("C", "Gb Cb", 16, id="an odd root that belongs to its neighbour"),
    pytest.param("C", "Cbb", 10, id="C double flat is called B flat"),
    pytest.param("C", "Cb/Eb", 10, id="the bass costs nothing"),
]  # fmt: skip


@pytest.mark.parametrize(("key", "chords", "price"), PRICES)
def test_the_price_of_a_row_of_chords_by_hand(key: str, chords: str, price: int) -> None:
    assert chords_cost(read(chords), Key.parse(key)) == price


# Common practice: no root that nobody reads, unless it would part chords that belong together.
NAMES = [
    ("C", "Fb7 Ebmaj7", "E7 Ebmaj7"),
    ("Gb", "Cbmaj7 Gb6", "Cbmaj7 Gb6"),
    ("B", "Cbmaj7", "Bmaj7"),
    ("Db", "Ebm7 Ab7 Fb7 Bbb7", "Ebm7 Ab7 E7 A7"),
    ("C", "B#m7 E#7", "Cm7 F7"),
    ("C", "G#7 Db", "Ab7 Db"),
    ("Db", "Gb7 Cb7", "F#7 B7"),
    ("C", "N.C. Fb N.C.", "N.C. E N.C."),
    ("C", "Am7/G# Dm7/Bbb", "Am7/G# Dm7/A"),
    ("Eb", "Abm7/Cb", "Abm7/Cb"),
    ("E", "E/Ab", "E/G#"),
]


@pytest.mark.parametrize(("key", "chords", "called"), NAMES)
def test_what_chords_are_called(key: str, chords: str, called: str) -> None:
    assert " ".join(chord.text for chord in respelled_chords(read(chords), Key.parse(key))) == called


def test_a_chord_that_keeps_its_name_is_the_very_one_that_was_given() -> None:
    chords = read("Dm7 G7 C")
    assert all(
        one is other for one, other in zip(respelled_chords(chords, Key.parse("C")), chords, strict=True)
    )
