"""What a note is called over a chord, by the chord's family.

Row format: twelve degrees, the semitones above the root being the place in the row. A note's degree
follows from what sounds, never from the letter it is written with: D flat over G7alt is #11.
Source of all rows: the project's design, after common practice of chord-scale teaching.
"""

from __future__ import annotations

from types import MappingProxyType

FAMILY_DEGREES = MappingProxyType({
    "dominant":        ("1", "b9", "9", "#9", "3", "11", "#11", "5", "b13", "13", "b7", "7"),
    "major":           ("1", "b9", "9", "#9", "3", "11", "#11", "5", "#5", "13", "b7", "7"),
    "minor":           ("1", "b9", "9", "b3", "3", "11", "#11", "5", "b13", "13", "b7", "7"),
    "half-diminished": ("1", "b9", "9", "b3", "3", "11", "b5", "5", "b13", "13", "b7", "7"),
    "diminished":      ("1", "b9", "9", "b3", "3", "11", "b5", "5", "b13", "bb7", "b7", "7"),
    "suspended":       ("1", "b9", "9", "#9", "3", "4", "#11", "5", "b13", "13", "b7", "7"),
})  # fmt: skip
"""Family name to degrees; "13" is read "6" on a sixth chord of the major or minor family. A plain
dominant table serves an altered dominant too: its scale has no 5 and no 13, the table still names them."""
