"""How patterns are written. Source of every check: the docstrings of the readers."""

from fractions import Fraction

from shedbook.sound.feels.patterns import (
    BassWay,
    CompingWay,
    DrumWay,
    FillStroke,
    StruckChord,
    cells,
    chords,
    fill,
    notes,
    strokes,
    two_bars,
)

ZERO, HALF, ONE = Fraction(0), Fraction(1, 2), Fraction(1)


def test_notes_of_the_bass() -> None:
    assert notes(2, "0:1 3/2:1/2:fifth") == BassWay(2, ((ZERO, ONE, ""), (ONE + HALF, HALF, "fifth")))


def test_chords() -> None:
    two = (StruckChord(ZERO, HALF, False), StruckChord(ONE + HALF, ONE, True))
    assert chords(1, "0:1/2 3/2:1^") == CompingWay(1, two)
    assert chords(3, "") == CompingWay(3, ())


def test_strokes_and_two_bars() -> None:
    assert strokes(1, "0 3/2@71") == DrumWay(1, ((ZERO, 0), (ONE + HALF, 71)))
    assert two_bars(q4=("0", "1@50")) == {Fraction(4): (((ZERO, 0),), ((ONE, 50),))}


def test_a_group_of_sixteenths_is_begun_as_an_eighth() -> None:
    found = cells(q1_2=(strokes(1, "0 1/4@34"),), q1=(strokes(1, ""),))
    assert found[Fraction(1, 4)] == found[Fraction(3, 4)] == (strokes(1, "0"),)


def test_a_fill() -> None:
    """38 and 36 are snare and kick: General MIDI 1 Percussion Key Map, MMA RP-003."""
    assert fill(1, "s:1:52 k:1/2:60") == (1, (FillStroke(38, ONE, 52), FillStroke(36, HALF, 60)))
