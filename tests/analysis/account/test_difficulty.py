"""What makes a line hard, counted by hand."""

from __future__ import annotations

from fractions import Fraction

import pytest

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


# Each limit that lifts the level, reached and just missed; counted by hand with the limits of the table:
# three points make the next level, a scale that is learnt later one or two of them.
EASY, LATER, LAST = ("Cm7", "dorian"), ("Cm6", "melodic minor"), ("C7alt", "altered")
SCALE = "1/4 c4 db eb e | gb4 ab bb c5 | "
LIMITS = [
    pytest.param(LAST, SCALE + "1/1 c5", SCALE + "1/1 db5", 40, 40, 2, id="a ninth of range"),
    pytest.param(LATER, "1/2 g4 b | d5 g | 1/1 b5", "1/2 g4 b | d5 g | 1/1 c6", 40, 40, 2, id="an eleventh"),
    pytest.param(LAST, "1/2 db4 ab", "1/2 c4 ab", 40, 40, 2, id="a leap of a minor sixth"),
    pytest.param(LATER, "1/2 c4 b", "1/2 c4 c5", 40, 40, 2, id="a leap of an octave"),
    pytest.param(LAST, "1/4 c4 gb c db", "1/4 c4 gb c gb", 40, 40, 2, id="three leaps"),
    pytest.param(LATER, "1/4 c4 g c g | c g c d", "1/4 c4 g c g | c g c g", 40, 40, 2, id="seven leaps"),
    pytest.param(
        LAST,
        "1/4 c4 db c db | c db c db | c db c d | 1/1 c",
        "1/4 c4 db c db | c db c db | c db c d",
        40,
        40,
        2,
        id="one note in twelve outside",
    ),
    pytest.param(
        LATER, "1/4 c4 d c d | 1/2 c db", "1/4 c4 d c d | 1/1 db", 40, 40, 2, id="one in five outside"
    ),
    pytest.param(LAST, "1/16 c4 db 1/8 - 1/2. - | 1/1 c", "", 74, 75, 2, id="five notes a second"),
    pytest.param(LATER, "1/16 c4 d 1/8 - 1/2. - | 1/1 c", "", 104, 105, 2, id="seven"),
    pytest.param(EASY, "1/16 c4 d 1/8 - 1/2. - | 1/1 c", "", 134, 135, 2, id="nine"),
    pytest.param(LAST, "1/4 c4 db c db | c db c db", "", 149, 150, 2, id="eighths at 75"),
    pytest.param(LATER, "1/4 c4 d c d | c d c d", "", 209, 210, 2, id="eighths at 105"),
    pytest.param(EASY, "1/8 c4 d c d c d c d | c d c d c d c d", "", 134, 135, 2, id="eighths at 135"),
    pytest.param(LATER, "1/8 c4 d c d c d c d | c d c d c d c d", "", 164, 165, 3, id="eighths at 165"),
    pytest.param(
        LAST, "1/8 c4 db c db c db c db | c db c db c db c db", "", 209, 210, 4, id="eighths at 210"
    ),
    pytest.param(LAST, "1/1 c4", "", 119, 120, 2, id="a chord a bar at 120"),
    pytest.param(LATER, "1/1 c4", "", 179, 180, 2, id="a chord a bar at 180"),
    pytest.param(EASY, "1/1 c4", "", 239, 240, 2, id="two chords a bar at 120"),
]


@pytest.mark.parametrize(("over", "below", "at", "slow", "tempo", "level"), LIMITS)
def test_each_limit_lifts_the_level(
    over: tuple[str, str], below: str, at: str, slow: int, tempo: int, level: int
) -> None:
    missed, reached = (
        read(over[0] + " | %" * line.count("|"), line, over[1] + " | %" * line.count("|"), tempo=beats)
        for line, beats in ((below, slow), (at or below, tempo))
    )
    assert (missed.difficulty.level, reached.difficulty.level) == (level - 1, level)


def test_a_scale_that_is_learnt_later_lifts_the_level() -> None:
    """Two points of a wide leap and a wide range; the scale makes the third."""
    levels = [
        read("Cm6", "1/4 c4 a4 1/2 d5", scale, tempo=40).difficulty.level
        for scale in ("dorian", "melodic minor", "dorian b2")
    ]
    assert levels == [1, 2, 2]


def test_a_line_by_step_has_no_leap() -> None:
    found = read("Cmaj7", "1/4 c4 d e f", "ionian").difficulty
    assert (found.leaps, found.widest_leap) == (0, 0)


def test_a_phrase_without_notes_is_not_hard() -> None:
    found = read("Cmaj7", "1/1 -", tempo=240).difficulty
    assert found.level == 1
    assert {found.fastest_rate, found.steady_rate, found.chord_rate} == {Fraction(0)}


def test_a_faster_tempo_is_never_easier() -> None:
    for _, changes, line, scales, _ in RANKED:
        levels = [read(changes, line, scales, tempo=tempo).difficulty.level for tempo in (60, 120, 180, 240)]
        assert levels == sorted(levels)


def test_rates_and_grades_are_counted() -> None:
    found = read("Dm7 | G7alt", "1/4 d4 f a c5 | ab4 bb b db5", "dorian | altered", tempo=120).difficulty
    assert found.steady_rate == 2  # eight quarters at 120
    assert found.chord_rate == Fraction(1, 2)
    assert found.scale_grade == 2
