"""What a line costs over the changes at one place of its bar lines: its notes, and how it enters each chord.

Costs are tenths of a natural logarithm; they stand in `tables.bar_line_costs`.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise
from types import MappingProxyType
from typing import NamedTuple

from shedbook.exchange.rhythm.tables.bar_line_costs import CHORD_NOTES, LANDINGS, ChordRow
from shedbook.table_index import Rows
from shedbook.theory.chord import Chord
from shedbook.theory.metre import Metre

_COST = Rows(
    "costs of notes over changes",
    "src/shedbook/exchange/rhythm/tables/bar_line_costs.py",
    [(row.name, row.cost) for row in LANDINGS],
)
_COST.must_be(
    (
        "note on a strong beat", "note on another beat", "note off the beat", "landing", "landing by step",
        "landing by half step", "landing on third or seventh", "note before a late landing",
        "landing after the beat", "no landing within a beat",
    ),
    "the search adds them up",
)  # fmt: skip
_FAMILIES: Mapping[str, ChordRow] = MappingProxyType({row.family: row for row in CHORD_NOTES})
_GUIDE_TONES = frozenset({3, 4, 10, 11})
_WITHIN = 1
"""A chord is landed on by the first note over it, if that begins within so many quarters."""

Places = Sequence[tuple[Fraction, int]]
"""Written notes: where each begins, in quarters from the first beat, and its MIDI number."""


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


class _Over(NamedTuple):
    """A note over a chord: its place in the changes in quarters, its MIDI number, the index of the chord."""

    at: Fraction
    midi: int
    chord: int


def cost_over_changes(places: Places, shift: Fraction, metre: Metre, chart: Chart) -> float:
    """Return what it costs that a line goes over changes, with the first beat so many quarters into them.

    Args:
        places: the written notes; those before the changes are heard against the first chord.
        shift: the place of the first beat, in quarters from the beginning of the changes; may be below 0.
        metre: the metre.
        chart: the changes, which begin anew under a longer line.
    """
    line = [_over(place + shift, midi, metre, chart) for place, midi in places]
    cost = sum(_note_cost(note, metre, chart) for note in line)
    return cost + sum(_landing_cost(before, note, chart) for before, note in pairwise(line))


def _over(place: Fraction, midi: int, metre: Metre, chart: Chart) -> _Over:
    at = place % (chart.bars * metre.bar_quarters) if place >= 0 else Fraction(0)
    return _Over(at, midi, max(0, bisect_right(chart.starts, at) - 1))


def _table_cost(chord: Chord, midi: int, *, on_beat: bool) -> int:
    """Return what a note costs over a chord by the table; 0 for chords that it has not."""
    row = _FAMILIES.get(chord.family)
    if row is None or chord.root is None:
        return 0
    return (row.on_beat if on_beat else row.off_beat)[(midi - chord.root.pitch_class) % 12]


def _note_cost(note: _Over, metre: Metre, chart: Chart) -> float:
    """Return what a note costs over its chord."""
    on_beat = note.at.denominator == 1
    name = "note off the beat"
    if on_beat:
        strong = metre.beat_at(note.at % metre.bar_quarters) in metre.strong_beats
        name = "note on a strong beat" if strong else "note on another beat"
    return _COST[name] * _table_cost(chart.chords[note.chord], note.midi, on_beat=on_beat)


def _landing_cost(before: _Over, note: _Over, chart: Chart) -> float:
    """Return what it costs that a note comes after another; 0 where both are over one chord."""
    if note.chord == before.chord and note.at >= before.at:
        return 0
    chord, left = chart.chords[note.chord], chart.chords[before.chord]
    if chord.family == left.family and chord.root == left.root:
        return 0
    late = note.at - chart.starts[note.chord]
    kept = _COST["note before a late landing"] * _table_cost(chord, before.midi, on_beat=True)
    if late >= _WITHIN:
        return kept + _COST["no landing within a beat"]
    cost = _COST["landing"] * _table_cost(chord, note.midi, on_beat=True)
    step = abs(note.midi - before.midi)
    cost += _COST["landing by step"] if step <= 2 else 0
    cost += _COST["landing by half step"] if step == 1 else 0
    if chord.root is not None and (note.midi - chord.root.pitch_class) % 12 in _GUIDE_TONES:
        cost += _COST["landing on third or seventh"]
    return cost + (kept + _COST["landing after the beat"] if late else 0)
