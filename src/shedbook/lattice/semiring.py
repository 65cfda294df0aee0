"""Semirings: how weights add up along a path, and how the paths to one node are put together.

A semiring has two operations. *Times* carries a total over one more arc, *plus* joins the totals of several
paths. They are asked for together, as `dot`: the totals of all sources of a node, each times the weight of
its arc, joined by plus. One call a node instead of two an arc is what makes a walk in plain Python quick.

`pick` is the way back: which of the arcs that lead to a node the path takes, given the totals of their
sources. Where the least counts it is the first of the best arcs; where weights are shares it is drawn in
proportion, which is exact sampling, because each total already holds everything that lies before it.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from heapq import nsmallest
from itertools import accumulate, chain, repeat
from math import exp, fsum, inf, log
from operator import add, mul
from random import Random
from typing import Generic, TypeVar

Total = TypeVar("Total")
Weight = TypeVar("Weight")


@dataclass(frozen=True, slots=True)
class Semiring(Generic[Total, Weight]):
    """What a walk computes.

    `zero` is the total of no path at all, `one` that of the path without an arc, `unit` the weight that
    changes nothing. `times(total, weight)` goes over an arc; `dot(totals, weights)` joins the paths over
    several arcs; `pick(totals, weights, dice)` returns the place of the arc by which a path arrives. It may
    only be asked where `dot` is not `zero`, and needs dice only where it draws.
    """

    name: str
    zero: Total
    one: Total
    unit: Weight
    plus: Callable[[Total, Total], Total]
    times: Callable[[Total, Weight], Total]
    dot: Callable[[Sequence[Total], Sequence[Weight]], Total]
    pick: Callable[[Sequence[Total], Sequence[Weight], Random | None], int]


def _least(totals: Sequence[float], weights: Sequence[float]) -> float:
    least: float = min(map(add, totals, weights))
    return least


def _first_least(totals: Sequence[float], weights: Sequence[float], _dice: Random | None) -> int:
    ways = list(map(add, totals, weights))
    return ways.index(min(ways))


LEAST: Semiring[float, float] = Semiring("least cost", inf, 0, 0, min, add, _least, _first_least)
"""Costs add up, and the least counts; of equals, the arc offered first. Whole costs give whole totals."""


def _sum(totals: Sequence[int], weights: Sequence[int]) -> int:
    return sum(map(mul, totals, weights))


def _drawn(totals: Sequence[int], weights: Sequence[int], dice: Random | None) -> int:
    upto = list(accumulate(map(mul, totals, weights)))
    return bisect_right(upto, _needed(dice).randrange(upto[-1]))


def _needed(dice: Random | None) -> Random:
    """Return the dice.

    Raises:
        ValueError: if there are none, which only the caller can mend.
    """
    if dice is None:
        raise ValueError("paths are drawn in this semiring: hand over a seeded random.Random")
    return dice


COUNT: Semiring[int, int] = Semiring("count", 0, 1, 1, add, mul, _sum, _drawn)
"""Whole weights multiply, and paths are added: with weights of 1 it counts them, however many there are.

An arc may stand for several ways, or for none. A path is drawn in exact proportion to its product.
"""


def _log_sum(totals: Sequence[float], weights: Sequence[float]) -> float:
    terms: list[float] = list(map(add, totals, weights))
    top = max(terms)
    if top == -inf:
        return -inf
    return top + log(fsum([exp(term - top) for term in terms]))


def _log_plus(one: float, other: float) -> float:
    return _log_sum((one, other), (0.0, 0.0))


def _drawn_by_logs(totals: Sequence[float], weights: Sequence[float], dice: Random | None) -> int:
    terms = list(map(add, totals, weights))
    top = max(terms)
    shares = [exp(term - top) for term in terms]
    at = bisect_right(list(accumulate(shares)), _needed(dice).random() * fsum(shares))
    # Rounding may carry the draw past the last arc, or past the last that has a share.
    last = max(place for place, share in enumerate(shares) if share)
    return min(at, last)


LOG_SUM: Semiring[float, float] = Semiring(
    "log-sum", -inf, 0.0, 0.0, _log_plus, add, _log_sum, _drawn_by_logs
)
"""Natural logarithms of weights add up, and paths are summed: the logarithm of the sum of all products."""


def k_least(k: int) -> Semiring[tuple[float, ...], float]:
    """Return the semiring whose total is the costs of the `k` cheapest paths, in order; fewer if there are.

    It tells how near the next best come; `ranked.best_paths` gives those paths themselves.

    Raises:
        ValueError: if `k` is not positive.
    """
    if k < 1:
        raise ValueError(f"{k} best paths were asked for; ask for one at least")

    def plus(one: tuple[float, ...], other: tuple[float, ...]) -> tuple[float, ...]:
        return tuple(sorted((*one, *other))[:k])

    def times(total: tuple[float, ...], weight: float) -> tuple[float, ...]:
        return tuple([cost + weight for cost in total])

    def dot(totals: Sequence[tuple[float, ...]], weights: Sequence[float]) -> tuple[float, ...]:
        return tuple(nsmallest(k, chain.from_iterable(map(times, totals, weights))))

    def pick(totals: Sequence[tuple[float, ...]], weights: Sequence[float], _dice: Random | None) -> int:
        ways = [total[0] + weight if total else inf for total, weight in zip(totals, weights, strict=True)]
        return ways.index(min(ways))

    return Semiring(f"{k} least", (), (0,), 0, plus, times, dot, pick)


def ones(weights: Sequence[object]) -> list[int]:
    """Return a weight of 1 for each of some arcs: what `COUNT` takes to count paths."""
    return list(repeat(1, len(weights)))
