"""Steady beats that explain when the notes of a line begin: tempo, place of the beat, and swing.

A line is taken as a point process: in every beat so many notes are due at each place
(`tables.bar_line_costs`), and players hit the place with a spread that is counted in milliseconds, whatever
the tempo. The likelihood of the beginnings that were recorded then weighs every tempo against every other,
half and double ones too: a beat in which nothing begins costs something, and so does a note where few are
due.

Conventions: times are microseconds; costs are tenths of a natural logarithm.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from shedbook.exchange.rhythm.tables.bar_line_costs import ANYWHERE, RATES
from shedbook.exchange.rhythm.tables.quantise_costs import SPREAD_MS, SPREAD_SHARE

_SLOWEST, _FASTEST = 50.0, 330.0
_NEAR_TEMPO = 0.04
"""How far the tempo of the playing may be from the one that the author gives."""
_RATIOS = (1.0, 1.3, 1.65, 2.0, 2.5, 3.0)
_BINS, _PHASES = 240, 48
_DRIFT = 0.05
"""Neighbouring tempos are so many beats apart at the end of a line."""
_PLACES = (np.arange(_BINS) + 0.5) / _BINS
_FROM_CENTRES = np.abs(
    _PLACES
    - np.array(
        [[ratio / (ratio + 1) if row.bent else float(row.place) for row in RATES] for ratio in _RATIOS]
    )[..., None]
)
_AWAY = np.minimum(_FROM_CENTRES, 1 - _FROM_CENTRES)
"""How far each place of a beat is from where notes are due, by ratio and row, in beats."""
_RATE = np.array([row.rate for row in RATES])[:, None]
_DUE = ANYWHERE + sum(row.rate for row in RATES)
"""How many notes are due in a beat."""
_BOUNDED = 700
"""At most so many tempos are tried."""
_FAR = 150.0
"""Beats that cost so much more than the best are not kept."""


class SteadyBeat(NamedTuple):
    """A beat: what it costs, how long it is, when one of them is, and the ratio of its eighths."""

    cost: float
    period: float
    phase: float
    ratio: float


def steady_beats(
    onsets: Sequence[int], most: int, tempo_qpm: Fraction | None = None
) -> tuple[SteadyBeat, ...]:
    """Return the likeliest beats, at most so many, the best first; none is a small change of a better one.

    Args:
        onsets: when the notes begin, in order, at least two of them apart.
        most: how many beats are returned at most.
        tempo_qpm: the tempo in quarters a minute; None where it is not known.
    """
    times = np.asarray(onsets, dtype=np.float64) - onsets[0]
    found: list[SteadyBeat] = []
    for period in _periods(float(times[-1]), tempo_qpm):
        places = (times[None, :] / period - (np.arange(_PHASES) / _PHASES)[:, None]) % 1.0
        bins = np.minimum((places * _BINS).astype(np.intp), _BINS - 1)
        beats = times[-1] / period + 0.5
        for ratio, rates in zip(_RATIOS, _log_rates(period), strict=True):
            costs = 10 * (_DUE * beats) - 10 * rates[bins].sum(axis=1)
            found += [
                SteadyBeat(float(costs[at]), period, onsets[0] + at / _PHASES * period, ratio)
                for at in np.argsort(costs)[:4]
            ]
    found.sort()
    return _unlike(found, float(times[-1]), most)


def _periods(length: float, tempo_qpm: Fraction | None) -> list[float]:
    """Return the periods to try, from the longest to the shortest, in microseconds."""
    slowest, fastest = _SLOWEST, _FASTEST
    if tempo_qpm is not None:
        slowest, fastest = float(tempo_qpm) * (1 - _NEAR_TEMPO), float(tempo_qpm) * (1 + _NEAR_TEMPO)
    found = []
    tempo = slowest
    least = (fastest / slowest) ** (1 / _BOUNDED) - 1
    while tempo <= fastest:
        found.append(60e6 / tempo)
        beats = max(4.0, length * tempo / 60e6)
        tempo *= 1 + max(least, _DRIFT / beats)
    return found


def _log_rates(period: float) -> NDArray[np.float64]:
    """Return the logarithms of the rates at the places of a beat, a row for each ratio."""
    spread = max(SPREAD_MS * 1000 / period, float(SPREAD_SHARE))
    bells = _RATE * np.exp(-0.5 * (_AWAY / spread) ** 2) / (spread * np.sqrt(2 * np.pi))
    # Rates are counted for each spread of a player in milliseconds, so that tempos can be compared.
    rates = np.log((ANYWHERE + bells.sum(axis=1)) * SPREAD_MS * 1000 / period)
    return np.asarray(rates, np.float64)


def _unlike(found: Sequence[SteadyBeat], length: float, most: int) -> tuple[SteadyBeat, ...]:
    """Return the best of each neighbourhood of beats, in order."""
    kept: list[SteadyBeat] = []
    for one in found:
        if len(kept) >= most or one.cost > found[0].cost + _FAR:
            break
        if not any(_near(one, other, length) for other in kept):
            kept.append(one)
    return tuple(kept)


def _near(one: SteadyBeat, other: SteadyBeat, length: float) -> bool:
    """Tell whether the beats of two answers lie close together from the first note to the last."""
    if abs(one.period - other.period) * length / one.period > 0.35 * other.period:
        return False
    off = (one.phase - other.phase) / other.period % 1.0
    return min(off, 1 - off) < 0.15
