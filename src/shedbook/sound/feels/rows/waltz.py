"""Jazz waltz: three in a bar, swung."""

from __future__ import annotations

from fractions import Fraction
from types import MappingProxyType

from shedbook.sound.feels.feel import Feel, FeelBass, FeelComping, FeelDrums, FeelEnding, FeelSwing
from shedbook.sound.feels.patterns import notes
from shedbook.sound.feels.shared_patterns import (
    CRASH_ENDING,
    SWING_COMPING,
    SWING_VOICES,
    SWUNG_FILLS,
    WALKING_BASS,
)

_BASS = MappingProxyType(
    {
        **WALKING_BASS,
        Fraction(3): (
            notes(7, "0:1 1:1 2:1"),
            notes(3, "0:2 2:1"),
            notes(1, "0:3"),
            notes(1, "0:3/2 3/2:3/2"),
        ),
    }
)

FEEL = Feel(
    name="waltz",
    swing=FeelSwing(ratio=None, lag=Fraction(1), source="common practice: a jazz waltz swings as 4/4 does"),
    bass=FeelBass(_BASS, source="common practice of bass teaching", pedal_percent=30),
    comping=FeelComping(SWING_COMPING, held=False, source="common practice of comping"),
    drums=FeelDrums(
        SWING_VOICES, fills=SWUNG_FILLS, without_brushes=(), source="common practice of jazz drumming"
    ),
    ending=FeelEnding(held_percent=60, strokes=CRASH_ENDING, source="common practice"),
)
