"""How often a phrase is played so that a track lasts as long as somebody wants to practise."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction

from shedbook.analysis.account import quarters_a_minute
from shedbook.phrase.model import Phrase
from shedbook.sound.arranging.order import Order
from shedbook.sound.arranging.passages import needs_space
from shedbook.sound.arranging.tables.arrangements import MOST_ROUNDS_A_KEY


def rounds_for(minutes: float, phrases: Sequence[Phrase], order: Order) -> int:
    """Return how many rounds in each key come nearest to a length, at least one.

    Args:
        minutes: how long the track is to last.
        phrases: the phrase in each of its keys.
        order: what the track shall be; its own rounds say nothing. In call and answer the number is even.
    """
    first = order.played(phrases[0])
    timed = first if order.tempo_bpm is None else replace(first, tempo_bpm=order.tempo_bpm)
    bars = first.full_bars * (2 if needs_space(first, order) else 1)
    seconds = bars * first.metre.bar_quarters * 60 / Fraction(quarters_a_minute(timed))
    wanted = Fraction(minutes) * 60 / len(phrases) / seconds
    step = 2 if order.answers else 1
    return min(MOST_ROUNDS_A_KEY, max(1, round(wanted / step)) * step)
