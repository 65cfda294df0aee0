"""How likely a steady beat is under a line: by its tempo, and by the rhythm that the line then has.

Costs are tenths of a natural logarithm; they stand in `tables.bar_line_costs`.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from fractions import Fraction

from shedbook.exchange.rhythm.beat_grids import GRAINS, SLOTS
from shedbook.exchange.rhythm.landings import Places
from shedbook.exchange.rhythm.onsets import RecordedNote, place_onsets
from shedbook.exchange.rhythm.steady_beats import SteadyBeat
from shedbook.exchange.rhythm.tables.bar_line_costs import BEATS, RATES
from shedbook.exchange.rhythm.tables.quantise_costs import SWING_RATIOS
from shedbook.table_index import Rows
from shedbook.theory.metre import Metre

_COST = Rows(
    "costs of a beat",
    "src/shedbook/exchange/rhythm/tables/bar_line_costs.py",
    [(row.name, row.cost) for row in BEATS],
)
_COST.must_be(
    (
        "usual tempo", "tempo octave", "faster by an octave", "beginnings", "rhythm",
        "note on a sixteenth", "note on a third", "note on a finer place",
    ),
    "the search adds them up",
)  # fmt: skip
_NOTE_COST = {
    1: 0.0,
    2: 0.0,
    3: _COST["note on a third"],
    4: _COST["note on a sixteenth"],
}


def written_on(
    notes: Sequence[tuple[int, int, int]], beat: SteadyBeat, first_beat: int, metre: Metre
) -> tuple[Places, float]:
    """Return a line as it is written on a steady beat, and what that beat costs.

    Args:
        notes: (start, end, MIDI number) of one note at a time, in order, in microseconds.
        beat: the beat.
        first_beat: the time of the beat from which places are counted, in microseconds.
        metre: the metre.
    """
    ratio = min(SWING_RATIOS, key=lambda one: abs(float(one) - beat.ratio))
    a_us = GRAINS / beat.period
    recorded = [
        RecordedNote(round((start - first_beat) * a_us), round((end - first_beat) * a_us), midi)
        for start, end, midi in notes
    ]
    placed = place_onsets(recorded, metre, Fraction(round(60e6 / beat.period)), ratios=(ratio,))
    near = (nearest_place(note.start / GRAINS, float(ratio)) for note in recorded)
    places = [
        (place if slot is None else Fraction(slot, SLOTS), note.midi)
        for note, slot, place in zip(recorded, placed.slots, near, strict=True)
    ]
    cost = _COST["beginnings"] * beat.cost + _COST["rhythm"] * placed.cost + tempo_cost(60e6 / beat.period)
    fine = _COST["note on a finer place"]
    return places, cost + sum(_NOTE_COST.get(place.denominator, fine) for place, _ in places)


def tempo_cost(tempo_qpm: float) -> float:
    """Return what a tempo costs, in quarters a minute."""
    octaves = math.log2(tempo_qpm / _COST["usual tempo"])
    return _COST["tempo octave"] * octaves * octaves + _COST["faster by an octave"] * octaves


def nearest_place(beats: float, ratio: float) -> Fraction:
    """Return the written place that is nearest to a time in beats, where eighths swing at a ratio."""
    number, inside = divmod(beats, 1.0)
    away = [
        (abs(inside - (ratio / (ratio + 1) if row.bent else float(row.place))), -row.rate, row.place)
        for row in RATES
    ]
    return int(number) + min((1 - inside, 0.0, Fraction(1)), *away)[2]
