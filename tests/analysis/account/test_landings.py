"""Landings: what stands on strong beats and first over a chord, and how firmly."""

from __future__ import annotations

from fractions import Fraction

import pytest

from analysis.helpers import in_all_keys, read
from shedbook.analysis.telling import explain


@pytest.mark.parametrize(
    ("changes", "line", "strength"),
    [
        # Order of strength: the project's design, after common practice.
        ("Cm7", "1/1 eb4", "minor third"),
        ("Cmaj7", "1/1 e4", "third"),
        ("Cmaj7", "1/1 b4", "seventh"),
        ("C6", "1/1 a4", "seventh"),
        ("Cmaj7", "1/1 g4", "fifth"),
        ("Cmaj7", "1/1 c4", "root"),
        ("Cmaj7", "1/1 d4", "colour"),
        ("Cmaj7", "1/1 f4", "to pass through"),
        ("Cm7", "1/1 e4", "outside"),
    ],
)
def test_strength_of_a_landing(changes: str, line: str, strength: str) -> None:
    (landing,) = read(changes, line).landings
    assert landing.strength == strength


def test_descending_scale_line_into_the_third_of_a_minor_chord() -> None:
    """A smooth link and a strong landing: common practice."""
    line = "1/8 c5 eb5 f5 ab5 g5 f5 eb5 d5 | 1/1 db5"
    for found in in_all_keys("F7 | Bbm6", line, "half-whole diminished | melodic minor"):
        (link,) = [one for one in found.links if one.kind == "change"]
        assert link.by_step
        landing = next(one for one in found.landings if one.bar == 2)
        assert landing.strength == "minor third"
        assert landing.rank == 7


@pytest.mark.parametrize(
    ("metre", "line", "landings"),
    [
        ("3/4", "1/4 c4 d4 e4", [0]),
        ("6/8", "1/8 c4 d4 e4 f4 g4 a4", [0, 3]),
        ("5/4", "1/4 c4 d4 e4 f4 g4", [0, 3]),
        ("12/8", "1/8 c4 d4 e4 f4 g4 a4 b4 c5 d5 e5 f5 g5", [0, 3, 6, 9]),
        ("4/4", "1/4. c4 1/8 d4 1/4. e4 1/8 f4", [0, 2]),
        ("4/4", "1/4 c4 1/8 d4 1/4. e4 1/4 f4", [0, 2]),  # the and of 2, held over beat 3
        ("4/4", "1/4 c4 1/2 d4 1/4 f4", [0]),  # a whole beat early is no landing
        ("4/4", "1/4 c4 1/8t d4 e4 f4 1/2 g4", [0, 4]),
    ],
)
def test_landings_in_each_metre(metre: str, line: str, landings: list[int]) -> None:
    found = read("Cmaj7", line, "ionian", metre=metre)
    assert [note.index for note in found.notes if note.landing] == landings


def test_first_note_over_each_chord_is_a_landing() -> None:
    found = read("Dm7 G7", "1/4 d4 f4 1/8 - b4 1/4 g4", "dorian, mixolydian")
    assert [note.landing for note in found.notes] == [True, False, True, False]


def test_a_tied_suspension_stands_on_the_beat_it_hangs_over() -> None:
    found = read("Dm7 | G7", "1/4 d4 f a c5 | + 1/4 1/4 b4 g f", "dorian | mixolydian")
    landing = next(one for one in found.landings if one.note == 3)
    assert (landing.bar, landing.beat, landing.excuse) == (2, Fraction(1), "suspension")
    assert found.spans[landing.span].chord.text == "G7"
    assert found.notes[3].landing
    assert any("hangs over" in sentence for sentence in explain(found))


def test_an_accented_outside_note_is_excused_where_an_enclosure_begins_with_it() -> None:
    """Common practice: A flat and F sharp close in on G; the first of them stands on the third beat."""
    found = read("C7", "1/4 c4 e 1/8 ab f# 1/4 g", "mixolydian")
    assert [(one.note, one.strength, one.excuse) for one in found.landings] == [
        (0, "root", ""), (2, "outside", "start of an enclosure"),
    ]  # fmt: skip


def test_a_suspension_into_a_chord_off_the_strong_beats_is_no_landing() -> None:
    """F hangs over into Cmaj7 on beat 4: the accounts of the notes say the same as the landings."""
    found = read("G7 Cmaj7@4", "1/4 g4 1/2+1/8 f5 1/8 e5", "mixolydian, ionian")
    assert found.notes[1].role == "suspension"
    assert [note.landing for note in found.notes] == [True, False, True]
    assert [landing.note for landing in found.landings] == [0, 2]
