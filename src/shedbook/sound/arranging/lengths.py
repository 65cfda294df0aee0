"""How often a phrase is played so that a track lasts as long as somebody wants to practise."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction

from shedbook.analysis.account import quarters_a_minute
from shedbook.phrase.model import Phrase
from shedbook.sound.arranging.order import Order
from shedbook.sound.arranging.passages import count_in_bars, needs_space
from shedbook.sound.arranging.tables.arrangements import MOST_ROUNDS_A_KEY


def seconds_for(phrase: Phrase, keys: int, order: Order) -> float:
    """Return how long a track is up to its last bar line, as `arrange` lays it out; nobody plays for it.

    Args:
        phrase: the phrase in any of its keys.
        keys: in how many keys it is played one after the other.
        order: what the track shall be.
    """
    heard = order.played(phrase)
    space = heard.full_bars if needs_space(heard, order) else 0
    rounds = order.rounds_a_key
    seconds = 0.0
    for round_ in range(rounds):
        last = round_ + 1 == rounds
        bars = keys * (heard.full_bars + (0 if last else space))
        if last:
            bars += keys - 1 + (1 if order.loop and keys > 1 else 0)
            bars += space if order.loop and keys == 1 else 0
            bars += 0 if order.loop or order.parts == "line" else 1
        seconds += bars * _bar_seconds(heard, order.tempo_of(round_))
    first = heard if order.tempo_of(0) is None else replace(heard, tempo_bpm=order.tempo_of(0) or 0)
    return seconds + count_in_bars(order, first) * _bar_seconds(heard, order.tempo_of(0))


def _bar_seconds(phrase: Phrase, tempo_bpm: int | None) -> float:
    timed = phrase if tempo_bpm is None else replace(phrase, tempo_bpm=tempo_bpm)
    return float(phrase.metre.bar_quarters * 60 / Fraction(quarters_a_minute(timed)))


def rounds_for(minutes: float, phrases: Sequence[Phrase], order: Order) -> int:
    """Return how many rounds in each key come nearest to a length, at least one.

    Args:
        minutes: how long the track is to last.
        phrases: the phrase in each of its keys.
        order: what the track shall be; its own rounds say nothing. In call and answer the number is even.
    """
    step = 2 if order.answers else 1
    least, more = (
        seconds_for(phrases[0], len(phrases), replace(order, rounds=rounds)) for rounds in (step, 2 * step)
    )
    wanted = 1 + round((60 * minutes - least) / (more - least))
    return min(MOST_ROUNDS_A_KEY, max(1, wanted) * step)
