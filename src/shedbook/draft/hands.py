"""What is awkward for a player's hands, as weights of two notes in a row in the lattice of lines."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from functools import lru_cache
from types import MappingProxyType

import numpy as np
from numpy.typing import NDArray

from shedbook.draft.ground import TICKS
from shedbook.draft.places import Place
from shedbook.draft.tables.leanings import HASTE
from shedbook.editions.instruments.awkward import awkward
from shedbook.editions.instruments.instrument import Instrument

_SECONDS: Mapping[str, float] = MappingProxyType({row.name: row.seconds for row in HASTE})


@lru_cache(maxsize=32)
def awkward_pairs(instrument: Instrument, low: int, high: int) -> NDArray[np.float64]:
    """Return the points of two sounding pitches in a row: [pitch before - low, pitch - low]."""
    pitches = range(low, high + 1)
    found = np.array([[awkward(instrument, one, other) for other in pitches] for one in pitches], dtype=float)
    found.flags.writeable = False
    return found


def haste(places: Sequence[Place], quarters_a_minute: int) -> NDArray[np.float64]:
    """Return for each note how much of what is awkward before it counts: 1 in full, 0 where there is time."""
    waits = np.array([place.wait for place in places]) / TICKS * 60 / quarters_a_minute
    free, full = _SECONDS["not at all"], _SECONDS["in full"]
    return np.asarray(np.clip((free - waits) / (free - full), 0.0, 1.0))


def hand_weights(
    point: float, instrument: Instrument, places: Sequence[Place], low: int, high: int, tempo: int
) -> NDArray[np.float64]:
    """Return weights [note, pitch before - low, pitch - low].

    Args:
        point: what a point weighs, in natural logarithms.
        instrument: who plays.
        places: the notes.
        low: the lowest sounding MIDI number.
        high: the highest.
        tempo: quarter notes a minute.
    """
    pairs = awkward_pairs(instrument, low, high)
    return point * haste(places, tempo)[:, None, None] * pairs[None, :, :]


def weights_of_pairs(pairs: NDArray[np.float64], lines: NDArray[np.intp]) -> NDArray[np.float64]:
    """Return what the pairs of lines weigh together, of lines [line, note] counted from the lowest pitch."""
    places = np.arange(1, lines.shape[1])
    return np.asarray(pairs[places[None, :], lines[:, :-1], lines[:, 1:]].sum(axis=1))
