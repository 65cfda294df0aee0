"""The paths of a lattice one by one, the best first: as many as are asked for, none twice.

Every path is the best of a set: those that share its last arcs, from the goal back, as far as the arc by
which it left the path that it came from. When a path is given out, its set is divided by where its members
leave it, and the best of each part waits its turn. The best of a part is known at once, because the least
cost from the start to every node is.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from functools import cache
from heapq import heappop, heappush
from math import inf
from typing import TypeAlias

from shedbook.lattice.graph import Lattice, Path, totals
from shedbook.lattice.semiring import LEAST

_Ranked: TypeAlias = Callable[[int], tuple[tuple[float, int], ...]]
"""The arcs of a node, the best first: the least cost from the start over it, and its place."""
_Waiting: TypeAlias = tuple[float, tuple[int, ...], int, int]
"""Cost of a path, the places of its arcs from the goal back, where it left its origin, that arc's rank."""


def best_paths(lattice: Lattice[float], found: Sequence[float] = ()) -> Iterator[Path]:
    """Yield the paths from the cheapest to the dearest; of equals, in the order of the rule for ties.

    The first path takes one walk over the lattice. Each further one takes, for a path of L nodes with d arcs
    each, time in proportion to L squared at worst, and d log d once for every node that is met.

    Args:
        lattice: where to walk; nothing is yielded where no path leads to its goal.
        found: its `totals` in `LEAST`, where they are known.
    """
    found = found or totals(lattice, LEAST)

    @cache
    def ranked(node: int) -> tuple[tuple[float, int], ...]:
        arcs = zip(lattice.sources[node], lattice.weights[node], strict=True)
        costs = [(found[source] + weight, place) for place, (source, weight) in enumerate(arcs)]
        return tuple(sorted(one for one in costs if one[0] < inf))

    waiting: list[_Waiting] = []
    if len(found) == 1 or found[-1] < inf:
        heappush(waiting, (found[-1], _completed((), lattice, ranked), 0, 0))
    while waiting:
        cost, places, left, rank = heappop(waiting)
        nodes = _nodes(places, lattice)
        yield Path(tuple(reversed(nodes)), tuple(reversed(places)))
        for at in range(left, len(places)):
            arcs = ranked(nodes[at])
            now = rank if at == left else 0
            if now + 1 < len(arcs):
                dearer, place = arcs[now + 1]
                other = _completed((*places[:at], place), lattice, ranked)
                heappush(waiting, (cost + (dearer - arcs[now][0]), other, at, now + 1))


def _nodes(places: Sequence[int], lattice: Lattice[float]) -> list[int]:
    """Return the nodes that some arcs lead to, from the goal back, and the one that the last leaves."""
    nodes = [len(lattice.sources) - 1]
    for place in places:
        nodes.append(lattice.sources[nodes[-1]][place])
    return nodes


def _completed(places: tuple[int, ...], lattice: Lattice[float], ranked: _Ranked) -> tuple[int, ...]:
    """Return a path as the places of its arcs from the goal back: some, and the best from there on."""
    node = _nodes(places, lattice)[-1]
    found = list(places)
    while node:
        place = ranked(node)[0][1]
        found.append(place)
        node = lattice.sources[node][place]
    return tuple(found)
