"""Several chord symbols in one place are spread over the note before which they stand."""

from __future__ import annotations

from fractions import Fraction

import pytest

from exchange.scores import chords, harmony, note, read, remarks
from shedbook.exchange.musicxml.chord_places import spread_chords
from shedbook.theory.chord_symbol import parse_chord
from shedbook.theory.metre import Metre

CASES = [
    # name, metre, chords, distances on the page, place of the note, its end, places (common practice)
    ("two over a whole note", "4/4", "Dm7 G7", (), 0, 4, "0 2"),
    ("four over a whole note", "4/4", "C7 F7 C7 A7", (), 0, 4, "0 1 2 3"),
    ("three: the first is longest", "4/4", "D7 C G7", (0, 1900, 3200), 0, 4, "0 2 3"),
    ("three: the last is longest", "4/4", "G9 Gdim7 C6", (0, 1375, 4263), 0, 4, "0 1 3"),
    ("two over a waltz's bar", "3/4", "F6 C7", (), 0, 3, "0 2"),
    ("two over a dotted half from beat 2", "4/4", "F6 C7", (), 1, 4, "1 2"),
    ("two over a quarter, and room behind it", "4/4", "F6 C7", (), 2, 3, "2 3"),
    ("two over the last quarter", "4/4", "F6 C7", (), 3, 4, "3 7/2"),
    ("the page turns their order round", "4/4", "F6 C7", (500, 0), 0, 4, "0 2"),
]


@pytest.mark.parametrize(
    ("metre", "names", "shown", "start", "end", "places"),
    [row[1:] for row in CASES],
    ids=[row[0] for row in CASES],
)
def test_places(metre: str, names: str, shown: tuple[int, ...], start: int, end: int, places: str) -> None:
    found = [parse_chord(name) for name in names.split()]
    marks: list[Fraction | None] = [*map(Fraction, shown)] if shown else [None] * len(found)
    given = [(Fraction(start), chord, x) for chord, x in zip(found, marks, strict=True)]
    measure = Metre.parse(metre)
    placed, moved = spread_chords(given, [Fraction(start), Fraction(end)], measure.bar_quarters, measure)
    assert [at for at, _ in placed] == [Fraction(text) for text in places.split()]
    assert moved
    in_order = found[::-1] if shown == (500, 0) else found
    assert [chord for _, chord in placed] == in_order


def test_a_chord_that_is_there_twice_is_one() -> None:
    chord = parse_chord("Fmaj7")
    placed, moved = spread_chords([(Fraction(0), chord, None)] * 2, [], Fraction(4), Metre())
    assert placed == [(Fraction(0), chord)]
    assert not moved


def test_in_a_file_they_are_spread_and_that_is_said() -> None:
    imported = read(harmony("D", "minor-seventh") + harmony("G", "dominant") + note("C4"))
    assert chords(imported) == "Dm7 G7"
    assert "several chords before one note are spread over it (bar 1)." in remarks(imported)


WORDS = "<direction><direction-type><words>{}</words></direction-type></direction>"


def test_words_that_are_chords_are_read_beside_symbols_elsewhere() -> None:
    imported = read(harmony("D", "minor-seventh") + note("C4"), WORDS.format("G7") + note("D4"))
    assert chords(imported) == "Dm7 | G7"


def test_a_single_letter_beside_symbols_may_be_a_rehearsal_mark() -> None:
    imported = read(harmony("D", "minor-seventh") + note("C4"), WORDS.format("B") + note("D4"))
    assert chords(imported) == "Dm7 | %"


def test_a_pickup_with_a_chord_of_its_own_keeps_it() -> None:
    imported = read(
        harmony("A", "dominant") + note("E4", 2), harmony("D", "minor-seventh") + note("D4"), note("C4")
    )
    assert chords(imported) == "N.C. A7@4 | Dm7 | %"


def test_a_pickup_under_the_first_chord_stays_a_pickup() -> None:
    imported = read(
        harmony("D", "minor-seventh") + note("E4", 2), harmony("D", "minor-seventh") + note("D4"), note("C4")
    )
    assert chords(imported) == "Dm7 | %"
    assert imported.phrases[0].bars[0].number == 0
