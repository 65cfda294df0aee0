"""The patterns that the players play from, and how a feel's module writes them.

A pattern says for each length of a *cell*, in quarters, the ways in which that much time may be played; one
of them is drawn by its weight. A bar is one cell where its length has a row, else a cell for each group of
its beats (`players.band_chart.cell_lengths`). All places and lengths are quarters from the start of the cell.
"""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from types import MappingProxyType
from typing import NamedTuple

from shedbook.sound.tables import drum_keys as keys

CELL_LENGTHS: tuple[Fraction, ...] = tuple(
    Fraction(text) for text in ("1/4", "1/2", "3/4", "1", "3/2", "2", "3", "4")
)
"""The lengths, in quarters, for which every pattern has ways: they fill every bar of every metre."""


class BassWay(NamedTuple):
    """One way for the bass to play a cell.

    Each note is (place, length, wish). A wish is "" (the costs decide), "root", "fifth", "octave" (the
    ground away from the note before), "again" (the note before once more), "ghost" (once more, short and
    hardly heard), "drop" (short, below) or "ahead": then the note belongs to the chord that stands where
    the cell ends, and rings on into it until the next note.
    """

    weight: int
    notes: tuple[tuple[Fraction, Fraction, str], ...]


class StruckChord(NamedTuple):
    """One chord that is struck; `ahead` says that it takes the chord of the beat after it.

    `shape` is "" for the whole voicing, "octave" for its highest note in octaves, "inner" for the two below
    that.
    """

    at: Fraction
    quarters: Fraction
    ahead: bool
    shape: str = ""


class CompingWay(NamedTuple):
    """One way to comp a cell; a cell without chords leaves room."""

    weight: int
    hits: tuple[StruckChord, ...]


Strokes = tuple[tuple[Fraction, int], ...]
"""The strokes of a drum in a cell: place and velocity, a velocity of 0 standing for the voice's own."""


class DrumWay(NamedTuple):
    """One way for one voice of the drums to play a cell."""

    weight: int
    hits: Strokes


_NONE: Mapping[Fraction, tuple[Strokes, Strokes]] = MappingProxyType({})


class DrumVoice(NamedTuple):
    """One voice of the drums: its General MIDI key, its velocity and its ways to play a cell of each length.

    `free` says that the voice comps, and so plays less behind the line. `back` says that it marks the
    backbeat: in metres in eighths it then plays each group but the first of a pair, at its start. `hand_ms`
    is the least time between two strokes that the hand can play, 0 where it is never short. `two_bars`
    holds patterns of two bars by the length of a bar: where there is one, bars alternate between its
    halves, and `cells` are what varies it, rarely, in the last bar of a passage.
    """

    key: int
    velocity: int
    cells: Mapping[Fraction, tuple[DrumWay, ...]]
    free: bool = False
    two_bars: Mapping[Fraction, tuple[Strokes, Strokes]] = _NONE
    back: bool = False
    hand_ms: int = 0


class FillStroke(NamedTuple):
    """One stroke of a fill, `before` quarters ahead of the bar line."""

    key: int
    before: Fraction
    velocity: int


WeightedFill = tuple[int, tuple[FillStroke, ...]]
"""How likely a fill is, and its strokes."""


def notes(weight: int, text: str) -> BassWay:
    """Read "0:1 1:1:fifth" as notes of the bass at 0 and 1, each a quarter long, the second a fifth."""
    found = []
    for word in text.split():
        at, length, *wish = word.split(":")
        found.append((Fraction(at), Fraction(length), wish[0] if wish else ""))
    return BassWay(weight, tuple(found))


def chords(weight: int, text: str) -> CompingWay:
    """Read "0:1/2 3/2:1^" as a short chord on the beat and a longer one ahead of the next ("^").

    "0:1/2:octave" is struck in octaves, "0:1/2:inner" with the inner voices.
    """
    found = []
    for word in text.split():
        at, length, *shape = word.rstrip("^").split(":")
        found.append(StruckChord(Fraction(at), Fraction(length), word.endswith("^"), *shape))
    return CompingWay(weight, tuple(found))


def strokes(weight: int, text: str) -> DrumWay:
    """Read "0 3/2@71" as a stroke on the beat in the voice's own velocity and one at 3/2 with 71."""
    found = []
    for word in text.split():
        at, _, velocity = word.partition("@")
        found.append((Fraction(at), int(velocity or 0)))
    return DrumWay(weight, tuple(found))


def cells(**rows: tuple[DrumWay, ...]) -> Mapping[Fraction, tuple[DrumWay, ...]]:
    """Return a drum's ways by the length of the cell; lengths are named q1_2 (a half), q1, q3_2, q4.

    A group of one or of three sixteenths, which only metres over 16 have, is begun as an eighth is.
    """
    found = {Fraction(name[1:].replace("_", "/")): ways for name, ways in rows.items()}
    begun = _begun(found.get(Fraction(1, 2), ()))
    return MappingProxyType({Fraction(1, 4): begun, Fraction(3, 4): begun, **found})


def _begun(ways: tuple[DrumWay, ...]) -> tuple[DrumWay, ...]:
    """Return ways with the strokes on their first beat only."""
    return tuple(DrumWay(way.weight, tuple(hit for hit in way.hits if hit[0] == 0)) for way in ways)


def two_bars(**rows: tuple[str, str]) -> Mapping[Fraction, tuple[Strokes, Strokes]]:
    """Return patterns of two bars by the length of a bar, named as in `cells`."""
    return MappingProxyType({
        Fraction(name[1:].replace("_", "/")): (strokes(1, one).hits, strokes(1, two).hits)
        for name, (one, two) in rows.items()
    })  # fmt: skip


_FILL_DRUMS = MappingProxyType({
    "s": keys.SNARE, "h": keys.HIGH_TOM, "m": keys.MID_TOM, "l": keys.LOW_TOM, "k": keys.KICK, "r": keys.RIM,
})  # fmt: skip


def fill(weight: int, text: str) -> WeightedFill:
    """Read "s:1:52 s:1/2:60" as two strokes on the snare, 1 and 1/2 quarters before the bar line.

    The last number is the velocity. The drums are s (snare), h, m, l (high, middle, low tom), k (kick) and
    r (rim).
    """
    found = []
    for word in text.split():
        name, before, velocity = word.split(":")
        found.append(FillStroke(_FILL_DRUMS[name], Fraction(before), int(velocity)))
    return weight, tuple(found)
