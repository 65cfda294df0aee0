"""What makes a line hard, counted by hand."""

from __future__ import annotations

from fractions import Fraction

from analysis.helpers import read


def test_difficulty_counts() -> None:
    found = read("Cmaj7", "1/8 c4 c5 d#5 e5 g4 e4 c4 g4", "ionian", tempo=120).difficulty
    assert (found.range, found.leaps, found.widest_leap) == (16, 3, 12)
    assert found.chromatic_density == Fraction(1, 8)
    assert found.fastest_rate == 4


# Invented lines, ranked by hand: what a student who knows the major modes would practise first, and last.
RANKED = (
    ("slow chord tones", "Cmaj7 | %", "1/2 c4 e | 1/1 g4", "ionian | %", 80),
    ("quarters up and down", "Cmaj7 | %", "1/4 c4 e g c5 | b4 g e c", "ionian | %", 120),
    (
        "slow eighths by step",
        "Dm7 | G7",
        "1/8 d4 e f g a b c5 d | c b4 a g f e d f",
        "dorian | mixolydian",
        100,
    ),
    (
        "the same at a dance",
        "Dm7 | G7",
        "1/8 d4 e f g a b c5 d | c b4 a g f e d f",
        "dorian | mixolydian",
        160,
    ),
    (
        "altered eighths",
        "Dm7 | G7alt",
        "1/8 d4 f a c5 e d c a4 | ab4 bb b db5 eb f eb db",
        "dorian | altered",
        176,
    ),
    (
        "half-whole sixteenths",
        "G7b9",
        "1/16 g4 ab bb b db5 d e f g f e d db b4 bb ab",
        "half-whole diminished",
        132,
    ),
)


def test_levels_are_those_of_a_player() -> None:
    levels = [
        read(changes, line, scales, tempo=tempo).difficulty.level
        for _, changes, line, scales, tempo in RANKED
    ]
    assert levels == sorted(levels)
    assert levels[0] == 1
    assert levels[2] == 1
    assert levels[3] < levels[4] <= levels[5]
    assert levels[5] >= 4  # sixteenths in a diminished scale are nobody's first lesson


def test_a_faster_tempo_is_never_easier() -> None:
    for _, changes, line, scales, _ in RANKED:
        levels = [read(changes, line, scales, tempo=tempo).difficulty.level for tempo in (60, 120, 180, 240)]
        assert levels == sorted(levels)


def test_rates_and_grades_are_counted() -> None:
    found = read("Dm7 | G7alt", "1/4 d4 f a c5 | ab4 bb b db5", "dorian | altered", tempo=120).difficulty
    assert found.steady_rate == 2  # eight quarters at 120
    assert found.chord_rate == Fraction(1, 2)
    assert found.scale_grade == 2
