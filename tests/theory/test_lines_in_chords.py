"""Lines inside one chord: where they begin, and what ends them."""

from __future__ import annotations

import pytest

from shedbook.theory.chord_symbol import parse_chord
from shedbook.theory.lines_in_chords import lines_in_chords

FALLING, RISING = "descending line in minor", "rising line in minor"


# Common practice: Am Am(maj7) Am7 Am6 is one chord in which a voice comes down.
@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("Am Am(maj7) Am7 Am6", [(FALLING, 0, 3)]),
        ("Am Am(maj7) Am7", [(FALLING, 0, 2)]),
        ("Am Am(maj9) Am11 Am6/9", [(FALLING, 0, 3)]),  # tensions make no difference
        ("Am Am Am(maj7) Am7 Am7 Am6 Am6", [(FALLING, 0, 6)]),
        ("Am Am#5 Am6", [(RISING, 0, 2)]),
        ("E7 Am Am(maj7) Am7 D7", [(FALLING, 1, 3)]),
        ("Am Am(maj7) Am7 Cm Cm#5 Cm6", [(FALLING, 0, 2), (RISING, 3, 5)]),
        ("Am Am(maj7) Am7 Am Am(maj7) Am7 Am6", [(FALLING, 0, 2), (FALLING, 3, 6)]),
        ("Am(maj7) Am7 Am6", [(FALLING, 0, 2)]),  # the first chord may be missing, as the last may
        # What is none: two chords, a line with a gap, another root or bass between.
        ("", []),
        ("Am Am(maj7)", []),
        ("Am Am(maj7) D7 G7", []),
        ("Am7 Am6 Am7", []),
        ("Am Am7 Am6", []),
        ("Am Am(maj7) D7 Am7 Am6", []),
        ("Am Am(maj7) N.C. Am7 Am6", []),
        ("Am Am(maj7) Am7/G Am6", []),
        ("Am Dm(maj7) Am7 Am6", []),
    ],
)
def test_lines_and_what_ends_them(text: str, expected: list[tuple[str, int, int]]) -> None:
    found = lines_in_chords([parse_chord(symbol) for symbol in text.split()])
    assert [(one.row.name, one.first, one.last) for one in found] == expected
