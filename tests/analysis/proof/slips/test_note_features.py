"""What is looked at in a line: the features hang together as the project's design says."""

from __future__ import annotations

import random

import pytest

from analysis.helpers import read
from analysis.proof.slips import plain_features
from analysis.proof.slips.drawn_lines import drawn
from shedbook.analysis.proof.slips.candidates import Meant, intervals_moved, octaves_meant
from shedbook.analysis.proof.slips.note_features import note_features, octave_features, surroundings
from shedbook.analysis.proof.slips.tables.line_figures import NOTE_FIGURES, OCTAVE_FIGURES
from shedbook.analysis.proof.slips.typed_line import TypedLine, shapes_of, typed_line


@pytest.fixture(scope="module")
def line() -> TypedLine:
    """A plain line with one rest."""
    text = "1/8 d4 f a c5 b4 a g e | f4 g b d5 f e d b4 | 1/4 c5 1/8 - g4 e g b d5 | 1/1 c5"
    return typed_line(read("Dm7 | G7 | Cmaj7 | %", text))


def with_note(line: TypedLine, at: int, pitch: int) -> TypedLine:
    return line._replace(midi=(*line.midi[:at], pitch, *line.midi[at + 1 :]))


def test_a_note_on_trial_is_seen_as_if_it_were_written(line: TypedLine) -> None:
    """The features of a pitch are the same whichever pitch stands in the line: the others decide."""
    for at, written in enumerate(line.midi):
        around = surroundings(line, at)
        for pitch in (written - 1, written, written + 2):
            there = with_note(line, at, pitch)
            assert surroundings(there, at) == around
            on_trial = note_features(line, shapes_of(line.midi), around, at, pitch)
            assert on_trial == note_features(there, shapes_of(there.midi), around, at, pitch)


def test_intervals_of_a_stretch_that_is_moved() -> None:
    dice = random.Random(3)
    for _ in range(50):
        midi = [dice.randint(50, 80) for _ in range(9)]
        first = dice.randint(0, 8)
        meant = Meant("octave", first, dice.randint(first, 8), dice.choice((-12, 12)))
        moved = [one + meant.shift * (meant.first <= at <= meant.last) for at, one in enumerate(midi)]
        assert intervals_moved(shapes_of(midi).intervals, meant) == shapes_of(moved).intervals


def test_a_stretch_an_octave_off_is_a_candidate(line: TypedLine) -> None:
    wrong = line._replace(midi=tuple(one + 12 * (3 <= at <= 6) for at, one in enumerate(line.midi)))
    assert Meant("octave", 3, 6, -12) in set(octaves_meant(wrong))


def test_features_of_notes_are_those_of_a_plain_reading(line: TypedLine) -> None:
    dice = random.Random(2)
    for one in (line, *drawn()):
        for at, written in enumerate(one.midi):
            pitch = written + dice.choice((-12, -2, -1, 0, 1, 2, 3))
            found = note_features(one, shapes_of(one.midi), surroundings(one, at), at, pitch)
            assert sorted(found) == sorted(plain_features.note_features(one, at, pitch)), (at, pitch)


def test_features_of_octaves_are_those_of_a_plain_reading(line: TypedLine) -> None:
    dice = random.Random(3)
    for one in (line, *drawn()):
        for first in range(len(one.midi)):
            last = min(first + dice.randint(0, 5), len(one.midi) - 1)
            shift = dice.choice((-12, 0, 12))
            moved = intervals_moved(shapes_of(one.midi).intervals, Meant("octave", first, last, shift))
            found = octave_features(one, moved, first, last, shift)
            assert sorted(found) == sorted(plain_features.octave_features(one, first, last, shift))


def test_every_feature_has_a_table(line: TypedLine) -> None:
    shapes = shapes_of(line.midi)
    seen = {
        name
        for at in range(len(line.midi))
        for name, _ in note_features(line, shapes, surroundings(line, at), at, line.midi[at])
    }
    assert seen == set(NOTE_FIGURES)
    moved = octave_features(line, shapes.intervals, 3, 6, 0)
    assert {name for name, _ in moved} <= set(OCTAVE_FIGURES)
