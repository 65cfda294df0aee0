"""What a voicing costs: its notes by degree, its spread, its place, and the way from one to the next.

10 is a clear preference. Source of all rows: common practice of jazz piano (Levine 1989, The Jazz Piano
Book, from memory: rootless left-hand voicings of three and four notes, third or seventh at the bottom); the
figures are our own.
"""

from __future__ import annotations

from types import MappingProxyType

LOWEST, HIGHEST = 50, 74
"""The register window: D3 to D5."""

HOME_LOWEST, HOME_HIGHEST = 52, 70
"""Inside these a note costs nothing for its place."""

OUTSIDE_HOME = 4
"""Each half step of the outer notes outside the home register."""

HOME_BOTTOM = 59
HIGH_BOTTOM = 2
"""Each half step by which the lowest note lies above B3."""

SIZES = MappingProxyType({3: 7, 4: 0})
"""Number of notes to cost."""

DEGREES = MappingProxyType({
    "1": 14, "5": 5, "b5": 2, "#5": 2, "9": 0, "b9": 2, "#9": 2, "11": 5, "#11": 4, "b13": 2, "13": 1, "7": 8,
})  # fmt: skip
"""What a colour costs."""

BESIDE = MappingProxyType({
    ("b9", "#9"): 12, ("5", "#11"): 30, ("5", "b13"): 40, ("5", "13"): 10, ("b13", "13"): 60,
    ("b9", "9"): 90, ("9", "#9"): 90, ("#11", "b5"): 60, ("5", "#5"): 90, ("b5", "11"): 4, ("1", "9"): 14,
    ("#11", "13"): 6, ("b5", "b13"): 10, ("9", "11"): 5, ("1", "7"): 40,
})  # fmt: skip
"""What two colours cost beside each other, in addition."""

BOTTOM_IS_PAIR = 0
BOTTOM_IS_OTHER = 9
"""Whether the lowest note is one of the chord's pair."""

GAPS = MappingProxyType({1: 7, 2: 1, 3: 0, 4: 0, 5: 1, 6: 2, 7: 3, 8: 9, 9: 14})
"""Half steps between neighbouring notes to cost; wider is not used."""

CLASH_ON_TOP = 12
"""A half step between the two highest notes."""

FLAT_NINTH = 40
"""Two notes thirteen half steps apart."""

LOW_SECOND = 10
"""A step between the two lowest notes below C4."""

CLUSTER = 9
"""Three neighbouring notes a step apart each."""

MOVE = 2
"""Each half step that a voice moves."""

EASY_TOP_MOVE = 4
TOP_LEAP = 3
"""Each half step of the highest note's move beyond the easy one, a major third."""

SAME_CHORD_MOVES = 30
"""What a voicing of the same chord costs when nothing moves at all: a little life."""

TOP_STAYS = 9
"""The highest note the same as before: the ear follows it, so it moves."""

COURSE = (62, 64, 67, 70, 72)
"""Heights between which the highest voice wanders."""

COURSE_STRIKES = 4
"""How many chords it takes from one height to the next."""

OFF_COURSE = 2
"""Each half step of the highest voice away from its course."""

AS_BEFORE = 12
"""The same voicing at the same place as the time before."""

CLASH_WITH_LINE = 900
"""A half step or flat ninth against a landing of the line."""

IN_THE_LINE, BELOW_LINE = 3, 2
"""Each half step of the top note above what lies so far below the lowest note of the line that sounds with
it."""

MOST = 24
"""How many voicings of a chord are kept, the cheapest ones."""

THIN_ENDING = 25
"""Three notes where the last chord of a track could have four."""

NOISE = 9
"""The most that chance adds."""
