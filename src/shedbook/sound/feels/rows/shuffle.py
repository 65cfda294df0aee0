"""Shuffle: triplet eighths, every beat marked."""

from __future__ import annotations

from fractions import Fraction

from shedbook.sound.feels.feel import Feel, FeelBass, FeelComping, FeelDrums, FeelEnding, FeelSwing
from shedbook.sound.feels.patterns import DrumVoice, cells, strokes
from shedbook.sound.feels.shared_patterns import (
    BOMBS,
    CRASH_ENDING,
    FEATHER_CELLS,
    FOOT_CELLS,
    SWING_COMPING,
    SWUNG_FILLS,
    WALKING_BASS,
)
from shedbook.sound.tables import drum_keys as keys

_VOICES = (
    DrumVoice(keys.RIDE, 75, cells(
        q1_2=(strokes(1, "0"),), q1=(strokes(1, "0 1/2@59"),), q3_2=(strokes(1, "0 1/2@59 1"),),
        q2=(strokes(1, "0 1/2@59 1@79 3/2@59"),),
        q3=(strokes(1, "0 1/2@59 1@77 3/2@59 2 5/2@59"),),
        q4=(strokes(1, "0 1/2@59 1@81 3/2@59 2 5/2@59 3@81 7/2@59"),),
    )),
    DrumVoice(keys.SNARE, 60, cells(
        q1_2=(strokes(1, ""),), q1=(strokes(1, ""),), q3_2=(strokes(1, "1"),), q2=(strokes(1, "1"),),
        q3=(strokes(1, "1"),),
        q4=(strokes(3, "1 3"), strokes(1, "1 3 7/2@36")),
    ), back=True),
    DrumVoice(keys.FOOT, 58, FOOT_CELLS, back=True),
    DrumVoice(keys.KICK, 40, FEATHER_CELLS),
    BOMBS,
)  # fmt: skip

FEEL = Feel(
    name="shuffle",
    swing=FeelSwing(ratio=Fraction(2), lag=Fraction(1, 3), source="common practice: triplet eighths"),
    bass=FeelBass(WALKING_BASS, source="common practice of bass teaching", pedal_percent=20),
    comping=FeelComping(SWING_COMPING, held=False, source="common practice of comping"),
    drums=FeelDrums(
        _VOICES, fills=SWUNG_FILLS, without_brushes=(), source="common practice of jazz drumming"
    ),
    ending=FeelEnding(held_percent=35, strokes=CRASH_ENDING, source="common practice"),
)
