"""The costs of reading a played line as a written rhythm.

A cost is ten times the negative natural logarithm of a likelihood, so that the cheapest reading is the
likeliest one. The onsets of a played line are taken to lie round their written places as a normal
distribution does, so that a distance d costs 5·(d/spread)². The other costs are common practice. They were
balanced by trials on invented phrases and on lines of a corpus that were played with uneven timing;
`benchmarks/quantise_agreement.py` gives the figures for these and for held-out lines.

The row formats stand with the rows. Places are shares of the time that a grid covers.
"""

from __future__ import annotations

from fractions import Fraction
from typing import NamedTuple

PRACTICE = "common practice"

SIMPLE, COMPOUND, SHORT = "simple", "compound", "short"
"""The kinds of beat, by what they divide into: two parts, three parts, or none that is counted (the eighths
of 7/8)."""


class GridRow(NamedTuple):
    """One way to divide a beat, or two beats together.

    Attributes:
        name: what musicians call it.
        kinds: the kinds of beat that may be divided so.
        beats: how many beats the grid covers.
        places: where notes may stand.
        bent: whether the off-beat moves when the line swings.
        cost: the cost of each use of the grid.
        source: where the cost comes from.
        exact: whether nobody plays the grid, so that only written files have it.
    """

    name: str
    kinds: tuple[str, ...]
    beats: int
    places: tuple[Fraction, ...]
    bent: bool
    cost: int
    source: str
    exact: bool = False


def _parts(count: int) -> tuple[Fraction, ...]:
    return tuple(Fraction(part, count) for part in range(count))


# The first row of each kind of beat does not divide it.
GRIDS: tuple[GridRow, ...] = (
    GridRow("the beat alone", (SIMPLE, COMPOUND, SHORT), 1, _parts(1), False, 0, PRACTICE),
    GridRow("eighths", (SIMPLE,), 1, _parts(2), True, 4, PRACTICE),
    GridRow("halves", (SHORT,), 1, _parts(2), False, 12, PRACTICE),
    GridRow("triplet", (SIMPLE,), 1, _parts(3), False, 30, PRACTICE),
    GridRow("sixteenths", (SIMPLE,), 1, _parts(4), False, 34, PRACTICE),
    GridRow("swung eighths and sixteenths", (SIMPLE,), 1, _parts(4), True, 50, PRACTICE),
    GridRow("triplet sixteenths", (SIMPLE,), 1, _parts(6), False, 90, PRACTICE),
    GridRow("thirty-seconds", (SIMPLE,), 1, _parts(8), False, 110, PRACTICE),
    GridRow("quarter-note triplet", (SIMPLE,), 2, _parts(3), False, 45, PRACTICE),
    GridRow("quintuplet", (SIMPLE,), 1, _parts(5), False, 130, PRACTICE),
    GridRow("septuplet", (SIMPLE,), 1, _parts(7), False, 160, PRACTICE),
    GridRow("three eighths", (COMPOUND,), 1, _parts(3), False, 2, PRACTICE),
    GridRow("six sixteenths", (COMPOUND,), 1, _parts(6), False, 30, PRACTICE),
    GridRow("duplet", (COMPOUND,), 1, _parts(2), False, 45, PRACTICE),
    GridRow("quadruplet", (COMPOUND,), 1, _parts(4), False, 70, PRACTICE),
    GridRow("quarters of a short beat", (SHORT,), 1, _parts(4), False, 60, PRACTICE),
    GridRow("thirds of a short beat", (SHORT,), 1, _parts(3), False, 70, PRACTICE),
    GridRow("twenty-fourths", (SIMPLE, COMPOUND, SHORT), 1, _parts(24), False, 220, PRACTICE, True),
)


class CostRow(NamedTuple):
    """One cost, or one factor from which a cost is computed."""

    name: str
    cost: int
    source: str


COSTS: tuple[CostRow, ...] = (
    # Where notes stand.
    CostRow("weak place", 3, PRACTICE),  # a note on no beat and no half beat
    CostRow("held from the half", 2, PRACTICE),  # over the next beat: syncopation at the eighth
    CostRow("held from a weak place", 12, PRACTICE),  # over the next half beat or beat
    CostRow("tie", 3, PRACTICE),  # no one value fills the time to the next note
    CostRow("half tied into a third", 40, PRACTICE),  # an off-beat held into a triplet, or out of one
    CostRow("another division", 8, PRACTICE),  # a beat divided otherwise than the last divided one
    CostRow("grace note", 60, PRACTICE),  # a note crushed against the next
    CostRow("left out", 1500, PRACTICE),  # a note that no grid has a place for
    # How long notes are. Both factors are multiplied by a square: "shorter than written" by that of what is
    # missing, as a share of a quarter, of half a long note, or of the whole last note; "longer than written"
    # by that of the quarters that a note is too long.
    CostRow("shorter than written", 90, PRACTICE),
    CostRow("longer than written", 300, PRACTICE),
    CostRow("rest", 16, PRACTICE),
    CostRow("rest under an eighth", 45, PRACTICE),
    CostRow("dotted before a rest", 14, PRACTICE),  # or tied: what is cut short is mostly a plain value
    CostRow("last note ends on a half beat", 5, PRACTICE),
    CostRow("last note ends on a weak place", 14, PRACTICE),
)

SPREAD_MS = 18
"""How far onsets lie from their written places, as a standard deviation in milliseconds. It is near the 19 ms
between players that listeners prefer (Hofmann et al. 2017, JNMR 46(4):309–341, from memory)."""

SPREAD_SHARE = Fraction(1, 40)
"""The same as a share of the beat. The larger of the two holds."""

SWING_RATIOS: tuple[Fraction, ...] = tuple(
    Fraction(text) for text in ("1", "1.2", "1.4", "1.6", "1.8", "2", "2.3", "2.6", "3", "3.5")
)
"""Ratios of the long eighth to the short one that are tried; 3.5 is the widest measured (Friberg &
Sundström 2002, Music Perception 19(3):333–349)."""

SWINGS_FROM = Fraction(6, 5)
"""The ratio from which a line is said to swing (common practice: smaller ones are heard as even)."""

GRACE_MS = 90
"""A grace note begins at most so many milliseconds before its note (common practice)."""

EXACT_CHANCE = Fraction(1, 10_000)
"""A file is taken as written, and not played, when the likelihood that a player hits all its places is
smaller than this (common practice)."""
