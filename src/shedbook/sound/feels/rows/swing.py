"""Swing: long and short eighths over a walking bass."""

from __future__ import annotations

from fractions import Fraction

from shedbook.sound.feels.feel import Feel, FeelBass, FeelComping, FeelDrums, FeelEnding, FeelSwing
from shedbook.sound.feels.shared_patterns import (
    CRASH_ENDING,
    SWING_COMPING,
    SWING_VOICES,
    SWUNG_FILLS,
    WALKING_BASS,
)

FEEL = Feel(
    name="swing",
    swing=FeelSwing(ratio=None, lag=Fraction(1), source="Friberg & Sundström 2002"),
    bass=FeelBass(
        WALKING_BASS, source="common practice of bass teaching", in_two_percent=35, pedal_percent=35
    ),
    comping=FeelComping(SWING_COMPING, held=False, source="common practice of comping"),
    drums=FeelDrums(
        SWING_VOICES, fills=SWUNG_FILLS, without_brushes=(), source="common practice of jazz drumming"
    ),
    ending=FeelEnding(held_percent=50, strokes=CRASH_ENDING, source="common practice"),
)
