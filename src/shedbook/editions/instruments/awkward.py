"""How awkward two notes in a row are on an instrument: points from its chart, its tube or its strings."""

from __future__ import annotations

from functools import lru_cache

from shedbook.editions.cost_table import costs_by_name
from shedbook.editions.fingering.air_columns import brass_points, columns
from shedbook.editions.fingering.finger_charts import FILE, charts, finger_points
from shedbook.editions.fingering.hand_on_strings import string_points, strings
from shedbook.editions.instruments.instrument import Instrument
from shedbook.editions.tables.awkward_moves import LEAPS, POINTS

_POINTS = costs_by_name(POINTS, FILE)
MOST = _POINTS["most"]
"""The most points that two notes have."""


@lru_cache(maxsize=65536)
def awkward(instrument: Instrument, before: int, after: int) -> int:
    """Return how awkward two sounding MIDI numbers in a row are, from 0 to `MOST`.

    An instrument of no table has 0 everywhere, and so has a note that its chart does not hold.
    """
    if before == after:
        return 0
    return min(MOST, _points(instrument, before, after))


def _points(instrument: Instrument, before: int, after: int) -> int:
    name, up = instrument.name, instrument.transposition.semitones
    if name in charts():
        return finger_points(charts()[name], before + up, after + up, _POINTS)
    if name in columns():
        return brass_points(columns()[name], before + up, after + up, _POINTS)
    if name in strings():
        return string_points(strings()[name], before, after, _POINTS)
    leap = abs(after - before)
    return sum(
        _POINTS["wide"] * (leap >= step) for row in LEAPS if name in row.instruments for step in row.steps
    )
