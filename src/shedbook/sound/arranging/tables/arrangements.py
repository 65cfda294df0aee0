"""How a track is laid out: chords that set up another, the last chord, the count-in, short phrases.

Source of all rows: common practice.
"""

from __future__ import annotations

from types import MappingProxyType

SET_UPS = MappingProxyType({
    "minor": (("9", "m7b5"), ("5", "7b9")),
    "half-diminished": (("9", "m7b5"), ("5", "7b9")),
    "major": (("9", "m7"), ("5", "7")),
    "dominant": (("5", "m7"),),
    "altered": (("5", "m7b5"),),
    "suspended": (("5", "m7"),),
    "diminished": (("5", "7b9"),),
})  # fmt: skip
"""Family of the coming chord to the chords that lead to it, each as a degree over its root and a kind: a ii-V
into a chord at rest, the ii that belongs to a dominant."""

ENDING_KINDS = MappingProxyType({"major": "6", "minor": "m6"})
"""Mode to the kind of the tonic on which a track ends that would otherwise stop on its dominant."""

TWO_BAR_COUNT_FROM = 100
"""From this tempo (taps a minute) on the count-in has two bars."""

MOST_ROUNDS_A_KEY = 400
"""How many rounds of one key a track has at most, however many minutes are asked for."""

SHORT_PHRASE_BARS = 4
"""A phrase with fewer bars is given room before it comes again."""
