"""Funk: even sixteenths, the snare on 2 and 4, an electric bass that leaves holes."""

from __future__ import annotations

from fractions import Fraction
from types import MappingProxyType

from shedbook.sound.feels.feel import EVEN_EIGHTHS, Feel, FeelBass, FeelComping, FeelDrums, FeelEnding
from shedbook.sound.feels.patterns import DrumVoice, cells, chords, notes, strokes
from shedbook.sound.feels.shared_patterns import CRASH_ENDING, EVEN_FILLS, SWING_COMPING, TWO_IN_A_BAR_BASS
from shedbook.sound.tables import drum_keys as keys

_BASS = MappingProxyType({
    **TWO_IN_A_BAR_BASS,
    Fraction(2): (notes(1, "0:3/4:root 3/4:1/4:ghost 3/2:1/2"),),
    Fraction(4): (
        notes(3, "0:3/4:root 3/4:1/4:ghost 3/2:1/4 7/4:1/2:octave 5/2:1/2:root 11/4:1/4:ghost 7/2:1/2"),
        notes(2, "0:1/2:root 3/4:1/4:again 1:1/4:ghost 3/2:1/2:fifth 9/4:1/4 5/2:1/2:root 13/4:1/4:ghost "
              "7/2:1/2"),
        notes(2, "0:1/2:root 1/2:1/4:ghost 3/4:3/4:octave 7/4:1/4:ghost 2:1/2:root 11/4:1/4 3:1"),
        notes(1, "0:1:root 5/4:1/4:ghost 3/2:1/2 11/4:1/4:fifth 3:1/2 15/4:1/4"),
    ),
})  # fmt: skip

_COMPING = MappingProxyType({
    **SWING_COMPING,
    Fraction(4): (
        chords(5, "1/2:1/4 7/4:1/2"), chords(6, "0:1/4 3/4:1/4 5/2:1/2"), chords(5, "1:1/4 11/4:1/4 3:1/2"),
        chords(3, "3/2:1/4 7/2:1/2^"), chords(4, "0:1/4 3/4:1/4 9/4:1/4 7/2:1/2^"),
        chords(2, "3/2:1/4"), chords(2, "5/2:1/2"), chords(2, "0:1/4"), chords(2, "7/2:1/2^"), chords(1, ""),
    ),
})  # fmt: skip

_VOICES = (
    DrumVoice(keys.CLOSED, 73, cells(
        q1_2=(strokes(1, "0 1/4@52"),), q1=(strokes(1, "0 1/4@52 1/2@68 3/4@52"),),
        q3_2=(strokes(1, "0 1/2@62 1"),),
        q2=(strokes(1, "0 1/4@46 1/2@62 3/4@46 1 5/4@46 3/2@62 7/4@46"),),
        q3=(strokes(1, "0 1/2@62 1 3/2@62 2 5/2@62"),),
        q4=(
            strokes(4, "0 1/4@46 1/2@62 3/4@46 1 5/4@46 3/2@62 7/4@46 "
                       "2 9/4@46 5/2@62 11/4@46 3 13/4@46 7/2@62 15/4@46"),
            strokes(3, "0 1/4@46 1/2@62 3/4@46 1 5/4@46 3/2@62 7/4@46 2 9/4@46 5/2@62 11/4@46 3 13/4@46"),
        ),
    ), hand_ms=110),
    DrumVoice(keys.OPEN, 62, cells(
        q1_2=(strokes(1, ""),), q1=(strokes(1, ""),), q3_2=(strokes(1, ""),), q2=(strokes(1, ""),),
        q3=(strokes(1, ""),), q4=(strokes(3, "7/2"), strokes(2, ""), strokes(1, "3/2")),
    )),
    DrumVoice(keys.SNARE, 68, cells(
        q1_2=(strokes(1, ""),), q1=(strokes(1, ""),), q3_2=(strokes(1, "1"),), q2=(strokes(1, "1"),),
        q3=(strokes(1, "1"),),
        q4=(strokes(2, "1 3"), strokes(3, "1 7/4@30 3"), strokes(3, "1 7/4@30 9/4@32 3 15/4@30"),
            strokes(1, "3/4@28 1 7/4@32 9/4@30 3")),
    ), back=True),
    DrumVoice(keys.KICK, 70, cells(
        q1_2=(strokes(1, ""),), q1=(strokes(2, "0"), strokes(1, "0 3/4")), q3_2=(strokes(2, "0"),
            strokes(1, "0 1")),
        q2=(strokes(2, "0 3/2"), strokes(1, "0 3/4 3/2")), q3=(strokes(2, "0 5/2"), strokes(1, "0 3/2 5/2")),
        q4=(strokes(2, "0 5/2"), strokes(2, "0 3/4 5/2"), strokes(2, "0 7/4 5/2 7/2"),
        strokes(1, "0 1/4 5/2 11/4")),
    )),
)  # fmt: skip

FEEL = Feel(
    name="funk",
    swing=EVEN_EIGHTHS,
    bass=FeelBass(
        _BASS, source="common practice of bass teaching", instrument="electric bass", groove_percent=75
    ),
    comping=FeelComping(
        _COMPING, held=False, source="common practice of comping", instrument="electric piano"
    ),
    drums=FeelDrums(_VOICES, fills=EVEN_FILLS, without_brushes=(), source="common practice of jazz drumming"),
    ending=FeelEnding(held_percent=20, strokes=CRASH_ENDING, source="common practice"),
)
