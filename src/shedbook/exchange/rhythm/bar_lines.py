"""How likely a place of the bar line is under a line whose beats were found, and how likely its tempo.

A chart, where there is one, says how many bars the line should have and which chords sound where. Costs are
tenths of a natural logarithm; they stand in `tables.bar_line_costs`.
"""

from __future__ import annotations

import math
from bisect import bisect_right
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise
from types import MappingProxyType

from shedbook.exchange.rhythm.tables.bar_line_costs import (
    CHORD_NOTES,
    FIRST_BEAT,
    LONG_NOTE,
    RATES,
    SEARCH,
    ChordRow,
)
from shedbook.exchange.rhythm.written_values import place_strength
from shedbook.table_index import Rows
from shedbook.theory.chord import Chord
from shedbook.theory.metre import Metre

_SEARCH = Rows(
    "costs of finding bar lines",
    "src/shedbook/exchange/rhythm/tables/bar_line_costs.py",
    [(row.name, row.cost) for row in SEARCH],
)
_SEARCH.must_be(
    (
        "usual tempo", "tempo octave", "a round more", "a bar too few",
        "bars that fit no round", "begins before the changes",
    ),
    "the search adds them up",
)  # fmt: skip
_FAMILIES: Mapping[str, ChordRow] = MappingProxyType({row.family: row for row in CHORD_NOTES})
_LONG = Fraction(3, 2)
_COMMON = Metre(4, 4)

Places = Sequence[tuple[Fraction, int]]
"""Written notes: where each begins, in beats from the first beat, and its MIDI number."""


@dataclass(frozen=True, slots=True)
class Chart:
    """The changes over which a line goes.

    Attributes:
        bars: how many bars they have.
        starts: where each chord begins, in quarters from the first bar line, in order.
        chords: the chords.
    """

    bars: int
    starts: tuple[Fraction, ...]
    chords: tuple[Chord, ...]


def tempo_cost(tempo_qpm: float) -> float:
    """Return what a tempo costs, in quarters a minute."""
    octaves = math.log2(tempo_qpm / _SEARCH["usual tempo"])
    return _SEARCH["tempo octave"] * octaves * octaves


def nearest_place(beats: float, ratio: float) -> Fraction:
    """Return the written place that is nearest to a time in beats, where eighths swing at a ratio."""
    number, inside = divmod(beats, 1.0)
    away = [
        (abs(inside - (ratio / (ratio + 1) if row.bent else float(row.place))), -row.rate, row.place)
        for row in RATES
    ]
    return int(number) + min((1 - inside, 0.0, Fraction(1)), *away)[2]


def bar_line_cost(
    places: Places, shift: int, metre: Metre, chart: Chart | None, beyond: Fraction = Fraction(0)
) -> tuple[float, bool]:
    """Return what it costs that the first beat is so many beats after a bar line.

    The second answer says whether the changes begin with the bar after that of the first note.

    Args:
        places: the written notes.
        shift: how many beats after a bar line the first beat is.
        metre: the metre.
        chart: the changes, which begin with the bar of the first note or the one after it; None for none.
        beyond: for how many beats the line goes on after the last of `places`.
    """
    cost = _long_notes(places, shift, metre)
    begins = int((places[0][0] + shift) % metre.bar_quarters)
    cost += FIRST_BEAT[min(begins, len(FIRST_BEAT) - 1)]
    if chart is None:
        return cost, False
    bar = metre.bar_quarters
    first = (places[0][0] + shift) // bar
    last = (places[-1][0] + shift + beyond) // bar
    ways = []
    for begin, extra in ((first, 0.0), (first + 1, _SEARCH["begins before the changes"])):
        ways.append(
            extra
            + _bars_cost(int(last - begin) + 1, chart)
            + _over_chords(places, shift - begin * bar, metre, chart)
        )
    return cost + min(ways), ways[1] < ways[0]


def _bars_cost(bars: int, chart: Chart) -> float:
    """Return what it costs that the line has so many bars over the changes."""
    if bars == chart.bars:
        return 0
    if 0 < bars < chart.bars:
        return _SEARCH["a bar too few"] * (chart.bars - bars)
    if bars > 0 and bars % chart.bars == 0:
        return _SEARCH["a round more"]
    return _SEARCH["bars that fit no round"]


def _over_chords(places: Places, shift: Fraction, metre: Metre, chart: Chart) -> float:
    """Return what the notes cost over the chords that sound with them."""
    length = chart.bars * metre.bar_quarters
    cost = 0
    for place, midi in places:
        at = (place + shift) % length if place + shift >= 0 else Fraction(0)
        chord = chart.chords[max(0, bisect_right(chart.starts, at) - 1)]
        row = _FAMILIES.get(chord.family)
        if row is not None and chord.root is not None:
            costs = row.on_beat if at.denominator == 1 else row.off_beat
            cost += costs[(midi - chord.root.pitch_class) % 12]
    return cost


def _long_notes(places: Places, shift: int, metre: Metre) -> float:
    """Return what it costs where the long notes begin."""
    cost = 0
    for (place, _), (after, _) in pairwise(places):
        if after - place < _LONG:
            continue
        at = (place + shift) % metre.bar_quarters
        if metre == _COMMON:
            cost += LONG_NOTE[int(at * 2)]
        else:
            cost += 6 - 3 * place_strength(at, metre)
    return cost
