"""Fast swing: what swing leaves out when it is fast; hardly ever a last chord that rings."""

from __future__ import annotations

from fractions import Fraction

from shedbook.sound.feels.feel import Feel, FeelBass, FeelComping, FeelDrums, FeelEnding, FeelSwing
from shedbook.sound.feels.shared_patterns import (
    CRASH_ENDING,
    FAST_SWING_COMPING,
    FAST_SWING_VOICES,
    FAST_WALKING_BASS,
    SWUNG_FILLS,
)

FEEL = Feel(
    name="fast swing",
    swing=FeelSwing(ratio=None, lag=Fraction(1), source="Friberg & Sundström 2002"),
    bass=FeelBass(FAST_WALKING_BASS, source="common practice of bass teaching", pedal_percent=20),
    comping=FeelComping(FAST_SWING_COMPING, held=False, source="common practice of comping"),
    drums=FeelDrums(
        FAST_SWING_VOICES, fills=SWUNG_FILLS, without_brushes=(), source="common practice of jazz drumming"
    ),
    ending=FeelEnding(held_percent=30, strokes=CRASH_ENDING, source="common practice"),
)
