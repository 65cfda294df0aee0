"""Lattices grown from states: layer after layer, each state is asked where it leads.

For searches whose states nobody can number beforehand, such as the states of an automaton that reads a line.
"""

from __future__ import annotations

from collections.abc import Callable, Hashable, Iterable
from dataclasses import dataclass
from typing import Generic, TypeVar

from shedbook.lattice.graph import Lattice, Path
from shedbook.lattice.semiring import Weight

State = TypeVar("State", bound=Hashable)


@dataclass(frozen=True, slots=True)
class Grown(Generic[State, Weight]):
    """A lattice with the state of each node but the goal, which has none."""

    lattice: Lattice[Weight]
    states: tuple[State, ...]

    def states_of(self, path: Path) -> tuple[State, ...]:
        """Return the states of a path, from the start to the last layer."""
        return tuple(self.states[node] for node in path.nodes[:-1])


def grow(
    start: State,
    layers: int,
    arcs_from: Callable[[int, State], Iterable[tuple[State, Weight]]],
    end_weight: Callable[[State], Weight | None],
) -> Grown[State, Weight]:
    """Return the lattice of all states that can be met.

    States are numbered as they are met, and arcs offered in that order. States from which nothing leads on
    are kept: a path is found from the goal back and never meets them.

    Args:
        start: the state before the first layer.
        layers: how many steps are taken.
        arcs_from: for a layer, counted from 0, and a state: the states after it with the weights of their
            arcs.
        end_weight: the weight with which a state after the last layer leads to the goal; None where it may
            not.
    """
    sources: list[list[int]] = [[]]
    weights: list[list[Weight]] = [[]]
    states = [start]
    here = range(1)
    for layer in range(layers):
        known: dict[State, int] = {}
        first = len(states)
        for node in here:
            for state, weight in arcs_from(layer, states[node]):
                target = known.get(state)
                if target is None:
                    target = known[state] = len(states)
                    states.append(state)
                    sources.append([])
                    weights.append([])
                sources[target].append(node)
                weights[target].append(weight)
        here = range(first, len(states))
    found = [(node, end_weight(states[node])) for node in here]
    ends = [(node, weight) for node, weight in found if weight is not None]
    sources.append([node for node, _ in ends])
    weights.append([weight for _, weight in ends])
    return Grown(Lattice(sources, weights), tuple(states))
