"""Samba: in two, the surdo on the second beat; written in 4/4, its sixteenths are eighths."""

from __future__ import annotations

from fractions import Fraction
from types import MappingProxyType

from shedbook.sound.feels.feel import EVEN_EIGHTHS, Feel, FeelBass, FeelComping, FeelDrums, FeelEnding
from shedbook.sound.feels.patterns import DrumVoice, cells, notes, strokes, two_bars
from shedbook.sound.feels.shared_patterns import (
    BOSSA_COMPING,
    BRAZILIAN_RIM_CELLS,
    CRASH_ENDING,
    EVEN_FILLS,
    TWO_IN_A_BAR_BASS,
)
from shedbook.sound.tables import drum_keys as keys

_BASS = MappingProxyType({
    **TWO_IN_A_BAR_BASS,
    Fraction(2): (notes(2, "0:3/4:root 3/4:1/4:root 1:1:fifth"), notes(1, "0:1:root 1:1:fifth")),
    Fraction(4): (
        notes(3, "0:3/2:root 3/2:1/2:fifth 2:3/2:fifth 7/2:1/2"), notes(1, "0:2:root 2:2:fifth"),
    ),
})  # fmt: skip

_VOICES = (
    DrumVoice(keys.SHAKER, 44, cells(
        q1_2=(strokes(1, "0 1/4@34"),), q1=(strokes(1, "0@50 1/4@36 1/2@40 3/4@48"),),
        q3_2=(strokes(1, "0 1/2 1"),),
        q2=(strokes(1, "0@50 1/4@36 1/2@40 3/4@48 1@50 5/4@36 3/2@40 7/4@48"),),
        q3=(strokes(1, "0@50 1/2@40 1@50 3/2@40 2@50 5/2@40"),),
        q4=(strokes(2, "0@52 1/2@34 1@40 3/2@47 2@52 5/2@34 3@40 7/2@47"),
            strokes(1, "0@52 1/2@34 1@44 3/2@40 2@52 5/2@34 3@44 7/2@40")),
    ), hand_ms=100),
    DrumVoice(keys.FLOOR_TOM, 66, cells(
        q1_2=(strokes(1, ""),), q1=(strokes(1, ""),), q3_2=(strokes(1, "1"),), q2=(strokes(1, "1"),),
        q3=(strokes(1, "2"),), q4=(strokes(4, "2"), strokes(1, "2 7/2@44")),
    )),
    DrumVoice(keys.LOW_TOM, 46, cells(
        q1_2=(strokes(1, ""),), q1=(strokes(1, ""),), q3_2=(strokes(1, "0"),), q2=(strokes(1, "0"),),
        q3=(strokes(1, "0"),), q4=(strokes(1, "0"),),
    )),
    DrumVoice(keys.FOOT, 44, cells(
        q1_2=(strokes(1, ""),), q1=(strokes(1, ""),), q3_2=(strokes(1, ""),), q2=(strokes(1, "1/2 3/2"),),
        q3=(strokes(1, "1"),), q4=(strokes(1, "1 3"),),
    ), back=True),
    DrumVoice(keys.KICK, 50, cells(
        q1_2=(strokes(1, ""),), q1=(strokes(1, "0@40 3/4@36"),), q3_2=(strokes(1, "0"),),
        q2=(strokes(3, "0@40 3/4@34 1@58 7/4@34"), strokes(1, "0@40 1@58 7/4@34"),
            strokes(1, "0@40 3/4@34 1@58")),
        q3=(strokes(1, "0@40 2@54"), strokes(1, "0@40 3/2@34 2@54")),
        q4=(strokes(4, "0@42 3/2@36 2@58 7/2@36"), strokes(2, "0@42 2@58 7/2@36"),
            strokes(1, "0@42 3/2@36 2@58"),
            strokes(1, "2@58 7/2@36")),
    )),
    DrumVoice(keys.RIM, 54, BRAZILIAN_RIM_CELLS, two_bars=two_bars(
        q2=("0 1/2 1 5/4 7/4", "1/4 3/4 5/4 3/2"), q3=("0 3/2", "1 5/2"),
        q4=("0 1 2 5/2 7/2", "1/2 3/2 5/2 3"),
    )),
)  # fmt: skip

FEEL = Feel(
    name="samba",
    swing=EVEN_EIGHTHS,
    bass=FeelBass(_BASS, source="common practice of bass teaching"),
    comping=FeelComping(BOSSA_COMPING, held=False, source="common practice of comping"),
    drums=FeelDrums(_VOICES, fills=EVEN_FILLS, without_brushes=(), source="common practice of jazz drumming"),
    ending=FeelEnding(held_percent=35, strokes=CRASH_ENDING, source="common practice"),
)
