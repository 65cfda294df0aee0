"""What is looked at in a line: the features hang together as the project's design says."""

from __future__ import annotations

import random

import pytest

from analysis.helpers import read
from shedbook.analysis.proof.slips.candidates import Meant, intervals_moved, octaves_meant
from shedbook.analysis.proof.slips.note_features import note_features, octave_features, surroundings
from shedbook.analysis.proof.slips.tables.line_figures import NOTE_FIGURES, OCTAVE_FIGURES
from shedbook.analysis.proof.slips.typed_line import TypedLine, shapes_of, typed_line

LINE = typed_line(
    read(
        "Dm7 | G7 | Cmaj7 | %",
        "1/8 d4 f a c5 b4 a g e | f4 g b d5 f e d b4 | 1/4 c5 1/8 - g4 e g b d5 | 1/1 c5",
    )
)


def with_note(line: TypedLine, at: int, pitch: int) -> TypedLine:
    return line._replace(midi=(*line.midi[:at], pitch, *line.midi[at + 1 :]))


@pytest.mark.parametrize("at", range(len(LINE.midi)))
def test_a_note_on_trial_is_seen_as_if_it_were_written(at: int) -> None:
    """The features of a pitch are the same whichever pitch stands in the line: the others decide."""
    around = surroundings(LINE, at)
    for pitch in (LINE.midi[at] - 1, LINE.midi[at], LINE.midi[at] + 2):
        there = with_note(LINE, at, pitch)
        assert surroundings(there, at) == around
        on_trial = note_features(LINE, shapes_of(LINE.midi), around, at, pitch)
        assert on_trial == note_features(there, shapes_of(there.midi), around, at, pitch)


def test_intervals_of_a_stretch_that_is_moved() -> None:
    dice = random.Random(3)
    for _ in range(50):
        midi = [dice.randint(50, 80) for _ in range(9)]
        first = dice.randint(0, 8)
        meant = Meant("octave", first, dice.randint(first, 8), dice.choice((-12, 12)))
        moved = [one + meant.shift * (meant.first <= at <= meant.last) for at, one in enumerate(midi)]
        assert intervals_moved(shapes_of(midi).intervals, meant) == shapes_of(moved).intervals


def test_a_stretch_an_octave_off_is_a_candidate() -> None:
    wrong = LINE._replace(midi=tuple(one + 12 * (3 <= at <= 6) for at, one in enumerate(LINE.midi)))
    assert Meant("octave", 3, 6, -12) in set(octaves_meant(wrong))


def test_every_feature_has_a_table() -> None:
    shapes = shapes_of(LINE.midi)
    seen = {
        name
        for at in range(len(LINE.midi))
        for name, _ in note_features(LINE, shapes, surroundings(LINE, at), at, LINE.midi[at])
    }
    assert seen == set(NOTE_FIGURES)
    moved = octave_features(LINE, shapes.intervals, 3, 6, 0)
    assert {name for name, _ in moved} <= set(OCTAVE_FIGURES)
