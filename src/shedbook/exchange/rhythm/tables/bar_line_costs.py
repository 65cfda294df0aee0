"""What speaks for a bar line, a tempo and a chord under a note, where beats are searched in free playing.

Costs are ten times the negative natural logarithm of a likelihood, set against even chances, so that they add
up. MEASURED were counted on two thirds of half of the solos of the Weimar Jazz Database (Pfleiderer et al.,
Inside the Jazzomat, 2017): aggregate figures of some 68,000 notes.

FITTED were chosen together, so that the right reading is the likeliest among all that are searched (a
conditional logit, with a small penalty on large weights): on phrases of two thirds of those solos and on the
demo phrases, both played by a program at tempos between 60 and 300. A cost that is below 0 speaks for a
reading.
"""

from __future__ import annotations

from fractions import Fraction
from typing import NamedTuple

MEASURED = "Weimar Jazz Database (Pfleiderer et al. 2017), counted"
HALVED = "half of what was counted there: phrases to study avoid sixteenths (common practice)"
PRACTICE = "common practice"
FITTED = "chosen by likelihood: see the beginning of the module"

FIRST_NOTE: tuple[float, ...] = (-8.7, -6.5, 4.2, 1.7, -0.9, 2.1, 6.1, 1.9)
"""What it costs that the first note begins on an eighth of a 4/4 bar; the last is also for all after it
(FITTED)."""

LONG_NOTE: tuple[float, ...] = (-4.1, 2.3, 9.5, 4.3, -1.6, 4.8, 6.6, 0.3)
"""What a note of a beat and a half or more costs by the eighth of a 4/4 bar on which it begins (FITTED)."""


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


BEATS: tuple[SearchRow, ...] = (
    SearchRow("usual tempo", 140, PRACTICE),  # in quarters a minute; costs of tempo are counted from here
    SearchRow("tempo octave", 4.4, FITTED),  # times the square of the distance in octaves
    SearchRow("faster by an octave", 10.9, FITTED),  # times the distance
    SearchRow("beginnings", 0.25, FITTED),  # times what the beginnings of the notes cost on the beat
    SearchRow("rhythm", 0.31, FITTED),  # times what the written rhythm costs
    SearchRow("note on a sixteenth", -4.6, FITTED),  # what the rhythm charges too much for it
    SearchRow("note on a third", -2.4, FITTED),  # likewise
    SearchRow("note on a finer place", 5.7, FITTED),
)
"""What a beat costs under a line."""

LANDINGS: tuple[SearchRow, ...] = (
    # These four and the one after them are factors of what a note costs by the table of chords.
    SearchRow("note on a strong beat", 0.6, FITTED),
    SearchRow("note on another beat", 0.52, FITTED),
    SearchRow("note off the beat", 0.78, FITTED),
    SearchRow("landing", 0.24, FITTED),  # the first note over a new chord, within a beat
    # The last note before the change is heard as if it came early: its cost over the new chord.
    SearchRow("note before a late landing", 0.69, FITTED),
    SearchRow("landing by step", -2.3, FITTED),
    SearchRow("landing by half step", -7.4, FITTED),  # besides
    SearchRow("landing on third or seventh", -3.3, FITTED),
    SearchRow("landing after the beat", 0.4, FITTED),
    SearchRow("no landing within a beat", -5.6, FITTED),
)
"""What notes cost over changes."""

SEARCH: tuple[SearchRow, ...] = (
    SearchRow("a round more", 69.0, FITTED),  # the line goes over the changes more than once
    SearchRow("a bar too few", 30.3, FITTED),  # each bar of the changes behind the line
    SearchRow("bars that fit no round", 60.6, FITTED),
    SearchRow("begins before the changes", 9.3, FITTED),  # with a pick-up
    SearchRow("a long pick-up", 45.9, FITTED),  # that begins in the first half of a bar
)
"""What places of the bar line cost."""
