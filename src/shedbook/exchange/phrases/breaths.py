"""Where a long line breathes: the least-cost division of its notes into phrases that a listener would hear.

Silence before a note, and the time since the note before began, say how likely a phrase ends there
(`tables.breath_odds`); how many notes a phrase has says the rest. All divisions of the line are weighed
against one another by one search over a lattice whose nodes are the places between notes.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise
from math import log

from shedbook.exchange.phrases.tables.breath_odds import BREATHS, FEW_NOTES, LONGEST_NOTES, SILENCES
from shedbook.lattice.graph import Lattice, least_path
from shedbook.phrase.model import Sounding

_USUAL, _RARE = 20, 0.1
_LENGTHS = tuple(row.quarters for row in BREATHS)


@dataclass(frozen=True, slots=True)
class Breath:
    """A phrase in a line: the indices of its first and its last note.

    Attributes:
        first: the index of the first note in `sounding_notes`.
        last: the index of the last note.
        begins: how likely a phrase begins with the first note, 0 to 1.
        ends: how likely a phrase ends with the last note, 0 to 1.
    """

    first: int
    last: int
    begins: float
    ends: float


def breaths_of(notes: Sequence[Sounding]) -> tuple[Breath, ...]:
    """Return the phrases of a line in order; together they hold every note."""
    if not notes:
        return ()
    shares = [1.0, *map(_share, notes, notes[1:]), 1.0]
    sources: list[Sequence[int]] = [()]
    weights: list[Sequence[float]] = [()]
    inside = [0.0]
    for share in shares[1:]:
        inside.append(inside[-1] - log(1 - min(share, 0.999)))
    for end in range(1, len(notes) + 1):
        before = range(max(0, end - LONGEST_NOTES), end)
        divided = -log(shares[end])
        sources.append(before)
        # The places inside a phrase are those after its first note, and do not divide it.
        weights.append(
            [divided + inside[end - 1] - inside[begin] + _length_cost(end - begin) for begin in before]
        )
    path = least_path(Lattice(sources, weights))
    nodes = () if path is None else path.nodes
    return tuple(Breath(begin, end - 1, shares[begin], shares[end]) for begin, end in pairwise(nodes))


def _share(before: Sounding, note: Sounding) -> float:
    """Return how often a phrase ends between two notes such as these."""
    silence = max(Fraction(0), note.start - before.end)
    row = BREATHS[bisect_right(_LENGTHS, note.start - before.start) - 1]
    return row.shares[bisect_right(SILENCES, silence) - 1]


def _length_cost(notes: int) -> float:
    """Return what it costs that a phrase has so many notes, against the most frequent numbers."""
    usual = FEW_NOTES[-1]
    if notes <= len(FEW_NOTES):
        return -log(FEW_NOTES[notes - 1] / usual)
    return 0.0 if notes <= _USUAL else -log(max(_RARE, _USUAL / notes))
