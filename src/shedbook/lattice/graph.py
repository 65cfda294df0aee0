"""Any lattice: nodes in order, weighted arcs from earlier nodes to later ones; its totals and its paths.

Node 0 is the start, the last node the goal. The arcs that arrive at a node stand in the order in which they
are offered, which decides between equals (the rule is stated in the room's docstring). All walks take time
in proportion to the arcs, and memory in proportion to the nodes besides the lattice itself.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from functools import reduce
from random import Random
from typing import Generic, NamedTuple, TypeVar

from shedbook.lattice.semiring import COUNT, LEAST, Semiring, Total, Weight, ones

Weight_co = TypeVar("Weight_co", covariant=True)


@dataclass(frozen=True, slots=True)
class Lattice(Generic[Weight_co]):
    """The arcs that arrive at each node: `sources[node]` says where from, `weights[node]` at what weight.

    Both have a row for every node; that of the start is empty. Rows may be any sequences, arrays and ranges
    too, and several nodes may share one. Nothing is checked here: `lattice_of` does that.
    """

    sources: Sequence[Sequence[int]]
    weights: Sequence[Sequence[Weight_co]]

    def counting(self) -> Lattice[int]:
        """Return the same arcs with weights of 1, so that `COUNT` counts paths."""
        return Lattice(self.sources, [ones(row) for row in self.weights])


class Path(NamedTuple):
    """A path: its nodes from the start to the goal, and by which of its arcs each but the first is reached.

    `places[at]` is the place among the arcs that arrive at `nodes[at + 1]`.
    """

    nodes: tuple[int, ...]
    places: tuple[int, ...]


def lattice_of(nodes: int, arcs: Iterable[tuple[int, int, Weight]]) -> Lattice[Weight]:
    """Return the lattice of arcs (source, target, weight), in the order in which they are offered.

    Raises:
        ValueError: if there is no node, or an arc leaves the nodes or does not lead to a later one.
    """
    if nodes < 1:
        raise ValueError("a lattice has at least one node, its start and goal")
    sources: list[list[int]] = [[] for _ in range(nodes)]
    weights: list[list[Weight]] = [[] for _ in range(nodes)]
    for source, target, weight in arcs:
        if not 0 <= source < target < nodes:
            raise ValueError(
                f"an arc leads from node {source} to {target} of {nodes}; arcs lead to later ones"
            )
        sources[target].append(source)
        weights[target].append(weight)
    return Lattice(sources, weights)


def totals(lattice: Lattice[Weight], semiring: Semiring[Total, Weight]) -> list[Total]:
    """Return for each node the total of all paths from the start to it."""
    found = [semiring.one]
    dot, times, total = semiring.dot, semiring.times, found.__getitem__
    rows = zip(lattice.sources, lattice.weights, strict=True)
    next(rows)
    for sources, weights in rows:
        if len(sources) == 1:
            found.append(times(found[sources[0]], weights[0]))
        elif sources:
            found.append(dot(list(map(total, sources)), weights))
        else:
            found.append(semiring.zero)
    return found


def onward(lattice: Lattice[Weight], semiring: Semiring[Total, Weight]) -> list[Total]:
    """Return for each node the total of all paths from it to the goal."""
    plus, times = semiring.plus, semiring.times
    found = [semiring.zero] * len(lattice.sources)
    found[-1] = semiring.one
    rows = zip(reversed(found), reversed(lattice.sources), reversed(lattice.weights), strict=True)
    for here, sources, weights in rows:
        if len(sources) == 1:
            found[sources[0]] = plus(found[sources[0]], times(here, weights[0]))
            continue
        for source, weight in zip(sources, weights, strict=True):
            found[source] = plus(found[source], times(here, weight))
    return found


def path_back(
    lattice: Lattice[Weight],
    found: Sequence[Total],
    semiring: Semiring[Total, Weight],
    dice: Random | None = None,
) -> Path:
    """Return a path chosen from the goal back, arc by arc, as the semiring picks.

    Args:
        lattice: where to walk.
        found: its `totals` in the same semiring.
        semiring: what picks.
        dice: what it draws with; None where it does not draw. The same state gives the same path.

    Raises:
        ValueError: if no path leads to the goal, or dice are missing.
    """
    node = len(found) - 1
    if node and found[node] == semiring.zero:
        raise ValueError("no path leads to the goal")
    arriving, weights = lattice.sources, lattice.weights
    nodes, places = [node], []
    while node:
        sources, place = arriving[node], 0
        if len(sources) > 1:
            place = semiring.pick([found[source] for source in sources], weights[node], dice)
        places.append(place)
        node = sources[place]
        nodes.append(node)
    return Path(tuple(reversed(nodes)), tuple(reversed(places)))


def least_path(lattice: Lattice[float]) -> Path | None:
    """Return the cheapest path, None where none leads to the goal."""
    found = totals(lattice, LEAST)
    if len(found) > 1 and found[-1] == LEAST.zero:
        return None
    return path_back(lattice, found, LEAST)


def count_paths(lattice: Lattice[Weight]) -> int:
    """Return how many paths lead from the start to the goal, exactly."""
    return totals(lattice.counting(), COUNT)[-1]


def sample_paths(lattice: Lattice[Weight], semiring: Semiring[Total, Weight], dice: Random) -> Iterator[Path]:
    """Yield paths without end, each drawn in proportion to its weight and independent of the others.

    Args:
        lattice: where to walk; the totals are found once, a path then takes time in proportion to the arcs
            that arrive at its nodes.
        semiring: `COUNT` for whole weights, which is exact, or `LOG_SUM` for logarithms.
        dice: what is drawn with; the same seed gives the same paths.

    Raises:
        ValueError: if no path leads to the goal.
    """
    found = totals(lattice, semiring)
    while True:
        yield path_back(lattice, found, semiring, dice)


def weigh(lattice: Lattice[Weight], path: Path, semiring: Semiring[Total, Weight]) -> Total:
    """Return the total of one path."""
    arcs = zip(path.nodes[1:], path.places, strict=True)
    return reduce(semiring.times, (lattice.weights[node][place] for node, place in arcs), semiring.one)
