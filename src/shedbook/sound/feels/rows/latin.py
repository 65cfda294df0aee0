"""Latin: even eighths over a clave."""

from __future__ import annotations

from fractions import Fraction
from types import MappingProxyType

from shedbook.sound.feels.feel import EVEN_EIGHTHS, Feel, FeelBass, FeelComping, FeelDrums, FeelEnding
from shedbook.sound.feels.patterns import DrumVoice, cells, notes, strokes, two_bars
from shedbook.sound.feels.shared_patterns import (
    BOSSA_COMPING,
    CRASH_ENDING,
    EVEN_FILLS,
    FOOT_CELLS,
    TWO_IN_A_BAR_BASS,
)
from shedbook.sound.tables import drum_keys as keys

_BASS = MappingProxyType({
    **TWO_IN_A_BAR_BASS,
    Fraction(4): (
        notes(3, "0:3/2:root 3/2:3/2:fifth 3:1"), notes(2, "0:3/2:root 3/2:1/2:fifth 2:1:root 3:1:fifth"),
    ),
})  # fmt: skip

_VOICES = (
    DrumVoice(keys.BELL, 68, cells(
        q1_2=(strokes(1, "0"),), q1=(strokes(1, "0"),), q3_2=(strokes(1, "0 1"),),
        q2=(strokes(1, "0 1 3/2@58"),),
        q3=(strokes(1, "0 1 3/2@58 2"),), q4=(strokes(2, "0 1 3/2@58 5/2@58 7/2@58"),
        strokes(2, "0 1/2@58 3/2@58 2 3 7/2@58")),
    )),
    DrumVoice(keys.RIM, 54, cells(
        q1_2=(strokes(1, ""),), q1=(strokes(1, ""),), q3_2=(strokes(1, ""),), q2=(strokes(1, "1"),),
        q3=(strokes(1, "1"),),
        q4=(strokes(1, "0 3/2 7/2"), strokes(1, "1 2 7/2")),
    ), two_bars=two_bars(q4=("0 3/2 3", "1 2"))),
    DrumVoice(keys.KICK, 44, cells(
        q1_2=(strokes(1, ""),), q1=(strokes(2, ""), strokes(1, "1/2")), q3_2=(strokes(2, "0"),
            strokes(1, "0 1")),
        q2=(strokes(2, "3/2"), strokes(1, "1")), q3=(strokes(2, "3/2"), strokes(1, "3/2 2"), strokes(1, "2")),
        q4=(strokes(3, "3/2 3"), strokes(1, "3/2"), strokes(1, "3")),
    )),
    DrumVoice(keys.FOOT, 46, FOOT_CELLS),
)  # fmt: skip

FEEL = Feel(
    name="latin",
    swing=EVEN_EIGHTHS,
    bass=FeelBass(_BASS, source="common practice of bass teaching"),
    comping=FeelComping(BOSSA_COMPING, held=False, source="common practice of comping"),
    drums=FeelDrums(_VOICES, fills=EVEN_FILLS, without_brushes=(), source="common practice of jazz drumming"),
    ending=FeelEnding(held_percent=35, strokes=CRASH_ENDING, source="common practice"),
)
