"""Other homes: chords over which the notes of a chord fit as well [common practice]."""

from __future__ import annotations

import pytest

from analysis.helpers import read
from shedbook.analysis.devices.other_homes import DIMINISHED, FIFTH_UP, TRITONE, other_homes

G7_LINE = "1/8 f4 g a b d5 c b4 a"


@pytest.mark.parametrize(
    ("changes", "scales", "line", "found"),
    [
        ("G7 | C", "mixolydian | ionian", f"{G7_LINE} | 1/1 e4", [(FIFTH_UP, ("Dm7",))]),
        ("Dm7 | G7", "dorian | mixolydian", f"1/1 f4 | {G7_LINE}", []),  # it is there already
        ("C7alt | Fm6", "altered | ", "1/8 e4 ab c5 eb db bb4 gb bb | 1/1 ab4", [(TRITONE, ("Gb7#11",))]),
        ("Eb7#11 | Ab", "lydian dominant | ", "1/8 g4 bb db5 f a g f eb | 1/1 c5",
         [(TRITONE, ("A7alt",)), (FIFTH_UP, ("Bbm6",))]),
        ("A7b9 | Dm6", "half-whole diminished | ", "1/8 g4 bb c#5 g e g c# bb4 | 1/1 a4",
         [(TRITONE, ("Eb7b9",)), (DIMINISHED, ("C7b9", "Eb7b9", "F#7b9"))]),
        ("G#dim7 | Am", "whole-half diminished | ", "1/8 d5 f g# b f d b4 g# | 1/1 a4",
         [(DIMINISHED, ("Bdim7", "Ddim7", "Fdim7"))]),
        ("G7", "mixolydian", "1/4 f4 g a b", []),  # four notes are few
        ("Cmaj7", "ionian", "1/8 c4 d e g b a g e", []),
    ],
)  # fmt: skip
def test_homes(changes: str, scales: str, line: str, found: list[object]) -> None:
    told = [
        (one.kind, tuple(str(chord.text) for chord in one.chords))
        for one in other_homes(read(changes, line, scales))
    ]
    assert told == found


def test_what_the_notes_are_there() -> None:
    (home, *_) = other_homes(read("C7alt | Fm6", "1/8 e4 ab c5 eb db bb4 gb bb | 1/1 ab4", "altered | "))
    assert (home.third, home.seventh) == (5, 0)  # B flat over G flat 7, and E for F flat
