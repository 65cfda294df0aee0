"""Ballad: slow and soft, triplet eighths, brushes on the snare, two notes of the bass in a bar."""

from __future__ import annotations

from fractions import Fraction
from types import MappingProxyType

from shedbook.sound.feels.feel import Feel, FeelBass, FeelComping, FeelDrums, FeelEnding, FeelSwing
from shedbook.sound.feels.patterns import DrumVoice, cells, chords, strokes
from shedbook.sound.feels.shared_patterns import (
    EVEN_FILLS,
    FOOT_CELLS,
    SOFT_ENDING,
    SWING_COMPING,
    TWO_IN_A_BAR_BASS,
)
from shedbook.sound.tables import drum_keys as keys

_COMPING = MappingProxyType({
    **SWING_COMPING,
    Fraction(2): (chords(4, "0:2"), chords(2, "1/2:3/2"), chords(2, "0:1 1:1"), chords(1, "")),
    Fraction(3): (chords(4, "0:3"), chords(2, "1:2"), chords(3, "0:2 2:1"), chords(2, "0:1 1:2"),
        chords(1, "")),
    Fraction(4): (
        chords(5, "0:4"), chords(4, "0:2 2:2"), chords(3, "1/2:7/2"), chords(2, "0:5/2 7/2:1/2^"),
        chords(2, "1:3"),
        chords(2, "0:3/2 3/2:5/2"), chords(3, "0:2 2:3/2 7/2:1/2^"), chords(3, "0:3/2 3/2:3/2 3:1"),
        chords(2, "0:1 1:2 3:1"),
    ),
})  # fmt: skip

_VOICES = (
    DrumVoice(keys.SWIRL, 85, cells(
        q1_2=(strokes(1, ""),), q1=(strokes(1, "0"),), q3_2=(strokes(1, "0"),), q2=(strokes(1, "0"),),
        q3=(strokes(1, "0"),),
        q4=(strokes(1, "0 2"),),
    )),
    DrumVoice(keys.TAP, 68, cells(
        q1_2=(strokes(1, ""),), q1=(strokes(1, ""),), q3_2=(strokes(1, "1"),),
        q2=(strokes(3, "1"), strokes(1, "1 3/2@51")),
        q3=(strokes(2, "1"), strokes(1, "1 2@51")),
        q4=(strokes(4, "1 3"), strokes(2, "1 3 7/2@48"), strokes(2, "1 3/2@48 3")),
    ), back=True),
    DrumVoice(keys.FOOT, 48, FOOT_CELLS, back=True),
    DrumVoice(keys.KICK, 28, cells(
        q1_2=(strokes(1, ""),), q1=(strokes(3, ""), strokes(1, "0")), q3_2=(strokes(2, "0"),
            strokes(1, "0 1")),
        q2=(strokes(2, "0"), strokes(1, "0 1"), strokes(1, "")), q3=(strokes(2, "0"), strokes(1, "0 2")),
        q4=(strokes(2, "0"), strokes(1, "0 2")),
    )),
)  # fmt: skip

_SOFT_STICKS = (
    DrumVoice(keys.RIDE, 56, cells(
        q1_2=(strokes(1, "0"),), q1=(strokes(1, "0"),), q3_2=(strokes(1, "0 1@48"),),
        q2=(strokes(1, "0 1"), strokes(1, "0 1 3/2@45")),
        q3=(strokes(1, "0 1 2"),), q4=(strokes(2, "0 1 2 3"), strokes(1, "0 1 2 3 7/2@45")),
    )),
    *_VOICES[2:],
)  # fmt: skip

FEEL = Feel(
    name="ballad",
    swing=FeelSwing(ratio=Fraction(2), lag=Fraction(1, 2), source="common practice: triplet eighths"),
    bass=FeelBass(TWO_IN_A_BAR_BASS, source="common practice of bass teaching"),
    comping=FeelComping(_COMPING, held=True, source="common practice of comping"),
    drums=FeelDrums(
        _VOICES,
        fills=EVEN_FILLS,
        without_brushes=_SOFT_STICKS,
        source="common practice of jazz drumming",
        level_db=-8.5,
    ),
    ending=FeelEnding(held_percent=85, strokes=SOFT_ENDING, source="common practice"),
)
