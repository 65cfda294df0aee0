"""When a line grows harder: limits for what is measured.

Row format: name of the measure; limits, each of which adds a point when it is reached; unit; source. Two
points make one level.
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
    LevelRow("fastest rate", (Fraction(4), Fraction(6), Fraction(8)), "notes a second", "common practice"),
)  # fmt: skip
