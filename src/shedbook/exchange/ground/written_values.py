"""The values with which a note or a rest is written at its place in the bar.

`note_lengths` knows which values make a length. This module knows where a reader wants to see the
beat. It weighs all ways to cut a length at the beats and half beats, and takes the cheapest cover
(`lattice.cover`). Few values are cheap. A value is dear when it runs over a beat that is stronger than the
place at which it begins, except in the syncopations that readers know (an eighth, a quarter, an eighth).
Rules and costs are common practice.

Conventions: places are quarter notes from the bar line.
"""

from __future__ import annotations

from fractions import Fraction
from functools import lru_cache
from itertools import pairwise
from math import inf

from shedbook.exchange.ground.note_lengths import values_for
from shedbook.lattice.cover import least_cover
from shedbook.phrase.model import Value
from shedbook.phrase.value_text import PARTS
from shedbook.theory.metre import Metre

_EACH, _DOT, _DOTTED_REST, _TUPLET, _SYNCOPATED, _HIDDEN = 10, 1, 12, 1, 4, 40
_BAR, _STRONG, _BEAT, _HALF, _QUARTER, _OFF = 5, 4, 3, 2, 1, 0
_GRAIN = 8
"""The places of plain values are multiples of a thirty-second, which is an eighth of a quarter."""
_MOST_CUTS = 64
_TUPLETS = ((3, 2), (5, 4), (7, 4))


@lru_cache(maxsize=8192)
def note_values(start: Fraction, end: Fraction, metre: Metre) -> tuple[Value, ...] | None:
    """Return the values of a note, tied to one another; None where no values make its length.

    Args:
        start: where the note begins, in quarters from the bar line.
        end: where it ends, likewise; at most at the end of the bar.
        metre: the metre of the bar.
    """
    return _best(start, end, metre, rest=False)


@lru_cache(maxsize=8192)
def rest_values(start: Fraction, end: Fraction, metre: Metre) -> tuple[Value, ...] | None:
    """Return the values of the rests that fill a silence; None where no values do.

    Args:
        start: where the silence begins, in quarters from the bar line.
        end: where it ends, likewise; at most at the end of the bar.
        metre: the metre of the bar.
    """
    if start == 0 and end == metre.bar_quarters:
        whole = values_for(end)
        if whole is not None and len(whole) == 1:
            return whole
    return _best(start, end, metre, rest=True)


def _best(start: Fraction, end: Fraction, metre: Metre, *, rest: bool) -> tuple[Value, ...] | None:
    """Return the cheapest values from one place to another; None where no values make the length."""
    if end <= start:
        return None
    halves = range(int(2 * start) + 1, -int(-2 * end // 1))
    points = [start, *[_half(at) for at in halves], end]
    if len(points) > _MOST_CUTS:
        return values_for(end - start)
    pieces = [
        [_piece(first, last, metre, rest) for first in points[:count]]
        for count, last in enumerate(points[1:], 1)
    ]
    seams = least_cover([[cost for cost, _ in row] for row in pieces])
    if seams is None:
        return values_for(end - start)
    found = [pieces[last - 1][first][1] for first, last in pairwise(seams)]
    return tuple([value for value in found if value is not None])


@lru_cache(maxsize=256)
def _half(at: int) -> Fraction:
    """Return so many half quarters; making a fraction takes longer than looking it up."""
    return Fraction(at, 2)


@lru_cache(maxsize=8192)
def _piece(start: Fraction, end: Fraction, metre: Metre, rest: bool) -> tuple[float, Value | None]:
    """Return the cost of one value from `start` to `end`, and the value; `inf`, None where none makes it."""
    value = _single(start, end)
    if value is None:
        return inf, None
    cost = _EACH + value.dots * (_DOTTED_REST if rest and not _compound(metre) else _DOT)
    if value.actual != value.normal:
        cost += _TUPLET
    return cost + _hiding(start, end, metre, rest=rest), value


def _single(start: Fraction, end: Fraction) -> Value | None:
    """Return the value with at most one dot that lasts from one place to another; None where none does."""
    below = start.denominator * end.denominator
    ratios = ((1, 1),) if _GRAIN % start.denominator == 0 == _GRAIN % end.denominator else _TUPLETS
    for actual, normal in ratios:
        if actual > 1 and below % actual:
            continue
        for part in PARTS:
            for dots in (0, 1):
                value = Value(part, dots, actual, normal)
                if value.quarters == end - start:
                    return value
    return None


def _compound(metre: Metre) -> bool:
    return metre.unit >= 8 and metre.beats % 3 == 0


def place_strength(place: Fraction, metre: Metre) -> int:
    """Return how strong a place of a bar is.

    The bar line is 5, a strong beat 4, another beat 3, a half beat 2, a quarter of a beat 1, the rest 0.

    Args:
        place: quarters from a bar line.
        metre: the metre.
    """
    if place % metre.bar_quarters == 0:
        return _BAR
    beat = metre.beat_at(place % metre.bar_quarters)
    if beat in metre.strong_beats:
        return _STRONG
    for found, unit in ((_BEAT, 1), (_HALF, Fraction(1, 2)), (_QUARTER, Fraction(1, 4))):
        if beat % unit == 0:
            return found
    return _OFF


def _hiding(start: Fraction, end: Fraction, metre: Metre, *, rest: bool) -> int:
    """Return the cost of a value that runs over a place stronger than the one at which it begins."""
    if int(start) == -int(-end // 1) - 1:
        return 0  # the value lies within one quarter, where it hides no beat
    here = place_strength(start, metre)
    half = Fraction(1, 2)
    inside = [half * at for at in range(int(start / half) + 1, -int(-end // half))]
    over = max((place_strength(place, metre) for place in inside), default=_OFF)
    if over <= here:
        return 0
    if rest:
        return _HIDDEN
    length = end - start
    if 2 * start == metre.bar_quarters and end == metre.bar_quarters:
        return 0  # the second dotted quarter of 3/4
    if length == Fraction(2, 3) and start % 2 == Fraction(2, 3):
        return 0  # the middle of a quarter-note triplet
    middle = (start + end) / 2
    if over - here == 1 and place_strength(middle, metre) == over and length.denominator == 1:
        return _SYNCOPATED
    return _HIDDEN
