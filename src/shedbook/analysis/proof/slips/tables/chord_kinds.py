"""The kinds of chord that the figures of real lines tell apart, and what each of twelve sounds is over them.

Degrees are half steps above the root, 0 to 11.
"""

from __future__ import annotations

from typing import NamedTuple


class ChordKindRow(NamedTuple):
    """A kind of chord: its tones, the scale tones that go with it, and the tones that make its quality.

    `guides` are the third, fifth, seventh or sixth: a landing a half step beside one of them is looked at.
    """

    name: str
    chord: tuple[int, ...]
    scale: tuple[int, ...]
    guides: tuple[int, ...]
    source: str


ROWS = (
    ChordKindRow("no chord", (), (0, 2, 4, 5, 7, 9, 11), (), "common practice"),
    ChordKindRow("major seventh", (0, 4, 7, 11), (2, 5, 6, 9), (4, 7, 11), "common practice"),
    ChordKindRow("major", (0, 4, 7, 9), (2, 5, 6, 11), (4, 7, 9), "common practice"),
    ChordKindRow("dominant", (0, 4, 7, 10), (2, 5, 6, 9), (4, 7, 10), "common practice"),
    ChordKindRow("altered dominant", (0, 1, 4, 7, 10), (3, 6, 8, 9), (4, 7, 10), "common practice"),
    ChordKindRow("minor seventh", (0, 3, 7, 10), (2, 5, 8, 9), (3, 7, 10), "common practice"),
    ChordKindRow("minor", (0, 3, 7, 9, 11), (2, 5), (3, 7, 9, 11), "common practice"),
    ChordKindRow("half-diminished", (0, 3, 6, 10), (1, 2, 5, 8), (3, 6, 10), "common practice"),
    ChordKindRow("diminished", (0, 3, 6, 9), (2, 5, 8, 11), (3, 6, 9), "common practice"),
    ChordKindRow("suspended", (0, 5, 7, 10), (2, 4, 9), (5, 7, 10), "common practice"),
)
"""The kinds in the order in which the figures number them, from 0."""

NO_CHORD, MAJOR_SEVENTH, MAJOR, DOMINANT, ALTERED = 0, 1, 2, 3, 4
MINOR_SEVENTH, MINOR, HALF_DIMINISHED, DIMINISHED, SUSPENDED = 5, 6, 7, 8, 9
"""The places of the rows."""
