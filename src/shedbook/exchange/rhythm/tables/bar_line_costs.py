"""What speaks for a bar line, a tempo and a chord under a note, where beats are searched in free playing.

Costs are ten times the negative natural logarithm of a likelihood, set against even chances, so that they add
up. MEASURED were counted on two thirds of half of the solos of the Weimar Jazz Database (Pfleiderer et al.,
Inside the Jazzomat, 2017): aggregate figures of some 68,000 notes.
"""

from __future__ import annotations

from fractions import Fraction
from typing import NamedTuple

MEASURED = "Weimar Jazz Database (Pfleiderer et al. 2017), counted"
HALVED = "half of what was counted there: phrases to study avoid sixteenths (common practice)"
PRACTICE = "common practice"

LONG_NOTE: tuple[int, ...] = (-8, 4, 6, 4, -5, 7, 4, 1)
"""What a note of a beat and a half or more costs by the eighth of a 4/4 bar on which it begins (MEASURED)."""


FIRST_BEAT: tuple[int, ...] = (0, 9, 11, 12)
"""What it costs that the first note begins in a beat of the bar, the last also for all after it. Solos begin
anywhere (29, 28, 24 and 19 in a hundred phrases, MEASURED), phrases to study mostly in the first beat."""


class ChordRow(NamedTuple):
    """What a note costs over chords of a family, by its half steps over the root."""

    family: str
    on_beat: tuple[int, ...]
    off_beat: tuple[int, ...]
    source: str


CHORD_NOTES: tuple[ChordRow, ...] = (
    ChordRow(
        "dominant",
        (-6, 6, -1, 4, -2, 0, 8, -5, 5, 0, -4, 7),
        (-5, 4, -2, 4, -2, 0, 6, -4, 5, -1, -2, 6),
        MEASURED,
    ),
    ChordRow(
        "major",
        (-6, 13, -3, 5, -6, 6, 8, -7, 13, -3, 9, -1),
        (-5, 9, -3, 6, -5, 4, 6, -6, 9, -2, 9, -2),
        MEASURED,
    ),
    ChordRow(
        "minor",
        (-6, 8, -1, -6, 11, -3, 7, -6, 8, 2, 0, 5),
        (-4, 8, -2, -5, 7, -3, 6, -5, 5, 1, -1, 6),
        MEASURED,
    ),
    ChordRow(
        "half-diminished",
        (-4, -4, 8, -5, 2, -3, -1, 7, 1, 8, -1, 6),
        (-3, -2, 5, -6, 7, -4, -1, 5, 2, 5, -3, 6),
        MEASURED,
    ),
    ChordRow(
        "diminished",
        (-2, 3, 4, -2, 3, 3, -5, 4, -2, -6, 4, 1),
        (-3, 4, 2, 3, 4, 3, -5, 1, -1, -4, 3, -1),
        MEASURED,
    ),
    ChordRow(
        "suspended",
        (-5, 6, -4, 1, 0, 0, 7, -3, 6, 1, -5, 9),
        (-4, 4, -3, -1, 1, -3, 7, 1, 1, 1, -3, 6),
        MEASURED,
    ),
)  # fmt: skip


class RateRow(NamedTuple):
    """How many notes begin, for each beat of a line, at a place of the beat.

    `bent` says that the place moves when the line swings.
    """

    place: Fraction
    rate: float
    bent: bool
    source: str


RATES: tuple[RateRow, ...] = (
    RateRow(Fraction(0), 0.633, False, MEASURED),
    RateRow(Fraction(1, 2), 0.506, True, MEASURED),
    RateRow(Fraction(1, 4), 0.08, False, HALVED),
    RateRow(Fraction(3, 4), 0.12, False, HALVED),
    RateRow(Fraction(1, 3), 0.129, False, MEASURED),
    RateRow(Fraction(2, 3), 0.185, False, MEASURED),
    RateRow(Fraction(1, 6), 0.063, False, MEASURED),
    RateRow(Fraction(5, 6), 0.084, False, MEASURED),
)
ANYWHERE = 0.1
"""How many notes begin at no such place, for each beat (MEASURED)."""


class SearchRow(NamedTuple):
    """One cost of the search, or one measure from which a cost is computed."""

    name: str
    cost: float
    source: str


SEARCH: tuple[SearchRow, ...] = (
    SearchRow("usual tempo", 140, PRACTICE),  # in quarters a minute; an octave away costs "tempo octave"
    SearchRow("tempo octave", 5, PRACTICE),
    SearchRow("a round more", 40, PRACTICE),  # the line goes over the changes more than once
    SearchRow("a bar too few", 40, PRACTICE),  # each bar of the changes behind the line
    SearchRow("bars that fit no round", 80, PRACTICE),
    SearchRow("begins before the changes", 20, PRACTICE),  # with a pick-up
)
