"""Samba: even sixteenths, in two."""

from __future__ import annotations

from fractions import Fraction
from types import MappingProxyType

from shedbook.sound.feels.feel import EVEN_EIGHTHS, Feel, FeelBass, FeelComping, FeelDrums, FeelEnding
from shedbook.sound.feels.patterns import DrumVoice, cells, notes, strokes
from shedbook.sound.feels.shared_patterns import (
    BOSSA_COMPING,
    BRAZILIAN_RIM_CELLS,
    BRAZILIAN_RIM_TWO_BARS,
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
        q4=(strokes(
            1,
            "0@50 1/4@34 1/2@40 3/4@46 1@50 5/4@34 3/2@40 7/4@46 "
            "2@50 9/4@34 5/2@40 11/4@46 3@50 13/4@34 7/2@40 15/4@46",
        ),),
    )),
    DrumVoice(keys.KICK, 50, cells(
        q1_2=(strokes(1, ""),), q1=(strokes(1, "0@40 3/4@36"),), q3_2=(strokes(1, "0"),),
        q2=(strokes(3, "0@40 3/4@34 1@58 7/4@34"), strokes(1, "0@40 1@58 7/4@34"),
            strokes(1, "0@40 3/4@34 1@58")),
        q3=(strokes(1, "0@40 2@54"), strokes(1, "0@40 3/2@34 2@54")),
        q4=(strokes(4, "0@42 3/2@36 2@58 7/2@36"), strokes(2, "0@42 2@58 7/2@36"),
            strokes(1, "0@42 3/2@36 2@58"),
            strokes(1, "2@58 7/2@36")),
    )),
    DrumVoice(keys.RIM, 54, BRAZILIAN_RIM_CELLS, two_bars=BRAZILIAN_RIM_TWO_BARS),
)  # fmt: skip

FEEL = Feel(
    name="samba",
    swing=EVEN_EIGHTHS,
    bass=FeelBass(_BASS, source="common practice of bass teaching"),
    comping=FeelComping(BOSSA_COMPING, held=False, source="common practice of comping"),
    drums=FeelDrums(_VOICES, fills=EVEN_FILLS, without_brushes=(), source="common practice of jazz drumming"),
    ending=FeelEnding(held_percent=35, strokes=CRASH_ENDING, source="common practice"),
)
