"""What speaks for a beat under a played line that is followed through its changes.

COUNTED were counted on two thirds of half of the solos of the Weimar Jazz Database (Pfleiderer et al., Inside
the Jazzomat, 2017), whose notes have times and written places: aggregate figures of some 30,000 beats. TRIED
were balanced by trials on stretches of 16 bars of the same solos. Costs are tenths of a natural logarithm.
"""

from __future__ import annotations

from fractions import Fraction
from typing import NamedTuple

COUNTED = "Weimar Jazz Database (Pfleiderer et al. 2017), counted"
TRIED = "balanced by trials: see the beginning of the module"


class PlaceRow(NamedTuple):
    """How many notes begin at a place of a beat; `wider` is the spread there over that on the beat."""

    place: Fraction
    rate: float
    wider: float = 1.3


class DivisionRow(NamedTuple):
    """One way to play the inside of a beat.

    Attributes:
        name: what musicians call it.
        ratio: the length of the long eighth over that of the short one.
        cost: what each such beat costs, by how rare it is.
        places: where notes begin.
        source: where the figures come from.
    """

    name: str
    ratio: float
    cost: float
    places: tuple[PlaceRow, ...]
    source: str


_BEAT, _HALF = Fraction(0), Fraction(1, 2)
_EIGHTHS = (PlaceRow(_BEAT, 0.75, 1.0), PlaceRow(_HALF, 0.69))

DIVISIONS: tuple[DivisionRow, ...] = (
    DivisionRow("even eighths", 1.1, 4.0, _EIGHTHS, COUNTED),
    DivisionRow("swung eighths", 1.6, 4.0, _EIGHTHS, COUNTED),
    DivisionRow("hard swung eighths", 2.2, 6.0, _EIGHTHS, COUNTED),
    DivisionRow(
        "sixteenths",
        1.0,
        9.0,
        (
            PlaceRow(_BEAT, 0.51, 1.0),
            PlaceRow(Fraction(1, 4), 0.61),
            PlaceRow(_HALF, 0.5),
            PlaceRow(Fraction(3, 4), 0.89),
        ),
        COUNTED,
    ),
    DivisionRow(
        "triplet",
        1.0,
        15.0,
        (PlaceRow(_BEAT, 0.79, 1.0), PlaceRow(Fraction(1, 3), 0.6), PlaceRow(Fraction(2, 3), 0.91)),
        COUNTED,
    ),
)

ELSEWHERE = 0.15
"""How many notes begin at no such place, for each beat (COUNTED)."""

SPREAD_MS, SPREAD_SHARE = 16, 0.045
"""How far notes on the beat lie from it, in milliseconds and as a share of the beat; the larger of the two
holds (COUNTED: 18 ms above 160 beats a minute, 4 to 5 % of a beat below)."""


class FollowRow(NamedTuple):
    """One cost, or one factor of costs."""

    name: str
    cost: float
    source: str


FOLLOWING: tuple[FollowRow, ...] = (
    FollowRow("beginnings", 0.35, TRIED),  # a factor: neighbouring notes do not err independently
    FollowRow("chords", 1.0, TRIED),  # a factor of what a note costs by the table of chords
    FollowRow("another division", 2.1, TRIED),  # a beat divided otherwise than the one before it
    FollowRow("tempo by a sixtieth", 12.0, TRIED),  # a beat longer or shorter by so much than the one before
    FollowRow("tempo by two sixtieths", 50.0, TRIED),
)
