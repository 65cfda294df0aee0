"""Straight: even eighths."""

from __future__ import annotations

from fractions import Fraction
from types import MappingProxyType

from shedbook.sound.feels.feel import EVEN_EIGHTHS, Feel, FeelBass, FeelComping, FeelDrums, FeelEnding
from shedbook.sound.feels.patterns import DrumVoice, cells, chords, notes, strokes
from shedbook.sound.feels.shared_patterns import (
    EVEN_FILLS,
    FOOT_CELLS,
    SOFT_ENDING,
    SWING_COMPING,
    TWO_IN_A_BAR_BASS,
)
from shedbook.sound.tables import drum_keys as keys

_BASS = MappingProxyType({
    **TWO_IN_A_BAR_BASS,
    Fraction(2): (notes(1, "0:3/2:root 3/2:1/2"),),
    Fraction(4): (
        notes(4, "0:3/2:root 3/2:1/2 2:2"), notes(2, "0:2:root 2:1 3:1"),
        notes(2, "0:3/2:root 3/2:5/2:fifth"), notes(1, "0:3/2:root 3/2:1/2:again 2:3/2 7/2:1/2"),
    ),
})  # fmt: skip

_COMPING = MappingProxyType({
    **SWING_COMPING,
    Fraction(2): (chords(4, "0:3/2"), chords(2, "1/2:3/2"), chords(2, "0:1 1:1"), chords(1, "")),
    Fraction(3): (chords(3, "0:5/2"), chords(3, "0:3/2 3/2:3/2"), chords(2, "0:1 1:3/2"), chords(1, "")),
    Fraction(4): (
        chords(4, "0:3/2 3/2:5/2"), chords(4, "0:7/2"), chords(3, "0:3/2 7/2:1/2^"),
        chords(3, "1/2:1 3/2:5/2"),
        chords(2, "1:1/2 5/2:3/2"), chords(2, "3/2:2"),
        chords(4, "0:3/2 3/2:3/2 3:1"), chords(4, "0:3/2 3/2:2 7/2:1/2^"), chords(2, "0:1 1:3/2 5/2:3/2"),
    ),
})  # fmt: skip

_VOICES = (
    DrumVoice(keys.RIDE, 68, cells(
        q1_2=(strokes(1, "0"),), q1=(strokes(1, "0 1/2@57"),), q3_2=(strokes(1, "0 1/2@57 1@62"),),
        q2=(strokes(3, "0@73 1/2@55 1@71 3/2@59"), strokes(1, "0@73 1@71 3/2@59")),
        q3=(strokes(3, "0 1/2@55 1 3/2@57 2 5/2@57"), strokes(1, "0 1 3/2@57 2")),
        q4=(
            strokes(4, "0@73 1/2@55 1@68 3/2@59 2@73 5/2@55 3@68 7/2@59"),
            strokes(2, "0@73 1@68 3/2@62 2@71 3@68 7/2@62"),
            strokes(2, "0@73 1/2@55 3/2@64 2@71 5/2@57 7/2@64"),
        ),
    )),
    DrumVoice(keys.FOOT, 52, FOOT_CELLS, back=True),
    DrumVoice(keys.KICK, 50, cells(
        q1_2=(strokes(1, ""),), q1=(strokes(2, "0"), strokes(1, "")), q3_2=(strokes(2, "0"),
            strokes(1, "0 1@42")),
        q2=(strokes(2, "0"), strokes(1, "0 3/2")),
        q3=(strokes(1, "0"), strokes(1, "0 3/2")), q4=(strokes(3, "0 3/2@42"), strokes(2, "0 5/2@44"),
        strokes(1, "0 3/2@42 7/2@44")),
    )),
    DrumVoice(keys.RIM, 50, cells(
        q1_2=(strokes(1, ""),), q1=(strokes(1, ""),), q3_2=(strokes(1, "1"),), q2=(strokes(1, "1"),
            strokes(1, "")),
        q3=(strokes(1, "2"),),
        q4=(strokes(3, "3"), strokes(2, "1 3"), strokes(1, "3/2 3")),
    ), back=True),
)  # fmt: skip

FEEL = Feel(
    name="straight",
    swing=EVEN_EIGHTHS,
    bass=FeelBass(_BASS, source="common practice of bass teaching"),
    comping=FeelComping(_COMPING, held=True, source="common practice of comping"),
    drums=FeelDrums(_VOICES, fills=EVEN_FILLS, without_brushes=(), source="common practice of jazz drumming"),
    ending=FeelEnding(held_percent=65, strokes=SOFT_ENDING, source="common practice"),
)
