"""How a track is laid out: chords that set up another, endings, the count-in, the instruments.

Source of all rows: common practice; programs after General MIDI 1 (MMA), counted from 0; ranges as sounding
MIDI numbers (Adler, The Study of Orchestration, from memory).
"""

from __future__ import annotations

from types import MappingProxyType
from typing import NamedTuple


class InstrumentRow(NamedTuple):
    """An instrument that can play the line or comp."""

    name: str
    program: int
    lowest: int
    highest: int


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

SHORT_PHRASE_BARS = 4
"""A phrase with fewer bars is given room before it comes again."""

INSTRUMENTS = (
    InstrumentRow("piano", 0, 21, 108),
    InstrumentRow("vibraphone", 11, 53, 89),
    InstrumentRow("guitar", 26, 40, 88),
    InstrumentRow("acoustic bass", 32, 28, 67),
    InstrumentRow("trumpet", 56, 52, 82),
    InstrumentRow("trombone", 57, 40, 77),
    InstrumentRow("soprano saxophone", 64, 56, 88),
    InstrumentRow("alto saxophone", 65, 49, 80),
    InstrumentRow("tenor saxophone", 66, 44, 75),
    InstrumentRow("baritone saxophone", 67, 36, 69),
    InstrumentRow("clarinet", 71, 50, 94),
    InstrumentRow("flute", 73, 60, 96),
)  # fmt: skip

LINE_INSTRUMENT, BASS_INSTRUMENT, COMPING_INSTRUMENT = "clarinet", "acoustic bass", "piano"
"""The clarinet holds every note that phrases for most instruments have, and plays without vibrato."""
