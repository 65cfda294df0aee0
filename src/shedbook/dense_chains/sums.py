"""Chains summed up: exact counts, logarithms of sums, and rows of choices drawn in proportion.

Counts are Python's whole numbers in arrays of objects, as large as they need to be; logarithms are of base
e. A row of choices is drawn from the last place back (forward filtering, backward sampling; see `lattice`).
"""

from __future__ import annotations

from collections.abc import Sequence
from random import Random

import numpy as np
from numpy.typing import NDArray

Logs = NDArray[np.float64]
Whole = NDArray[np.int64] | NDArray[np.object_]


def count_pairs(single: Sequence[Whole], pair: Sequence[Whole]) -> int:
    """Return the sum over all rows of choices of the product of their weights, exactly.

    With weights of 1, and 0 for what may not be, it is how many rows there are. Ten million entries take
    about a second, for every one is added as a Python number.

    Args:
        single: for each place the weight of each choice, whole numbers.
        pair: for each place but the first the weights [choice before, choice].
    """
    total = single[0].astype(object)
    for own, between in zip(single[1:], pair, strict=True):
        total = (total @ between.astype(object)) * own.astype(object)
    return int(total.sum())


def log_totals(single: Sequence[Logs], pair: Sequence[Logs]) -> list[Logs]:
    """Return for each choice at each place the logarithm of the summed weights of all rows that end with it.

    Args:
        single: for each place the logarithm of the weight of each choice, minus infinity for what may not be.
        pair: for each place but the first the logarithms [choice before, choice].
    """
    total = single[0]
    found = [total]
    for own, between in zip(single[1:], pair, strict=True):
        total = _log_sum(total[:, None] + between) + own
        found.append(total)
    return found


def log_sum(totals: Sequence[Logs]) -> float:
    """Return the logarithm of the summed weights of all rows; minus infinity where there is none.

    `totals` are what `log_totals` found.
    """
    return float(_log_sum(totals[-1][:, None])[0])


def _log_sum(terms: Logs) -> Logs:
    """Return the logarithms of the sums of columns."""
    top = terms.max(axis=0)
    known = np.where(np.isfinite(top), top, 0.0)
    with np.errstate(divide="ignore"):
        return np.asarray(np.log(np.exp(terms - known).sum(axis=0)) + known)


def sampled_rows(totals: Sequence[Logs], pair: Sequence[Logs], count: int, dice: Random) -> NDArray[np.intp]:
    """Return rows of choices drawn in proportion to their weights, an array [row, place].

    All rows are drawn side by side, place by place from the last one back; the same seed gives the same rows.
    They are not the rows that `lattice` draws from the same dice, only as likely.

    Args:
        totals: what `log_totals` found.
        pair: the tables they were found with.
        count: how many rows to draw.
        dice: what is drawn with.

    Raises:
        ValueError: if every row has no weight.
    """
    if log_sum(totals) == -np.inf:
        raise ValueError("no row of choices has any weight")
    found = np.zeros((count, len(totals)), dtype=np.intp)
    shares = np.repeat(totals[-1][None, :], count, axis=0)
    for place in range(len(totals) - 1, -1, -1):
        found[:, place] = _drawn(shares, dice)
        if place:
            shares = totals[place - 1][None, :] + pair[place - 1][:, found[:, place]].T
    return found


def _drawn(logs: Logs, dice: Random) -> NDArray[np.intp]:
    """Return a place of each row, drawn by logarithms of shares."""
    shares = np.exp(logs - logs.max(axis=1, keepdims=True))
    upto = shares.cumsum(axis=1)
    at = np.array([dice.random() for _ in range(len(logs))]) * upto[:, -1]
    places = (upto <= at[:, None]).sum(axis=1)
    # Rounding may carry a draw past the last place that has a share.
    last = logs.shape[1] - 1 - (shares[:, ::-1] > 0).argmax(axis=1)
    return np.asarray(np.minimum(places, last))
