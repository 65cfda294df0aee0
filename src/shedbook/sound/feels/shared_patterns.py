"""Patterns that more than one feel plays; what only one feel plays stands in that feel's own module.

Source of all patterns: common practice of bass, piano and drum teaching; the weights are our own.
"""

from __future__ import annotations

from fractions import Fraction
from types import MappingProxyType

from shedbook.sound.feels.patterns import (
    DrumVoice,
    cells,
    chords,
    fill,
    notes,
    strokes,
    two_bars,
)
from shedbook.sound.tables import drum_keys as keys

WALKING_BASS = MappingProxyType({
    Fraction(1, 4): (notes(1, "0:1/4"),),
    Fraction(3, 4): (notes(1, "0:3/4"),),
    Fraction(1, 2): (notes(1, "0:1/2"),),
    Fraction(1): (notes(1, "0:1"),),
    Fraction(3, 2): (notes(3, "0:3/2"), notes(1, "0:1 1:1/2")),
    Fraction(2): (notes(1, "0:1 1:1"),),
    Fraction(3): (notes(8, "0:1 1:1 2:1"), notes(1, "0:1 1:1/2 3/2:1/2:ghost 2:1")),
    Fraction(4): (
        notes(20, "0:1 1:1 2:1 3:1"),
        notes(2, "0:1 1:1/2 3/2:1/2:ghost 2:1 3:1"), notes(2, "0:1 1:1 2:1 3:1/2 7/2:1/2:ghost"),
        notes(1, "0:1/2 1/2:1/2:ghost 1:1 2:1 3:1"), notes(2, "0:1 1:1:again 2:1 3:1"),
        notes(2, "0:1 1:1 2:1 3:1:again"), notes(1, "0:1 1:1:again 2:1:octave 3:1"),
        notes(1, "0:1 1:1 2:1 3:1/3 10/3:1/3:drop 11/3:1/3:drop"),
    ),
})  # fmt: skip
"""A note on every quarter; now and then a dead note skips ahead of the beat, a note is struck twice, or a
drop of triplets falls to the open strings."""

FAST_WALKING_BASS = MappingProxyType({
    **WALKING_BASS,
    Fraction(3): (notes(1, "0:1 1:1 2:1"),),
    Fraction(4): (
        notes(16, "0:1 1:1 2:1 3:1"), notes(3, "0:1 1:1:again 2:1 3:1:again"),
        notes(2, "0:1 1:1 2:1 3:1:again"),
        notes(1, "0:2 2:1 3:1"),
    ),
})  # fmt: skip
"""Quarters and nothing between them, with more notes struck twice: what a hand keeps up."""

TWO_IN_A_BAR_BASS = MappingProxyType({
    Fraction(1, 4): (notes(1, "0:1/4"),),
    Fraction(3, 4): (notes(1, "0:3/4"),),
    Fraction(1, 2): (notes(1, "0:1/2"),),
    Fraction(1): (notes(1, "0:1"),),
    Fraction(3, 2): (notes(1, "0:3/2"),),
    Fraction(2): (notes(1, "0:2"),),
    Fraction(3): (notes(3, "0:3"), notes(1, "0:2 2:1")),
    Fraction(4): (
        notes(6, "0:2 2:2"), notes(3, "0:2 2:1 3:1"), notes(2, "0:3/2 3/2:1/2:again 2:2"),
        notes(2, "0:2 2:3/2 7/2:1/2"), notes(1, "0:3"),
    ),
})  # fmt: skip
"""A note on every half, now and then with one that leads on."""

PEDAL_BASS = MappingProxyType({
    **TWO_IN_A_BAR_BASS,
    Fraction(3): (notes(2, "0:3/2:root 3/2:3/2:again"), notes(1, "0:2:root 2:1:again")),
    Fraction(4): (
        notes(3, "0:3/2:root 3/2:5/2:again"), notes(2, "0:3/2:root 3/2:3/2:again 3:1:again"),
        notes(1, "0:1:root 1:1:again 2:1:again 3:1:again"),
    ),
})  # fmt: skip
"""The root again and again under a chord that stays, in a rhythm of its own."""

SWING_COMPING = MappingProxyType({
    Fraction(1, 4): (chords(1, ""),),
    Fraction(3, 4): (chords(1, ""),),
    Fraction(1, 2): (chords(1, ""),),
    Fraction(1): (chords(3, ""), chords(2, "0:1/2"), chords(1, "1/2:1/2^")),
    Fraction(3, 2): (chords(3, "0:1"), chords(2, "1:1/2"), chords(2, "")),
    Fraction(2): (chords(4, "0:1/2 3/2:1/2^"), chords(3, "1/2:1"), chords(2, "0:3/2"), chords(2, "1:1/2"),
    chords(2, "")),
    Fraction(3): (
        chords(4, "0:1/2 3/2:1"), chords(3, "3/2:1"), chords(2, "1:1/2 2:1/2"), chords(2, "0:2"),
        chords(2, "1/2:1 5/2:1/2^"), chords(1, "1:1 5/2:1/2^"), chords(2, ""),
    ),
    Fraction(4): (
        chords(6, "0:1/2 3/2:2"), chords(4, "1/2:1/2 2:1"), chords(5, "3/2:1/2 7/2:1/2^"),
        chords(3, "0:3/2 7/2:1/2^"),
        chords(4, "3/2:3/2"), chords(3, "1:1/2 5/2:1"), chords(2, "0:1 2:1/2"),
        chords(2, "1/2:1/2 3/2:1 7/2:1/2^"),
        chords(2, "1/2:1 2:1/2 5/2:1"), chords(2, "0:3"), chords(3, "5/2:1"), chords(2, "1:1/2 3:1/2"),
        chords(3, "7/2:1/2^"), chords(1, ""),
    ),
})  # fmt: skip
"""Short chords round the beat."""

FAST_SWING_COMPING = MappingProxyType({
    **SWING_COMPING,
    Fraction(4): (
        chords(5, "0:1/2"), chords(4, "3/2:1/2"), chords(4, "7/2:1/2^"), chords(3, "1/2:5/2"),
        chords(3, "3/2:2"),
        chords(3, "0:1/2 3/2:1/2"), chords(2, "5/2:1"), chords(2, "1:1/2 7/2:1/2^"),
    ),
})  # fmt: skip
"""When it is fast: one short chord a bar, or one that is held."""

BOSSA_COMPING = MappingProxyType({
    **SWING_COMPING,
    Fraction(2): (chords(3, "0:1/2 3/2:1/2^"), chords(2, "1/2:1/2 1:1"), chords(2, "0:1"),
        chords(2, "3/2:1/2^"),
    chords(1, "")),
    Fraction(3): (chords(4, "0:1/2 3/2:1/2 2:1"), chords(2, "1/2:1 2:1/2"), chords(2, "0:3/2"),
    chords(2, "3/2:1"), chords(1, "")),
    Fraction(4): (
        chords(6, "0:1/2 1:1/2 5/2:1/2 7/2:1/2^"), chords(6, "0:1/2 3/2:1/2 3:1/2"),
        chords(4, "1/2:1/2 2:1/2 3:1/2"), chords(4, "0:1 3/2:1 7/2:1/2^"),
        chords(3, "1:1/2 5/2:1"), chords(3, "0:1 5/2:1"), chords(3, "3/2:1/2 3:1/2"),
        chords(2, "0:1 7/2:1/2^"),
        chords(2, "0:3/2"), chords(2, "3/2:3/2"), chords(2, "5/2:1"), chords(2, "7/2:1/2^"), chords(1, ""),
    ),
})  # fmt: skip
"""Even chords over two bars' worth of clave."""

FOOT_CELLS = cells(
    q1_2=(strokes(1, ""),), q1=(strokes(1, ""),), q3_2=(strokes(1, "1"),), q2=(strokes(1, "1"),),
    q3=(strokes(1, "1"),),
    q4=(strokes(1, "1 3"),),
)  # fmt: skip
"""The hi-hat by foot on 2 and 4. In metres in eighths a voice of the backbeat does not read its cells."""

FEATHER_CELLS = cells(
    q1_2=(strokes(1, ""),), q1=(strokes(1, "0"),), q3_2=(strokes(1, "0"),), q2=(strokes(1, "0 1"),),
    q3=(strokes(1, "0@34"), strokes(1, "0@34 2")), q4=(strokes(1, "0 1 2 3"),),
)  # fmt: skip
"""The bass drum, hardly heard, on every quarter."""

BOMBS = DrumVoice(keys.KICK, 48, cells(
    q1_2=(strokes(1, ""),), q1=(strokes(5, ""), strokes(1, "1/2")), q3_2=(strokes(4, ""), strokes(1, "1")),
    q2=(strokes(6, ""), strokes(1, "3/2")),
    q3=(strokes(5, ""), strokes(1, "5/2")), q4=(strokes(6, ""), strokes(1, "7/2"), strokes(1, "5/2"),
        strokes(1, "3/2")),
), free=True)  # fmt: skip
"""The bass drum's accents, free of the beat."""

_RIDE = DrumVoice(keys.RIDE, 82, cells(
    q1_2=(strokes(1, "0"),),
    q1=(strokes(1, "0"),),
    q3_2=(strokes(2, "0 1@66"), strokes(1, "0 1/2@64 1@68")),
    q2=(strokes(7, "0@75 1@89 3/2@71"), strokes(2, "0@78 1@87"), strokes(1, "0@78 1/2@66 1@87")),
    q3=(strokes(6, "0@82 1@84 3/2@68 2@82"), strokes(2, "0@82 1@82 2@84 5/2@68"),
        strokes(1, "0@82 1@82 2@84")),
    q4=(
        strokes(8, "0@75 1@89 3/2@71 2@75 3@89 7/2@71"), strokes(3, "0@75 1@89 3/2@71 2@75 3@89"),
        strokes(2, "0@75 1@89 2@75 3@89 7/2@71"), strokes(2, "0@75 1@89 3/2@71 2@75 5/2@66 3@89 7/2@71"),
        strokes(1, "0@75 1/2@66 1@89 3/2@71 2@75 3@89 7/2@71"), strokes(1, "0@78 1@87 2@78 3@87"),
    ),
))  # fmt: skip

_ACCENTS = DrumVoice(keys.SNARE, 42, cells(
    q1_2=(strokes(1, ""),),
    q1=(strokes(4, ""), strokes(1, "1/2")),
    q3_2=(strokes(3, ""), strokes(1, "1")),
    q2=(strokes(4, ""), strokes(2, "3/2"), strokes(1, "1/2"), strokes(1, "1")),
    q3=(strokes(4, ""), strokes(2, "3/2"), strokes(2, "5/2"), strokes(1, "1/2 2")),
    q4=(
        strokes(5, ""), strokes(3, "7/2@50"), strokes(3, "3/2@46"), strokes(2, "3/2 7/2"), strokes(2, "5/2"),
        strokes(1, "3/2@40 3@46"), strokes(1, "1/2 5/2@48"), strokes(1, "1@36 3/2@48"),
        strokes(1, "4/3@34 5/3@36 7/2@50"),
    ),
), free=True)  # fmt: skip

SWING_VOICES = (
    _RIDE,
    DrumVoice(keys.FOOT, 66, FOOT_CELLS, back=True),
    DrumVoice(keys.KICK, 28, FEATHER_CELLS),
    _ACCENTS,
    BOMBS,
)
"""Ride, foot, bass drum and what comps."""

FAST_SWING_VOICES = (
    DrumVoice(keys.RIDE, 80, MappingProxyType({
        **_RIDE.cells,
        Fraction(4): (
            strokes(6, "0@74 1@86 2@74 3@86"), strokes(3, "0@74 1@86 2@74 3@86 7/2@64"),
            strokes(3, "0@74 1@86 3/2@64 2@74 3@86"), strokes(1, "0@74 1@86 3/2@64 2@74 3@86 7/2@64"),
        ),
    }), hand_ms=100),
    DrumVoice(keys.FOOT, 62, FOOT_CELLS, back=True),
    _ACCENTS._replace(velocity=46, cells=MappingProxyType({
        **_ACCENTS.cells,
        Fraction(4): (strokes(12, ""), strokes(2, "7/2@50"), strokes(2, "3/2@46"), strokes(1, "5/2")),
    })),
    BOMBS._replace(cells=MappingProxyType({
        **BOMBS.cells, Fraction(4): (strokes(10, ""), strokes(1, "7/2"), strokes(1, "3/2")),
    })),
)  # fmt: skip
"""When it is fast: a ride of quarters with few skipped notes, no feathered bass drum, few accents."""

BRAZILIAN_RIM_CELLS = cells(
    q1_2=(strokes(1, ""),), q1=(strokes(2, ""), strokes(1, "0")), q3_2=(strokes(1, "0"), strokes(1, "1")),
    q2=(strokes(1, "0 3/2"), strokes(1, "1"), strokes(1, "1/2")), q3=(strokes(1, "0 3/2"),
        strokes(1, "1 5/2")),
    q4=(strokes(2, "0 3/2 7/2"), strokes(1, "1/2 2 7/2"), strokes(1, "1 5/2 7/2")),
)  # fmt: skip

BRAZILIAN_RIM_TWO_BARS = two_bars(q2=("0 3/2", "1"), q3=("0 3/2", "1 5/2"), q4=("0 3/2 3", "1 5/2"))
"""The rim of the snare in bossa and samba: the cells, and the two bars that alternate."""

SWUNG_FILLS = (
    fill(3, "s:1:52 s:1/2:60"),
    fill(3, "s:2:46 s:3/2:50 s:1:54 h:1/2:58"),
    fill(3, "s:4/3:48 s:1:54 s:2/3:50 l:1/3:58"),
    fill(2, "h:1:54 m:2/3:54 l:1/3:58"),
    fill(2, "s:3/2:52 k:1:54 s:1/2:60"),
    fill(2, "s:2:50 h:4/3:52 m:1:54 l:1/2:58"),
    fill(2, "s:1:44 s:2/3:50 s:1/3:58"),
    fill(1, "k:3/2:52 s:1:56 s:1/2:46 k:1/4:50"),
)  # fmt: skip
"""Small fills of two beats at most, for feels that swing."""

EVEN_FILLS = (
    fill(2, "r:1:48 r:1/2:52"),
    fill(2, "r:3/2:46 r:1:50 r:1/2:54"),
    fill(1, "s:1:36 s:1/2:42"),
    fill(1, "s:2:34 s:3/2:36 s:1:38 s:1/2:44"),
    fill(1, "r:2:48 r:5/4:44 r:1/2:52"),
)  # fmt: skip
"""Small fills in even eighths."""

CRASH_ENDING = ((keys.CRASH, 74), (keys.KICK, 64))
SOFT_ENDING = ((keys.RIDE, 48), (keys.KICK, 40))
"""The drums' strokes on the last chord of a track: key and velocity."""
