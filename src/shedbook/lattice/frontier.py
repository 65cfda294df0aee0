"""Frontiers: the least path through states that are met on the way and not kept.

A frontier maps every state that a search has reached to the least way to it, and holds nothing else, so
that it can be cut back while the search goes on. The caller goes from state to state and offers what it
finds. Which way is kept is decided here, by the same rule for ties as everywhere: of equals the one that
was offered first.

A way is its cost and its labels, the last of them outside: `(cost, (rest, label))`, the rest None at the
start. Counts and samples are not to be had of a frontier, for what they need is not kept; `grow` keeps it.
"""

from __future__ import annotations

from collections.abc import Hashable, Mapping
from typing import TypeAlias, TypeVar

State = TypeVar("State", bound=Hashable)
Label = TypeVar("Label")
Labels: TypeAlias = "tuple[Labels[Label], Label] | None"
Way: TypeAlias = "tuple[int, Labels[Label]]"


def offer(
    frontier: dict[State, Way[Label]], state: State, cost: int, rest: Labels[Label], label: Label
) -> None:
    """Keep a way to a state, if it is cheaper than what is known; time does not depend on the frontier."""
    known = frontier.get(state)
    if known is None or cost < known[0]:
        frontier[state] = cost, (rest, label)


def least(frontier: Mapping[State, Way[Label]]) -> Way[Label]:
    """Return the cheapest way, of equals that to the state which was reached first.

    Raises:
        ValueError: if no state was reached.
    """
    return min(frontier.values(), key=lambda way: way[0])


def nearest(frontier: Mapping[State, Way[Label]], beyond: int) -> dict[State, Way[Label]]:
    """Return the states whose way costs at most so much more than the cheapest, in their order."""
    most = min([cost for cost, _ in frontier.values()]) + beyond
    return {state: way for state, way in frontier.items() if way[0] <= most}


def labels_of(way: Way[Label]) -> list[Label]:
    """Return the labels of a way, the first of them first."""
    found = []
    rest = way[1]
    while rest is not None:
        rest, label = rest
        found.append(label)
    return found[::-1]
