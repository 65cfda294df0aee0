"""A line played in against a click. How notes are written down is tested in tests/exchange/rhythm."""

import random

import pytest

from shedbook.book.verbs.played_in import PlayedKey, played_line
from shedbook.errors import ReadError

LINE = [
    (0, 1, 62),
    (1, 0.5, 65),
    (1.5, 0.5, 69),
    (2, 1, 72),
    (3, 0.5, 71),
    (3.5, 0.5, 69),
    (4, 1, 67),
    (5, 1, 71),
    (6, 2, 74),
]


def played(seed: int, tempo: int) -> list[PlayedKey]:
    """Return the line as a person plays it: 15 ms early or late, a little detached."""
    dice, beat = random.Random(seed), 60 / tempo
    return [
        PlayedKey(midi, 80, max(0, start * beat + dice.gauss(0, 0.015)), (start + length) * beat * 0.98)
        for start, length, midi in LINE
    ]


@pytest.mark.parametrize("tempo", [90, 120, 160])
@pytest.mark.parametrize("seed", range(4))
def test_what_was_played_stands_as_it_was_meant(seed: int, tempo: int) -> None:
    line = played_line(played(seed, tempo), {"changes": "Dm7 | G7"}, tempo_bpm=tempo)
    assert line == "1/4 d4 1/8 f a 1/4 c5 1/8 b4 a | 1/4 g4 b 1/2 d5"


def test_notes_are_named_by_the_chords() -> None:
    keys = [
        PlayedKey(midi, 80, place * 0.5, place * 0.5 + 0.45) for place, midi in enumerate((56, 60, 63, 66))
    ]
    assert played_line(keys, {"changes": "Ab7"}, tempo_bpm=120) == "1/4 ab3 c4 eb gb"


def test_nothing_played_is_refused() -> None:
    with pytest.raises(ReadError, match="Nothing was played"):
        played_line([], {}, tempo_bpm=120)
