"""How alike two lines are, whatever their key, their place in the bar and a few changed notes.

A line is a bag of cells: three and four moves in a row with their rhythm, and without. Two lines that share
most
of their cells are near copies, wherever the cells stand; that is quick enough to hold thousands against each
other. The edit distance over moves is the second, finer measure.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray
from scipy.sparse import csr_array

_COLUMNS = 4096
NEAR_COPY = 0.6
"""From which share of common cells on two lines are near copies [the project's design]."""
SAME_MOVES = 0.75
"""From which share of moves kept in order on two lines are near copies [the project's design]."""


def cells(midi: Sequence[int], onsets: Sequence[int]) -> frozenset[tuple[int, ...]]:
    """Return the cells of a line: three moves in a row, and four; the moves by twos with their rhythm."""
    moves = [after - before for before, after in pairwise(midi)]
    waits = [after - before for before, after in pairwise(onsets)]
    found: set[tuple[int, ...]] = set()
    for size in (3, 4):
        found |= {(size, *moves[at : at + size]) for at in range(len(moves) - size + 1)}
    found |= {(0, *moves[at : at + 2], *waits[at : at + 2]) for at in range(len(moves) - 1)}
    return frozenset(found)


def profiles(bags: Sequence[frozenset[tuple[int, ...]]]) -> NDArray[np.float32]:
    """Return bags of cells as rows of a table, cells being hashed to columns alike on every machine."""
    table = np.zeros((len(bags), _COLUMNS), dtype=np.float32)
    for row, bag in enumerate(bags):
        for cell in bag:
            table[row, _column(cell)] = 1.0
    return table


@lru_cache(maxsize=65536)
def _column(cell: tuple[int, ...]) -> int:
    mixed = 17
    for number in cell:
        mixed = (mixed * 1000003 + number + 64) % 2147483647
    return mixed % _COLUMNS


def shared(some: NDArray[np.float32], others: NDArray[np.float32]) -> NDArray[np.float32]:
    """Return for each of some lines, and each of others, how much of the shorter is in both: [one, other]."""
    smaller = np.minimum(some.sum(axis=1)[:, None], others.sum(axis=1)[None, :])
    common = (csr_array(some) @ csr_array(others).T).toarray()  # a line has some sixty of the columns
    return np.asarray(common / np.maximum(1.0, smaller))


def moves_kept(one: Sequence[int], other: Sequence[int]) -> float:
    """Return the share of the shorter line's moves that the other has in the same order, 0 to 1.

    It is the longest common subsequence, found bit by bit [from memory: Hyyrö 2004, after Crochemore and
    others].
    """
    left = [after - before for before, after in pairwise(one)]
    right = [after - before for before, after in pairwise(other)]
    where: dict[int, int] = {}
    for at, move in enumerate(right):
        where[move] = where.get(move, 0) | 1 << at
    # The row of the usual table as bits, of which a 0 is a place where the common part grows.
    row = every = (1 << len(right)) - 1
    for move in left:
        same = row & where.get(move, 0)
        row = ((row + same) | (row - same)) & every
    return (len(right) - row.bit_count()) / max(1, min(len(left), len(right)))


def diverse(
    table: NDArray[np.float32], worth: NDArray[np.float64], many: int, against: NDArray[np.float32]
) -> list[int]:
    """Return which lines to take: the worthiest first, then again and again the one that adds most.

    What a line adds is its worth less what it shares with the nearest that is taken or stands in `against`;
    near copies are never taken. The objective is greedy max–min with worth, and the same for the same lines.

    Args:
        table: the profiles of the lines.
        worth: what each is worth, in natural logarithms.
        many: how many to take.
        against: the profiles of lines that must not be copied.
    """
    if not len(table):
        return []
    alike = shared(table, table)
    nearest = shared(table, against).max(axis=1, initial=0.0) if len(against) else np.zeros(len(table))
    scale = worth / max(1e-9, float(worth.std()) or 1.0)
    taken: list[int] = []
    open_ = nearest < NEAR_COPY
    while len(taken) < many and open_.any():
        value = np.where(open_, scale - _APART * nearest, -np.inf)
        at = int(value.argmax())
        taken.append(at)
        nearest = np.maximum(nearest, alike[at])
        nearest[at] = 1.0
        open_ &= nearest < NEAR_COPY
    return taken


_APART = 6.0
"""How many deviations of worth a whole line in common costs [the project's design]."""
