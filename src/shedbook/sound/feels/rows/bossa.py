"""Bossa nova: even eighths, root and fifth in the bass."""

from __future__ import annotations

from fractions import Fraction
from types import MappingProxyType

from shedbook.sound.feels.feel import EVEN_EIGHTHS, Feel, FeelBass, FeelComping, FeelDrums, FeelEnding
from shedbook.sound.feels.patterns import DrumVoice, cells, notes, strokes
from shedbook.sound.feels.shared_patterns import (
    BOSSA_COMPING,
    BRAZILIAN_RIM_CELLS,
    BRAZILIAN_RIM_TWO_BARS,
    EVEN_FILLS,
    FOOT_CELLS,
    SOFT_ENDING,
    TWO_IN_A_BAR_BASS,
)
from shedbook.sound.tables import drum_keys as keys

_BASS = MappingProxyType({
    **TWO_IN_A_BAR_BASS,
    Fraction(2): (notes(1, "0:3/2:root 3/2:1/2:fifth"),),
    Fraction(3): (notes(1, "0:3/2:root 3/2:1/2:fifth 2:1:fifth"),),
    Fraction(4): (
        notes(4, "0:3/2:root 3/2:1/2:fifth 2:3/2:fifth 7/2:1/2"),
        notes(2, "0:3/2:root 3/2:1/2:fifth 2:2:fifth"),
        notes(1, "0:2:root 2:3/2:fifth 7/2:1/2"),
    ),
})  # fmt: skip

_VOICES = (
    DrumVoice(keys.CLOSED, 65, cells(
        q1_2=(strokes(1, "0"),), q1=(strokes(1, "0@73 1/2"),), q3_2=(strokes(1, "0@73 1/2 1"),),
        q2=(strokes(1, "0@73 1/2 1@73 3/2"),),
        q3=(strokes(1, "0@73 1/2 1@70 3/2 2@70 5/2"),),
        q4=(strokes(1, "0@73 1/2 1@70 3/2 2@73 5/2 3@70 7/2"),),
    )),
    DrumVoice(keys.KICK, 46, cells(
        q1_2=(strokes(1, ""),), q1=(strokes(1, "0"),), q3_2=(strokes(1, "0"),),
        q2=(strokes(2, "0 3/2@40"), strokes(1, "0")),
        q3=(strokes(2, "0 3/2@38 2"), strokes(1, "0 3/2@38"), strokes(1, "0 2")), q4=(
            strokes(5, "0 3/2@38 2 7/2@38"), strokes(2, "0 2 7/2@38"), strokes(2, "0 3/2@38 2"),
            strokes(1, "0 2"),
        ),
    )),
    DrumVoice(keys.RIM, 61, BRAZILIAN_RIM_CELLS, two_bars=BRAZILIAN_RIM_TWO_BARS),
    DrumVoice(keys.FOOT, 44, FOOT_CELLS, back=True),
)  # fmt: skip

FEEL = Feel(
    name="bossa",
    swing=EVEN_EIGHTHS,
    bass=FeelBass(_BASS, source="common practice of bass teaching"),
    comping=FeelComping(
        BOSSA_COMPING, held=False, source="common practice of comping", instrument="nylon-string guitar"
    ),
    drums=FeelDrums(
        _VOICES,
        fills=EVEN_FILLS,
        without_brushes=(),
        source="common practice of jazz drumming",
        level_db=-7.0,
    ),
    ending=FeelEnding(held_percent=65, strokes=SOFT_ENDING, source="common practice"),
)
