"""Cells that a line repeats at once at another pitch: what a note does in the first, it does in the next.

Conventions: a cell is three to six nodes in a row; it comes again where every step and every place agrees.
Its steps may differ by a half step each, as where a cell is moved within a scale.
"""

from __future__ import annotations

from collections.abc import Iterator

from shedbook.analysis.roles.nodes import Line
from shedbook.analysis.roles.reasons import Explanation

_CELLS = (6, 5, 4, 3)
"""The lengths of cells that are looked for, in nodes, the longest first."""

_HALF_STEP = 1


def repeated_cells(line: Line) -> Iterator[tuple[int, int]]:
    """Yield the cells that come again at once: the node with which the first begins, and their length."""
    first, last = 0, len(line.nodes) - 2 * min(_CELLS)
    while first <= last:
        cell = next((cell for cell in _CELLS if _comes_again(line, first, cell)), 0)
        if cell:
            yield first, cell
        first += cell or 1


def _comes_again(line: Line, first: int, cell: int) -> bool:
    """Whether the cell at a node comes again at once, at another pitch, in the same rhythm."""
    nodes = line.nodes
    if first + 2 * cell > len(nodes) or nodes[first].midi == nodes[first + cell].midi:
        return False
    for place in range(first, first + cell):
        one, other = nodes[place], nodes[place + cell]
        if one.end - one.start != other.end - other.start:
            return False
        if place + 1 < first + cell:
            same_way = one.step * other.step > 0
            if not same_way or abs(one.step - other.step) > _HALF_STEP:
                return False
            if nodes[place + 1].start - one.start != nodes[place + cell + 1].start - other.start:
                return False
    steps = [node.step for node in nodes[first : first + cell]]
    return min(steps) < 0 < max(steps)


def alike(offer: Explanation, before: Explanation, cell: int) -> bool:
    """Whether an explanation says of a cell's note what another says of the note in the cell before."""
    target = None if before.target is None else before.target + cell
    return (
        offer.role == before.role
        and (offer.first, offer.last) == (before.first + cell, before.last + cell)
        and offer.target == target
    )
