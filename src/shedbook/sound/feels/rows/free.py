"""Free: no steady beat; long notes and chords, a cymbal now and then."""

from __future__ import annotations

from fractions import Fraction
from types import MappingProxyType

from shedbook.sound.feels.feel import EVEN_EIGHTHS, Feel, FeelBass, FeelComping, FeelDrums, FeelEnding
from shedbook.sound.feels.patterns import DrumVoice, cells, chords, notes, strokes
from shedbook.sound.feels.shared_patterns import SOFT_ENDING, SWING_COMPING, TWO_IN_A_BAR_BASS
from shedbook.sound.tables import drum_keys as keys

_BASS = MappingProxyType({
    **TWO_IN_A_BAR_BASS, Fraction(3): (notes(1, "0:3:root"),), Fraction(4): (notes(1, "0:4:root"),),
})  # fmt: skip

_COMPING = MappingProxyType({
    **SWING_COMPING, Fraction(2): (chords(1, "0:2"),), Fraction(3): (chords(1, "0:3"),),
    Fraction(4): (chords(1, "0:4"),),
})  # fmt: skip

_VOICES = (
    DrumVoice(keys.RIDE, 40, cells(
        q1_2=(strokes(1, ""),), q1=(strokes(1, ""),), q3_2=(strokes(1, "0"),), q2=(strokes(1, "0"),),
        q3=(strokes(1, "0"),),
        q4=(strokes(2, "0"), strokes(1, "0 5/2@32")),
    )),
)  # fmt: skip

FEEL = Feel(
    name="free",
    swing=EVEN_EIGHTHS,
    bass=FeelBass(_BASS, source="common practice of bass teaching"),
    comping=FeelComping(_COMPING, held=True, source="common practice of comping"),
    drums=FeelDrums(
        _VOICES, fills=(), without_brushes=(), source="common practice of jazz drumming", level_db=-11.0
    ),
    ending=FeelEnding(held_percent=100, strokes=SOFT_ENDING, source="common practice"),
)
