"""The slow drift of a player about his place against the beat.

People's errors in time are not independent from note to note: they wander (Hennig et al. 2011, PLoS ONE
6(10):
e26457; Räsänen et al. 2015, PLoS ONE 10(6): e0127902; both from memory). Here they are a first-order
autoregressive chain over the beats, whose spread goes with the length of the beat (tables.timing).
"""

from __future__ import annotations

import random
from fractions import Fraction

from shedbook.sound.score.tables.timing import BY_TEMPO, KEPT_A_BEAT


def by_tempo(tempo_qpm: Fraction) -> float:
    """Return what spreads and places against the beat are multiplied by at a tempo: 1 at 120 quarters."""
    least, most = BY_TEMPO
    return min(most, max(least, 120 / float(tempo_qpm)))


def drift(dice: random.Random, beats: int, spread: float) -> list[float]:
    """Return a drift at each of `beats` quarters and at the end, 0 at both ends.

    Args:
        dice: whose chance.
        beats: how many quarters.
        spread: the standard deviation far from the ends, in any unit.
    """
    fresh = spread * (1 - KEPT_A_BEAT**2) ** 0.5
    found, at = [0.0], 0.0
    for _ in range(1, beats):
        at = KEPT_A_BEAT * at + fresh * dice.gauss(0, 1)
        found.append(max(-2.5 * spread, min(2.5 * spread, at)))
    return [*found, 0.0]
