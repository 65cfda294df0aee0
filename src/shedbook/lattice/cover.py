"""Covers: a row of places cut into pieces, each place in exactly one.

A cover is a path: the seams before, between and after the places are its nodes, the pieces its arcs. Where
few pieces are possible, or several over the same places, `graph.lattice_of` takes them as arcs from seam to
seam.
"""

from __future__ import annotations

from collections.abc import Sequence

from shedbook.lattice.graph import Lattice, least_path


def least_cover(costs: Sequence[Sequence[float]]) -> tuple[int, ...] | None:
    """Return the seams of the cheapest cover, the first being 0; None where no cover is possible.

    Of equals, the one whose last piece is longest is taken, then that whose last but one is, and so on.
    Time is in proportion to the square of the places.

    Args:
        costs: `costs[end - 1][first]` is the cost of the piece from place `first` up to but not including
            `end`, `math.inf` where there is none: a row for each place, each one longer than the last.
    """
    sources = [range(end) for end in range(len(costs) + 1)]
    path = least_path(Lattice(sources, [(), *costs]))
    return None if path is None else path.nodes
