"""Latin: even eighths; bell, bass and piano go by the clave of the track."""

from __future__ import annotations

from fractions import Fraction
from types import MappingProxyType

from shedbook.sound.feels.feel import EVEN_EIGHTHS, Feel, FeelBass, FeelComping, FeelDrums, FeelEnding
from shedbook.sound.feels.patterns import DrumVoice, cells, chords, notes, strokes, two_bars
from shedbook.sound.feels.shared_patterns import (
    BOSSA_COMPING,
    CRASH_ENDING,
    EVEN_FILLS,
    FOOT_CELLS,
    TWO_IN_A_BAR_BASS,
)
from shedbook.sound.tables import drum_keys as keys

_TUMBAO = (notes(5, "3/2:3/2:fifth 3:5/2:ahead"), notes(1, "3/2:1:octave 5/2:1/2:fifth 3:5/2:ahead"))

_BASS = MappingProxyType({
    **TWO_IN_A_BAR_BASS,
    Fraction(4): _TUMBAO,
})  # fmt: skip
"""The tumbao: the "and" of 2, and 4, which belongs to the coming bar and is tied over its first beat."""

_MONTUNO = MappingProxyType({
    Fraction(4): (
        (chords(1, "1/2:1/2:octave 3/2:1/2:inner 5/2:1/2:octave 7/2:1/2:inner^"),),
        (chords(1, "0:1/2:octave 1:1/2:inner 3/2:1/2:octave 5/2:1/2:inner 7/2:1/2:octave^"),),
    ),
})  # fmt: skip
"""The piano's ostinato: off the beat on the side of three strokes, on 1 and 2 and then off the beat on the
side of two. Common practice, from memory."""

_VOICES = (
    DrumVoice(keys.BELL, 68, cells(
        q1_2=(strokes(1, "0"),), q1=(strokes(1, "0"),), q3_2=(strokes(1, "0 1"),),
        q2=(strokes(1, "0 1 3/2@58"),),
        q3=(strokes(1, "0 1 3/2@58 2"),), q4=(strokes(2, "0 1 3/2@58 5/2@58 7/2@58"),
        strokes(2, "0 1 2 5/2@58 7/2@58")),
    ), two_bars=two_bars(q4=("0 1@60 3/2@66 5/2@58 7/2@62", "0 1@66 2@66 5/2@58 7/2@60"))),
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
    DrumVoice(keys.FOOT, 46, FOOT_CELLS, back=True),
    DrumVoice(keys.CONGA_SLAP, 62, cells(
        q1_2=(strokes(1, ""),), q1=(strokes(1, ""),), q3_2=(strokes(1, ""),), q2=(strokes(1, "1"),),
        q3=(strokes(1, "1"),), q4=(strokes(6, "1 2@40"), strokes(1, "1 2@40 5/2@38")),
    )),
    DrumVoice(keys.CONGA_OPEN, 66, cells(
        q1_2=(strokes(1, ""),), q1=(strokes(1, ""),), q3_2=(strokes(1, "1"),), q2=(strokes(1, "3/2"),),
        q3=(strokes(1, "2 5/2"),), q4=(strokes(6, "3 7/2"), strokes(1, "3/2@54 3 7/2")),
    )),
)  # fmt: skip

FEEL = Feel(
    name="latin",
    swing=EVEN_EIGHTHS,
    bass=FeelBass(_BASS, source="common practice of bass teaching"),
    comping=FeelComping(BOSSA_COMPING, held=False, source="common practice, from memory", two_bars=_MONTUNO),
    drums=FeelDrums(_VOICES, fills=EVEN_FILLS, without_brushes=(), source="common practice of jazz drumming"),
    ending=FeelEnding(held_percent=35, strokes=CRASH_ENDING, source="common practice"),
)
