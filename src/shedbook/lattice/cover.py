"""Covers: a row of places taken by pieces, each place by exactly one.

A cover is a path: the seams before, between and after the places are its nodes, the pieces its arcs.
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import NamedTuple

from shedbook.lattice.graph import lattice_of, least_path


class Piece(NamedTuple):
    """A piece that takes the places from `first` up to but not including `end`, and what it costs."""

    first: int
    end: int
    cost: float


def least_cover(places: int, pieces: Iterable[Piece]) -> tuple[Piece, ...] | None:
    """Return the cheapest pieces that cover so many places, in order; None where no pieces do.

    Pieces are offered in their order. Time is in proportion to their number.

    Raises:
        ValueError: if a piece takes no place, or one that is not there.
    """
    offered: list[list[Piece]] = [[] for _ in range(places + 1)]
    every = list(pieces)
    lattice = lattice_of(places + 1, every)
    for piece in every:
        offered[piece.end].append(piece)
    path = least_path(lattice)
    if path is None:
        return None
    return tuple(offered[node][place] for node, place in zip(path.nodes[1:], path.places, strict=True))
