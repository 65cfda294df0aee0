"""Chains: one choice of each layer, weighed by itself and with the choice before it.

A chain is a lattice whose every step is a full table, so that no arc need be written down. `own[layer]` are
the weights of the choices of a layer; `steps[layer][after][before]` those of going from choice `before` of
a layer to choice `after` of the next one, a row for each choice after. There is a table fewer than there
are layers. A step that may not be taken weighs the semiring's zero. Choices are offered in their order.

Time is in proportion to the entries of all tables, memory to the choices. `dense_chains` does the same on
NumPy arrays, for tables of hundreds of choices a side.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import inf
from operator import add
from random import Random
from typing import TypeAlias

from shedbook.lattice.graph import Lattice, Path
from shedbook.lattice.semiring import Semiring, Total, Weight

Layers: TypeAlias = Sequence[Sequence[Weight]]
Steps: TypeAlias = Sequence[Sequence[Sequence[Weight]]]


def chain_totals(
    own: Layers[Weight], steps: Steps[Weight], semiring: Semiring[Total, Weight]
) -> list[list[Total]]:
    """Return for each choice of each layer the total of all rows of choices that end with it.

    Raises:
        ValueError: if there is not one table fewer than layers, or a table has not a row for each choice.
    """
    if not own:
        return []
    dot, times = semiring.dot, semiring.times
    now = [times(semiring.one, weight) for weight in own[0]]
    found = [now]
    for weights, rows in zip(own[1:], steps, strict=True):
        now = [times(dot(now, row), weight) for row, weight in zip(rows, weights, strict=True)]
        found.append(now)
    return found


def choices_back(
    found: Sequence[Sequence[Total]],
    steps: Steps[Weight],
    semiring: Semiring[Total, Weight],
    dice: Random | None = None,
) -> tuple[int, ...]:
    """Return a choice of each layer, chosen from the last one back, as the semiring picks.

    Args:
        found: the `chain_totals` in the same semiring.
        steps: the tables they were found with.
        semiring: what picks.
        dice: what it draws with; None where it does not draw.
    """
    if not found:
        return ()
    place = semiring.pick(found[-1], [semiring.unit] * len(found[-1]), dice)
    chosen = [place]
    for before, rows in zip(reversed(found[:-1]), reversed(steps), strict=True):
        place = semiring.pick(before, rows[place], dice)
        chosen.append(place)
    return tuple(reversed(chosen))


def least_chain(own: Layers[float], steps: Steps[float]) -> tuple[float, tuple[int, ...]]:
    """Return the least cost and the cheapest row of choices, as places in their layers.

    The cost is whole where all costs are. Without layers it is 0, and there are no choices.

    Raises:
        ValueError: if a layer has no choices, no row leads through all, or tables and layers do not fit.
    """
    if not own:
        return 0, ()
    if not all(own):
        raise ValueError("a layer has no choices")
    # The same as `chain_totals` and `choices_back` in `LEAST`, without their calls for every choice: those
    # take as long as all the rest where layers have two or three choices.
    now = own[0]
    found = [now]
    for weights, rows in zip(own[1:], steps, strict=True):
        now = [min(map(add, now, row)) + weight for row, weight in zip(rows, weights, strict=True)]
        found.append(now)
    cost = min(now)
    if cost == inf:
        raise ValueError("no row of choices leads through all layers")
    place = now.index(cost)
    chosen = [place]
    for before, rows in zip(reversed(found[:-1]), reversed(steps), strict=True):
        ways = list(map(add, before, rows[place]))
        place = ways.index(min(ways))
        chosen.append(place)
    return cost, tuple(reversed(chosen))


def chain_lattice(
    own: Layers[Weight], steps: Steps[Weight], semiring: Semiring[Weight, Weight]
) -> Lattice[Weight]:
    """Return a chain as a lattice, for what chains alone do not give, such as its k best.

    Its nodes are the start, the choices layer by layer, and the goal; `choices_of` reads its paths.

    Args:
        own: the weights of choices; there is at least one layer.
        steps: the tables.
        semiring: how the weights of a step and of a choice become that of one arc.
    """
    sources: list[Sequence[int]] = [()]
    weights: list[Sequence[Weight]] = [()]
    before = range(1)
    tables: list[Sequence[Sequence[Weight]]] = [[[semiring.unit]] * len(own[0]), *steps]
    for layer, rows in zip(own, tables, strict=True):
        first = len(sources)
        for weight, row in zip(layer, rows, strict=True):
            sources.append(before)
            weights.append([semiring.times(step, weight) for step in row])
        before = range(first, len(sources))
    return Lattice([*sources, before], [*weights, [semiring.unit] * len(before)])


def choices_of(path: Path) -> tuple[int, ...]:
    """Return the choices of a path through a `chain_lattice`: the arcs that leave them say which they are."""
    return path.places[1:]
