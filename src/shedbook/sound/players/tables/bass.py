"""What each note and each step of the bass costs.

10 is a clear preference, 100 is out of the question.
Source of all rows: common practice of bass teaching; the figures are our own, tuned by reading lines.
"""

from __future__ import annotations

from fractions import Fraction
from types import MappingProxyType

LOWEST, HIGHEST = 28, 55
"""E1, the lowest string, to G3; the upright bass goes on to G4 (Adler, from memory), walking lines do not."""

EASY_LOWEST, EASY_HIGHEST = 29, 51
"""Outside these each half step costs more."""

NOTE_COSTS = MappingProxyType({
    # place:            ground root third fifth seventh tone scale chromatic
    "arrive": MappingProxyType({
        "ground": 0, "root": 90, "third": 90, "fifth": 90, "seventh": 110, "tone": 110,
        "scale": 120, "chromatic": 1000}),
    "bar": MappingProxyType({
        "ground": 0, "root": 10, "third": 9, "fifth": 7, "seventh": 18, "tone": 14,
        "scale": 45, "chromatic": 1000}),
    "strong": MappingProxyType({
        "ground": 8, "root": 8, "third": 0, "fifth": 0, "seventh": 5, "tone": 2,
        "scale": 18, "chromatic": 1000}),
    "weak": MappingProxyType({
        "ground": 8, "root": 8, "third": 2, "fifth": 3, "seventh": 6, "tone": 3,
        "scale": 5, "chromatic": 26}),
    "lead": MappingProxyType({
        "ground": 8, "root": 8, "third": 4, "fifth": 4, "seventh": 5, "tone": 4,
        "scale": 3, "chromatic": 5}),
})  # fmt: skip
"""Place in the bar, then what the note is over the chord. `arrive` is the first note over a new chord, `bar`
the first note of a bar over the same chord, `lead` the last before a new chord. A slash chord's ground is
its bass note; over any other chord ground and root are one."""

WISH_COST = 40
"""For a note that is not what the rhythm's pattern wishes."""

MOVES = (34, 1, 0, 4, 5, 4, 16, 7, 16, 18, 22, 60, 12)
"""What a move of 0 to 12 half steps costs; further is out of the question."""

TOO_FAR = 400

LEADS = MappingProxyType({1: 0, -1: 0, 2: 2, -2: 2, 5: 5, -7: 6, -5: 16, 7: 16})
"""What it costs to reach a new chord's first note by this interval, on top of the move: by half step, by
whole step, from the dominant below or above; any other interval costs OTHER_LEAD."""

OTHER_LEAD = 34

BACK_AGAIN = (0, 26, 22, 16, 16, 14, 20, 12, 16, 16, 16, 20, 8)
"""Going away by 1 to 12 half steps and straight back to the same note."""

TURN_BY_STEP = 7
"""Two steps in opposite directions."""

ONE_WAY_LEAPS = 18
"""Two leaps of a fourth or more one after the other in the same direction."""

WIDE = 24
"""Three notes in one direction over more than an octave."""

LEAP_NOT_FILLED = 6
"""A leap of a fifth or more that goes on in the same direction."""

LEAP, LEAP_TO_SCALE = 5, 6
"""A leap of so many half steps to a note of the scale that is no chord tone."""

LEAVING_CHROMATIC = 120
"""A chromatic note that does not move on by half step."""

OUTSIDE_EASY = 6
"""Each half step outside the easy register."""

OFF_COURSE = 1
"""Each half step away from the course that the dice set for the line."""

COURSE = (33, 35, 38, 41, 44, 48, 52)
"""Heights between which the course of a line goes up and down."""

LOOP_OPENING = 43
LOOP_OPENING_OFF = 10
"""Each half step by which a loop begins higher: its end must find back there from wherever it is."""

COURSE_NOTES = 8
"""How many notes the line takes from one height of its course to the next."""

AS_BEFORE = 9
"""A note that the round before had at the same place, or the bar before over the same chord."""

ALIKE = 1
"""By how many notes at most a bar differs from the one before it if it is to be called the same."""

NOISE = 9
"""The most that chance adds to a note's cost, so that different seeds give different good lines."""

LOUD = MappingProxyType({
    "arrive": 92, "bar": 88, "plain": 82, "back": 4, "off": -8, "ghost": 44, "drop": 56,
})  # fmt: skip
"""Velocities by weight: the first note over a new chord, of a bar, any other; what is added on 2 and 4 and
off the beat; a dead note and one of a drop."""

GHOST_SHARE = Fraction(1, 2)
"""How much of its length a dead note sounds."""
