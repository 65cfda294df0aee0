"""Every path of a small lattice, walked one by one: what the room's searches are checked against."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from hypothesis import strategies as st

from shedbook.lattice.graph import Lattice, Path, lattice_of

Arcs = list[tuple[int, int, int]]


def every_path(lattice: Lattice[int] | Lattice[float]) -> list[Path]:
    """Return all paths in the order of the rule for ties: by their arcs from the goal back."""

    def back(node: int) -> Iterator[tuple[tuple[int, ...], tuple[int, ...]]]:
        if node == 0:
            yield (0,), ()
            return
        for place, source in enumerate(lattice.sources[node]):
            for nodes, places in back(source):
                yield (*nodes, node), (*places, place)

    found = [Path(*one) for one in back(len(lattice.sources) - 1)]
    assert sorted(found, key=lambda path: path.places[::-1]) == found
    return found


def weights_of(lattice: Lattice[int], path: Path) -> list[int]:
    """Return the weights of a path's arcs in order."""
    return [lattice.weights[node][place] for node, place in zip(path.nodes[1:], path.places, strict=True)]


@st.composite
def lattices(draw: st.DrawFn, least: int = 0, most: int = 4) -> Lattice[int]:
    """Draw small lattices with many ties, arcs beside one another, dead ends, or no way at all."""
    nodes = draw(st.integers(1, 7))
    pairs = [(one, two) for one in range(nodes) for two in range(one + 1, nodes)]
    if not pairs:
        return lattice_of(nodes, ())
    arcs = draw(st.lists(st.tuples(st.sampled_from(pairs), st.integers(least, most)), max_size=16))
    return lattice_of(nodes, ((one, two, weight) for (one, two), weight in arcs))


@st.composite
def chains(draw: st.DrawFn, most_layers: int = 4) -> tuple[list[list[int]], list[list[list[int]]]]:
    """Return small chains: the weights of choices, and of steps as [layer][after][before]."""
    sizes = draw(st.lists(st.integers(1, 3), min_size=1, max_size=most_layers))
    weight = st.integers(0, 3)
    own = [draw(st.lists(weight, min_size=size, max_size=size)) for size in sizes]
    steps = [
        [draw(st.lists(weight, min_size=one, max_size=one)) for _ in range(two)]
        for one, two in pairwise(sizes)
    ]
    return own, steps
