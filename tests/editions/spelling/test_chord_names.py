"""What the names of chords cost, added up by hand from the table: a case for each way a price comes about."""

from __future__ import annotations

import pytest

from shedbook.editions.cost_table import costs_by_name
from shedbook.editions.spelling.chord_names import chords_cost, respelled_chords
from shedbook.editions.tables.spelling_costs import CHORD_COSTS
from shedbook.theory.chord import Chord
from shedbook.theory.chord_symbol import parse_chord
from shedbook.theory.key import Key

COST = costs_by_name(CHORD_COSTS)


def read(text: str) -> tuple[Chord, ...]:
    return tuple(parse_chord(symbol) for symbol in text.split())


PRICES = [
    pytest.param("C", "", (), id="no chord and no signature"),
    pytest.param("C", "N.C.", (), id="silence"),
    pytest.param("Eb", "", ("signature",) * 3, id="each accidental of the signature"),
    pytest.param("C# minor", "N.C. C#m", ("signature",) * 4, id="of minor too"),
    pytest.param("C", "Dm7 G7 Cmaj7", (), id="plain roots and falling fifths"),
    pytest.param("C", "N.C. Ab N.C. E", (), id="nothing stands beside silence"),
    pytest.param("C", "Ab E", ("root leap",), id="eight fifths between two roots"),
    pytest.param("C", "Abm7", ("odd tone",), id="C flat as a third"),
    pytest.param("C", "F#7 B", (), id="A sharp as a third is no odd tone"),
    pytest.param("C", "C#7", ("odd tone",), id="E sharp as a third"),
    pytest.param("C", "C#maj7", ("odd tone",) * 2, id="E sharp and B sharp"),
    pytest.param("C", "G#7", ("odd tone",), id="B sharp"),
    pytest.param("C", "D#7", ("double tone",), id="F double sharp as a third"),
    pytest.param("C", "D#m7b5", (), id="and as a minor third none"),
    pytest.param("C", "G#7b9", ("odd tone",), id="tensions do not count"),
    pytest.param("C", "A#dim7", (), id="a diminished seventh goes by plain letters"),
    pytest.param("C", "C Gb", (), id="a tritone"),
    pytest.param("C", "D D#dim7", (), id="seven fifths: a line in the bass"),
    pytest.param("C", "C F# C", (), id="six fifths"),
    pytest.param("Gb", "Cb", ("signature",) * 6 + ("odd root in key",), id="C flat in G flat"),
    pytest.param("C", "Cb", ("renamed root",), id="C flat elsewhere is called B"),
    pytest.param("C", "Fb7 Bbb7", ("renamed root",) * 2, id="E7 A7"),
    pytest.param("C", "Cb/Eb", ("renamed root",), id="the bass costs nothing"),
]  # fmt: skip


@pytest.mark.parametrize(("key", "chords", "rows"), PRICES)
def test_the_price_of_a_row_of_chords_by_hand(key: str, chords: str, rows: tuple[str, ...]) -> None:
    assert chords_cost(read(chords), Key.parse(key)) == sum(COST[name] for name in rows)


# Common practice: no root that nobody reads, unless it would part chords that belong together.
NAMES = [
    ("C", "Fb7 Ebmaj7", "E7 Ebmaj7"),
    ("Gb", "Cbmaj7 Gb6", "Cbmaj7 Gb6"),
    ("B", "Cbmaj7", "Bmaj7"),
    ("Db", "Ebm7 Ab7 Fb7 Bbb7", "Ebm7 Ab7 E7 A7"),
    ("C", "B#m7 E#7", "Cm7 F7"),
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
