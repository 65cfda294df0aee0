"""When a line grows harder: limits for what is measured.

Row format: name of the measure; limits, each of which adds a point when it is reached; unit; source. Up to
two points make level 1, each three more the next level (`benchmarks/level_agreement.py` holds them against a
ranking by hand).
"""

from __future__ import annotations

from fractions import Fraction
from typing import NamedTuple


class LevelRow(NamedTuple):
    """One measure with its limits, lowest first."""

    name: str
    limits: tuple[Fraction, ...]
    unit: str
    source: str


LEVELS: tuple[LevelRow, ...] = (
    # Quartiles of the span of improvised phrases: 9, 13 and 17 semitones.
    LevelRow("range", (Fraction(13), Fraction(17)), "semitones",
             "Weimar Jazz Database (Pfleiderer et al. 2017), phrase_span_semitones_quartiles"),
    LevelRow("leaps", (Fraction(3), Fraction(7)), "leaps of a fourth or more", "common practice"),
    LevelRow("widest leap", (Fraction(8), Fraction(12)), "semitones", "common practice"),
    LevelRow("chromatic density", (Fraction(1, 12), Fraction(1, 5)), "share of outside notes",
             "common practice"),
    LevelRow("fastest rate", (Fraction(5), Fraction(7), Fraction(9)), "notes a second", "common practice"),
    # Eighths at 75, 105, 135, 165 and 210 beats a minute.
    LevelRow("steady rate", (Fraction(5, 2), Fraction(7, 2), Fraction(9, 2), Fraction(11, 2), Fraction(7)),
             "notes a second from the first note to the last", "common practice"),
    # A chord a bar at 120 beats a minute, at 180; two at 120.
    LevelRow("chord rate", (Fraction(1, 2), Fraction(3, 4), Fraction(1)), "chords a second",
             "common practice"),
    LevelRow("scale grade", (Fraction(1), Fraction(2)), "how late a scale is learnt", "common practice"),
)  # fmt: skip

SCALE_GRADES: tuple[tuple[int, frozenset[str]], ...] = (
    (0, frozenset((
        "ionian", "dorian", "phrygian", "lydian", "mixolydian", "aeolian", "locrian", "major pentatonic",
        "minor pentatonic", "blues", "major blues", "bebop dominant", "bebop major", "bebop dorian",
        "chromatic",
    ))),
    (1, frozenset((
        "melodic minor", "harmonic minor", "lydian dominant", "mixolydian b6", "locrian natural 2",
        "dorian b2",
        "lydian augmented", "bebop melodic minor", "whole tone",
    ))),
)  # fmt: skip
"""When scales are learnt: grade 0 first (the order in which teachers take them: common practice)."""
LAST_GRADE = 2
"""The grade of every other scale: altered, diminished, the modes of harmonic minor and major."""
