"""Triads laid over a chord: three notes in a row that are a triad of their own and mostly outside.

Conventions are those of `reasons`. Source: common practice; in real lines an outside note that nothing else
explains stands in such a triad thirty times as often as other notes do (`docs/analysis.md`).
"""

from __future__ import annotations

from collections.abc import Iterator

from shedbook.analysis.roles.costs import COST
from shedbook.analysis.roles.nodes import Line
from shedbook.analysis.roles.reasons import Explanation
from shedbook.analysis.roles.role_names import ESCAPE, SUPERIMPOSED

_NOTES = 3
_MOST_INSIDE = 1
"""Of the three notes at most one is inside: with two, the third may be a slip."""

_TRIADS = frozenset(
    frozenset((root + above) % 12 for above in kind) for root in range(12) for kind in ((0, 4, 7), (0, 3, 7))
)
"""The pitch classes of the major and the minor triads."""


def superimposed_triad(line: Line, index: int) -> Iterator[Explanation]:
    """Yield three notes from a node on that make a major or minor triad, two of them outside at least."""
    last = index + _NOTES - 1
    if not line.joined(index, last):
        return
    nodes = line.nodes[index : last + 1]
    if sum([node.inside for node in nodes]) > _MOST_INSIDE:
        return
    if frozenset([node.midi % 12 for node in nodes]) in _TRIADS:
        yield Explanation(ESCAPE, index, last, None, COST.superimposed_triad, SUPERIMPOSED)
