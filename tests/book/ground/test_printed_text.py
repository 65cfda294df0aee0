"""Flats and sharps in print: what is a symbol and what is a word."""

from __future__ import annotations

import pytest

from shedbook.book.ground.printed_text import printed, printed_prose, printed_tonic
from shedbook.book.ground.words import EN, words_of


@pytest.mark.parametrize(
    ("text", "found"),
    # Common practice: symbols are printed with real signs.
    [
        ("Over Ebm7 the colour is dorian.", "Over E♭m7 the colour is dorian."),
        ("Bm7b5, then E7#9#5.", "Bm7♭5, then E7♯9♯5."),
        ("A6/C# falls to Bb.", "A6/\u2060C♯ falls to B♭."),
        ("F7(b9) and C–(#11)", "F7(♭9) and C–(♯11)"),
        ("the #11, the b9 and the bb7", "the ♯11, the ♭9 and the ♭♭7"),
        ("iii–bIII–ii–bII", "iii–♭III–ii–♭II"),
        ("Ebb, Abbey and Bbq are words; bar 9 too", "Ebb, Abbey and Bbq are words; bar 9 too"),
        ("E flat, F sharp and A", "E\u00a0flat, F\u00a0sharp and A"),
        ("a flat tyre in D flat minor", "a flat tyre in D\u00a0flat minor"),
        ("G7alt", "G7alt"),
    ],
)
def test_prose(text: str, found: str) -> None:
    assert printed_prose(text, EN) == found


def test_names_of_another_language_stay_together_too() -> None:
    words = words_of("en", {"note.flat": "{letter} bemol"})
    assert printed_prose("E bemol", words) == "E\u00a0bemol"


def test_names_alone() -> None:
    assert printed_tonic("Bb") == "B♭"
    assert printed("I–#i°–ii–#ii°") == "I–♯i°–ii–♯ii°"
