"""Which notes of a chord scale a voicing may use, by the chord's family, and what only passes in a scale.

Source of all rows: common practice of chord-scale teaching (Levine 1995, The Jazz Theory Book, from
memory): avoid notes are left out, the plain eleventh over a major third and the flat ninth over a minor chord
among them.
"""

from __future__ import annotations

from types import MappingProxyType

PASSING = MappingProxyType({
    "bebop dominant": ("7",),
    "bebop major": ("#5",),
    "bebop dorian": ("3",),
    "bebop melodic minor": ("#5",),
})  # fmt: skip
"""Scale name to the degrees that only pass."""

PLAIN_COLOURS = (
    "major pentatonic", "minor pentatonic", "blues", "major blues", "chromatic", "augmented",
)  # fmt: skip
"""Scales that a line is made of but no chord: the players take the family's plain scale instead."""

BASE_SCALES = MappingProxyType({
    "dominant": "mixolydian",
    "major": "ionian",
    "minor": "dorian",
    "half-diminished": "locrian",
    "diminished": "whole-half diminished",
    "suspended": "mixolydian",
})  # fmt: skip
"""Family to the scale that is read where none is said."""

VOICING_COLOURS = MappingProxyType({
    "dominant": ("b9", "9", "#9", "#11", "5", "b13", "13"),
    "major": ("9", "#11", "5", "#5", "13"),
    "minor": ("9", "11", "5"),
    "minor tonic": ("9", "5", "13"),
    "half-diminished": ("9", "11", "b5", "b13"),
    "diminished": ("1", "9", "11", "b5", "7"),
    "suspended": ("b9", "9", "5", "13"),
})  # fmt: skip
"""Family to the degrees that a rootless voicing may add to the chord's pair. A minor chord without a flat
seventh is a tonic; over a minor seventh chord the 13 would give away the third of the dominant to come.
The root is none of them, but of a diminished seventh chord, whose four notes are all alike."""
