"""What the drums play: patterns a feel, comping accents, fills, the count-in.

Row format: feel, then voices, each a General MIDI key, a velocity, and cells by their length in quarters;
a cell is (weight, offsets). Offsets may carry a velocity of their own after "@". Fills are (weight, hits)
over the last beats of a bar, a hit being key:offset:velocity, the offset counted back from the bar line.
Sources: keys, General MIDI 1 Percussion Key Map (MMA RP-003), and for the brushes drum set 40 of GM2 (from
memory: 38 tap, 39 slap, 40 swirl); patterns, common practice of jazz drumming.
"""

from __future__ import annotations

from fractions import Fraction
from types import MappingProxyType
from typing import NamedTuple

KICK, RIM, SNARE, TAP, SLAP, SWIRL = 36, 37, 38, 38, 39, 40
CLOSED, FOOT, OPEN, RIDE, BELL, CRASH = 42, 44, 46, 51, 53, 49
HIGH_TOM, MID_TOM, LOW_TOM = 48, 47, 43
SHAKER = 70

STANDARD_KIT, BRUSH_KIT = 0, 40
"""Programs of channel 10, counted from 0."""


class Cell(NamedTuple):
    """One pattern of one voice: (offset, velocity), a velocity of 0 standing for the voice's own."""

    weight: int
    hits: tuple[tuple[Fraction, int], ...]


Hits = tuple[tuple[Fraction, int], ...]
"""(offset, velocity) of each stroke of a cell."""

_NO_PAIRS: MappingProxyType[Fraction, tuple[Hits, Hits]] = MappingProxyType({})


class Voice(NamedTuple):
    """One voice: key, velocity, cells by length; `free` says that it comps and thins behind the line.

    `pairs` are patterns of two bars by the length of a bar: where there is one, bars alternate between its
    halves, and the cells are what varies it, rarely, in the last bar of a passage.
    """

    key: int
    velocity: int
    cells: MappingProxyType[Fraction, tuple[Cell, ...]]
    free: bool = False
    pairs: MappingProxyType[Fraction, tuple[Hits, Hits]] = _NO_PAIRS


class FillHit(NamedTuple):
    """One stroke of a fill, `before` quarters ahead of the bar line."""

    key: int
    before: Fraction
    velocity: int


def _cell(weight: int, text: str) -> Cell:
    hits = []
    for word in text.split():
        at, _, velocity = word.partition("@")
        hits.append((Fraction(at), int(velocity or 0)))
    return Cell(weight, tuple(hits))


def _pairs(**rows: tuple[str, str]) -> MappingProxyType[Fraction, tuple[Hits, Hits]]:
    """Name lengths as `_cells` does; a pattern's two bars as text."""
    return MappingProxyType({
        Fraction(name[1:].replace("_", "/")): (_cell(1, one).hits, _cell(1, two).hits)
        for name, (one, two) in rows.items()
    })  # fmt: skip


def _cells(**rows: tuple[Cell, ...]) -> MappingProxyType[Fraction, tuple[Cell, ...]]:
    """Name lengths as q1, q3_2 (three halves), q4."""
    return MappingProxyType({Fraction(name[1:].replace("_", "/")): cells for name, cells in rows.items()})


_RIDE = Voice(RIDE, 82, _cells(
    q1_2=(_cell(1, "0"),),
    q1=(_cell(1, "0"),),
    q3_2=(_cell(2, "0 1@66"), _cell(1, "0 1/2@64 1@68")),
    q2=(_cell(7, "0@75 1@89 3/2@71"), _cell(2, "0@78 1@87"), _cell(1, "0@78 1/2@66 1@87")),
    q3=(_cell(6, "0@82 1@84 3/2@68 2@82"), _cell(2, "0@82 1@82 2@84 5/2@68"), _cell(1, "0@82 1@82 2@84")),
    q4=(
        _cell(8, "0@75 1@89 3/2@71 2@75 3@89 7/2@71"), _cell(3, "0@75 1@89 3/2@71 2@75 3@89"),
        _cell(2, "0@75 1@89 2@75 3@89 7/2@71"), _cell(2, "0@75 1@89 3/2@71 2@75 5/2@66 3@89 7/2@71"),
        _cell(1, "0@75 1/2@66 1@89 3/2@71 2@75 3@89 7/2@71"), _cell(1, "0@78 1@87 2@78 3@87"),
    ),
))  # fmt: skip

_FOOT = Voice(FOOT, 66, _cells(
    q1_2=(_cell(1, ""),), q1=(_cell(1, ""),), q3_2=(_cell(1, "1"),), q2=(_cell(1, "1"),), q3=(_cell(1, "1"),),
    q4=(_cell(1, "1 3"),),
))  # fmt: skip

_FEATHER = Voice(KICK, 28, _cells(
    q1_2=(_cell(1, ""),), q1=(_cell(1, "0"),), q3_2=(_cell(1, "0"),), q2=(_cell(1, "0 1"),),
    q3=(_cell(1, "0@34"), _cell(1, "0@34 2")), q4=(_cell(1, "0 1 2 3"),),
))  # fmt: skip

_ACCENTS = Voice(SNARE, 42, _cells(
    q1_2=(_cell(1, ""),),
    q1=(_cell(4, ""), _cell(1, "1/2")),
    q3_2=(_cell(3, ""), _cell(1, "1")),
    q2=(_cell(4, ""), _cell(2, "3/2"), _cell(1, "1/2"), _cell(1, "1")),
    q3=(_cell(4, ""), _cell(2, "3/2"), _cell(2, "5/2"), _cell(1, "1/2 2")),
    q4=(
        _cell(5, ""), _cell(3, "7/2@50"), _cell(3, "3/2@46"), _cell(2, "3/2 7/2"), _cell(2, "5/2"),
        _cell(1, "3/2@40 3@46"), _cell(1, "1/2 5/2@48"), _cell(1, "1@36 3/2@48"),
        _cell(1, "4/3@34 5/3@36 7/2@50"),
    ),
), free=True)  # fmt: skip

_BOMBS = Voice(KICK, 48, _cells(
    q1_2=(_cell(1, ""),), q1=(_cell(5, ""), _cell(1, "1/2")), q3_2=(_cell(4, ""), _cell(1, "1")),
    q2=(_cell(6, ""), _cell(1, "3/2")),
    q3=(_cell(5, ""), _cell(1, "5/2")), q4=(_cell(6, ""), _cell(1, "7/2"), _cell(1, "5/2"), _cell(1, "3/2")),
), free=True)  # fmt: skip

_BALLAD_VOICES = (
    Voice(SWIRL, 85, _cells(
        q1_2=(_cell(1, ""),), q1=(_cell(1, "0"),), q3_2=(_cell(1, "0"),), q2=(_cell(1, "0"),),
        q3=(_cell(1, "0"),),
        q4=(_cell(1, "0 2"),),
    )),
    Voice(TAP, 68, _cells(
        q1_2=(_cell(1, ""),), q1=(_cell(1, ""),), q3_2=(_cell(1, "1"),),
        q2=(_cell(3, "1"), _cell(1, "1 3/2@51")),
        q3=(_cell(2, "1"), _cell(1, "1 2@51")),
        q4=(_cell(4, "1 3"), _cell(2, "1 3 7/2@48"), _cell(2, "1 3/2@48 3")),
    )),
    Voice(FOOT, 48, _FOOT.cells),
    Voice(KICK, 28, _cells(
        q1_2=(_cell(1, ""),), q1=(_cell(3, ""), _cell(1, "0")), q3_2=(_cell(2, "0"), _cell(1, "0 1")),
        q2=(_cell(2, "0"), _cell(1, "0 1"), _cell(1, "")), q3=(_cell(2, "0"), _cell(1, "0 2")),
        q4=(_cell(2, "0"), _cell(1, "0 2")),
    )),
)  # fmt: skip

_SOFT_STICKS = (
    Voice(RIDE, 56, _cells(
        q1_2=(_cell(1, "0"),), q1=(_cell(1, "0"),), q3_2=(_cell(1, "0 1@48"),),
        q2=(_cell(1, "0 1"), _cell(1, "0 1 3/2@45")),
        q3=(_cell(1, "0 1 2"),), q4=(_cell(2, "0 1 2 3"), _cell(1, "0 1 2 3 7/2@45")),
    )),
    *_BALLAD_VOICES[2:],
)  # fmt: skip

_BOSSA_VOICES = (
    Voice(CLOSED, 65, _cells(
        q1_2=(_cell(1, "0"),), q1=(_cell(1, "0@73 1/2"),), q3_2=(_cell(1, "0@73 1/2 1"),),
        q2=(_cell(1, "0@73 1/2 1@73 3/2"),),
        q3=(_cell(1, "0@73 1/2 1@70 3/2 2@70 5/2"),), q4=(_cell(1, "0@73 1/2 1@70 3/2 2@73 5/2 3@70 7/2"),),
    )),
    Voice(KICK, 46, _cells(
        q1_2=(_cell(1, ""),), q1=(_cell(1, "0"),), q3_2=(_cell(1, "0"),),
        q2=(_cell(2, "0 3/2@40"), _cell(1, "0")),
        q3=(_cell(2, "0 3/2@38 2"), _cell(1, "0 3/2@38"), _cell(1, "0 2")), q4=(
            _cell(5, "0 3/2@38 2 7/2@38"), _cell(2, "0 2 7/2@38"), _cell(2, "0 3/2@38 2"), _cell(1, "0 2"),
        ),
    )),
    Voice(RIM, 61, _cells(
        q1_2=(_cell(1, ""),), q1=(_cell(2, ""), _cell(1, "0")), q3_2=(_cell(1, "0"), _cell(1, "1")),
        q2=(_cell(1, "0 3/2"), _cell(1, "1"), _cell(1, "1/2")), q3=(_cell(1, "0 3/2"), _cell(1, "1 5/2")),
        q4=(_cell(2, "0 3/2 7/2"), _cell(1, "1/2 2 7/2"), _cell(1, "1 5/2 7/2")),
    ), pairs=_pairs(q2=("0 3/2", "1"), q3=("0 3/2", "1 5/2"), q4=("0 3/2 3", "1 5/2"))),
    Voice(FOOT, 44, _FOOT.cells),
)  # fmt: skip

_SAMBA_VOICES = (
    Voice(SHAKER, 44, _cells(
        q1_2=(_cell(1, "0 1/4@34"),), q1=(_cell(1, "0@50 1/4@36 1/2@40 3/4@48"),),
        q3_2=(_cell(1, "0 1/2 1"),), q2=(_cell(1, "0@50 1/4@36 1/2@40 3/4@48 1@50 5/4@36 3/2@40 7/4@48"),),
        q3=(_cell(1, "0@50 1/2@40 1@50 3/2@40 2@50 5/2@40"),),
        q4=(_cell(
            1,
            "0@50 1/4@34 1/2@40 3/4@46 1@50 5/4@34 3/2@40 7/4@46 "
            "2@50 9/4@34 5/2@40 11/4@46 3@50 13/4@34 7/2@40 15/4@46",
        ),),
    )),
    Voice(KICK, 50, _cells(
        q1_2=(_cell(1, ""),), q1=(_cell(1, "0@40 3/4@36"),), q3_2=(_cell(1, "0"),),
        q2=(_cell(3, "0@40 3/4@34 1@58 7/4@34"), _cell(1, "0@40 1@58 7/4@34"), _cell(1, "0@40 3/4@34 1@58")),
        q3=(_cell(1, "0@40 2@54"), _cell(1, "0@40 3/2@34 2@54")),
        q4=(_cell(4, "0@42 3/2@36 2@58 7/2@36"), _cell(2, "0@42 2@58 7/2@36"), _cell(1, "0@42 3/2@36 2@58"),
            _cell(1, "2@58 7/2@36")),
    )),
    Voice(RIM, 54, _BOSSA_VOICES[2].cells, pairs=_BOSSA_VOICES[2].pairs),
)  # fmt: skip

_LATIN_VOICES = (
    Voice(BELL, 68, _cells(
        q1_2=(_cell(1, "0"),), q1=(_cell(1, "0"),), q3_2=(_cell(1, "0 1"),), q2=(_cell(1, "0 1 3/2@58"),),
        q3=(_cell(1, "0 1 3/2@58 2"),), q4=(_cell(2, "0 1 3/2@58 5/2@58 7/2@58"),
        _cell(2, "0 1/2@58 3/2@58 2 3 7/2@58")),
    )),
    Voice(RIM, 54, _cells(
        q1_2=(_cell(1, ""),), q1=(_cell(1, ""),), q3_2=(_cell(1, ""),), q2=(_cell(1, "1"),),
        q3=(_cell(1, "1"),),
        q4=(_cell(1, "0 3/2 7/2"), _cell(1, "1 2 7/2")),
    ), pairs=_pairs(q4=("0 3/2 3", "1 2"))),
    Voice(KICK, 44, _cells(
        q1_2=(_cell(1, ""),), q1=(_cell(2, ""), _cell(1, "1/2")), q3_2=(_cell(2, "0"), _cell(1, "0 1")),
        q2=(_cell(2, "3/2"), _cell(1, "1")), q3=(_cell(2, "3/2"), _cell(1, "3/2 2"), _cell(1, "2")),
        q4=(_cell(3, "3/2 3"), _cell(1, "3/2"), _cell(1, "3")),
    )),
    Voice(FOOT, 46, _FOOT.cells),
)  # fmt: skip

_STRAIGHT_VOICES = (
    Voice(RIDE, 68, _cells(
        q1_2=(_cell(1, "0"),), q1=(_cell(1, "0 1/2@57"),), q3_2=(_cell(1, "0 1/2@57 1@62"),),
        q2=(_cell(3, "0@73 1/2@55 1@71 3/2@59"), _cell(1, "0@73 1@71 3/2@59")),
        q3=(_cell(3, "0 1/2@55 1 3/2@57 2 5/2@57"), _cell(1, "0 1 3/2@57 2")),
        q4=(
            _cell(4, "0@73 1/2@55 1@68 3/2@59 2@73 5/2@55 3@68 7/2@59"),
            _cell(2, "0@73 1@68 3/2@62 2@71 3@68 7/2@62"),
            _cell(2, "0@73 1/2@55 3/2@64 2@71 5/2@57 7/2@64"),
        ),
    )),
    Voice(FOOT, 52, _FOOT.cells),
    Voice(KICK, 50, _cells(
        q1_2=(_cell(1, ""),), q1=(_cell(2, "0"), _cell(1, "")), q3_2=(_cell(2, "0"), _cell(1, "0 1@42")),
        q2=(_cell(2, "0"), _cell(1, "0 3/2")),
        q3=(_cell(1, "0"), _cell(1, "0 3/2")), q4=(_cell(3, "0 3/2@42"), _cell(2, "0 5/2@44"),
        _cell(1, "0 3/2@42 7/2@44")),
    )),
    Voice(RIM, 50, _cells(
        q1_2=(_cell(1, ""),), q1=(_cell(1, ""),), q3_2=(_cell(1, "1"),), q2=(_cell(1, "1"), _cell(1, "")),
        q3=(_cell(1, "2"),),
        q4=(_cell(3, "3"), _cell(2, "1 3"), _cell(1, "3/2 3")),
    )),
)  # fmt: skip

_FUNK_VOICES = (
    Voice(CLOSED, 73, _cells(
        q1_2=(_cell(1, "0 1/4@52"),), q1=(_cell(1, "0 1/4@52 1/2@68 3/4@52"),),
        q3_2=(_cell(1, "0 1/2@62 1"),),
        q2=(_cell(1, "0 1/2@62 1 3/2@62"),), q3=(_cell(1, "0 1/2@62 1 3/2@62 2 5/2@62"),),
        q4=(_cell(1, "0 1/2@62 1 3/2@62 2 5/2@62 3 7/2@62"),),
    )),
    Voice(SNARE, 68, _cells(
        q1_2=(_cell(1, ""),), q1=(_cell(1, ""),), q3_2=(_cell(1, "1"),), q2=(_cell(1, "1"),),
        q3=(_cell(1, "1"),),
        q4=(_cell(3, "1 3"), _cell(2, "1 7/4@32 3"), _cell(1, "1 9/4@32 3 15/4@32")),
    )),
    Voice(KICK, 70, _cells(
        q1_2=(_cell(1, ""),), q1=(_cell(2, "0"), _cell(1, "0 3/4")), q3_2=(_cell(2, "0"), _cell(1, "0 1")),
        q2=(_cell(2, "0 3/2"), _cell(1, "0 3/4 3/2")), q3=(_cell(2, "0 5/2"), _cell(1, "0 3/2 5/2")),
        q4=(_cell(2, "0 5/2"), _cell(2, "0 3/4 5/2"), _cell(1, "0 7/4 5/2 7/2")),
    )),
)  # fmt: skip

_SHUFFLE_VOICES = (
    Voice(RIDE, 75, _cells(
        q1_2=(_cell(1, "0"),), q1=(_cell(1, "0 1/2@59"),), q3_2=(_cell(1, "0 1/2@59 1"),),
        q2=(_cell(1, "0 1/2@59 1@79 3/2@59"),),
        q3=(_cell(1, "0 1/2@59 1@77 3/2@59 2 5/2@59"),),
        q4=(_cell(1, "0 1/2@59 1@81 3/2@59 2 5/2@59 3@81 7/2@59"),),
    )),
    Voice(SNARE, 60, _cells(
        q1_2=(_cell(1, ""),), q1=(_cell(1, ""),), q3_2=(_cell(1, "1"),), q2=(_cell(1, "1"),),
        q3=(_cell(1, "1"),),
        q4=(_cell(3, "1 3"), _cell(1, "1 3 7/2@36")),
    )),
    Voice(FOOT, 58, _FOOT.cells),
    Voice(KICK, 40, _FEATHER.cells),
    _BOMBS,
)  # fmt: skip

_FREE_VOICES = (
    Voice(RIDE, 40, _cells(
        q1_2=(_cell(1, ""),), q1=(_cell(1, ""),), q3_2=(_cell(1, "0"),), q2=(_cell(1, "0"),),
        q3=(_cell(1, "0"),),
        q4=(_cell(2, "0"), _cell(1, "0 5/2@32")),
    )),
)  # fmt: skip

_SWING_VOICES = (_RIDE, _FOOT, _FEATHER, _ACCENTS, _BOMBS)

FEELS = MappingProxyType({
    "swing": _SWING_VOICES, "fast swing": _SWING_VOICES, "waltz": _SWING_VOICES, "shuffle": _SHUFFLE_VOICES,
    "ballad": _BALLAD_VOICES, "bossa": _BOSSA_VOICES, "samba": _SAMBA_VOICES, "latin": _LATIN_VOICES,
    "straight": _STRAIGHT_VOICES, "funk": _FUNK_VOICES, "free": _FREE_VOICES,
})  # fmt: skip
"""Feel to voices; an unknown feel is played as swing."""

WITHOUT_BRUSHES = MappingProxyType({"ballad": _SOFT_STICKS})
"""What is played with soft sticks where the sound font has no brushes."""

WITH_BRUSHES = frozenset(("ballad",))


def _fill(weight: int, text: str) -> tuple[int, tuple[FillHit, ...]]:
    names = {"s": SNARE, "h": HIGH_TOM, "m": MID_TOM, "l": LOW_TOM, "k": KICK, "r": RIM}
    hits = []
    for word in text.split():
        name, before, velocity = word.replace("@", ":").split(":")
        hits.append(FillHit(names[name], Fraction(before), int(velocity)))
    return weight, tuple(hits)


FILLS = (
    _fill(3, "s:1:52 s:1/2:60"),
    _fill(3, "s:2:46 s:3/2:50 s:1:54 h:1/2:58"),
    _fill(3, "s:4/3:48 s:1:54 s:2/3:50 l:1/3:58"),
    _fill(2, "h:1:54 m:2/3:54 l:1/3:58"),
    _fill(2, "s:3/2:52 k:1:54 s:1/2:60"),
    _fill(2, "s:2:50 h:4/3:52 m:1:54 l:1/2:58"),
    _fill(2, "s:1:44 s:2/3:50 s:1/3:58"),
    _fill(1, "k:3/2:52 s:1:56 s:1/2:46 k:1/4:50"),
)  # fmt: skip
"""Small fills of two beats at most, for swing."""

SOFT_FILLS = (
    _fill(2, "r:1:48 r:1/2:52"),
    _fill(2, "r:3/2:46 r:1:50 r:1/2:54"),
    _fill(1, "s:1:36 s:1/2:42"),
    _fill(1, "s:2:34 s:3/2:36 s:1:38 s:1/2:44"),
    _fill(1, "r:2:48 r:5/4:44 r:1/2:52"),
)  # fmt: skip
"""Fills in even eighths, for every other feel."""

SWING_FILLS = frozenset(("swing", "fast swing", "waltz", "shuffle"))

TRIES = 40
"""How often a round is drawn again when it is the one before, or ends as that did."""

FREE_BAR = 12
"""How often of a hundred a two-bar pattern is varied in the last bar of a passage."""

FILL_APART = 4
"""How many bars lie between one fill and the next at least, where the form leaves it open."""

NO_FILLS = frozenset(("free",))

FILL_EVERY = (4, 8)
"""A fill ends each of so many bars of a passage; which of the two is drawn for a track."""

SILENT_IN_FILLS = frozenset((SNARE, RIM, KICK, SWIRL))
"""Voices that give way to the fill."""

COUNT_KEY, COUNT_VELOCITY, COUNT_ACCENT = RIM, 84, 96
CLICK_KEY, CLICK_VELOCITY, CLICK_ACCENT = RIM, 70, 92

ENDING_HITS = ((CRASH, 74), (KICK, 64))
SOFT_ENDING_HITS = ((RIDE, 48), (KICK, 40))
SOFT_ENDINGS = frozenset(("ballad", "bossa", "straight", "free"))

TOUCHES = MappingProxyType({
    "TimGM6mb": MappingProxyType({
        (STANDARD_KIT, RIDE): 135, (STANDARD_KIT, BELL): 135, (STANDARD_KIT, SNARE): 80,
        (STANDARD_KIT, KICK): 76, (STANDARD_KIT, FOOT): 94,
        (BRUSH_KIT, SWIRL): 66, (BRUSH_KIT, TAP): 80, (BRUSH_KIT, FOOT): 66, (BRUSH_KIT, KICK): 90,
    }),
})  # fmt: skip
"""Font to (kit, drum key) to percent of the written velocity; the patterns are written for FluidR3 GM.
Measured with both fonts, each drum by itself against the bass."""
