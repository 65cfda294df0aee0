"""The role of every note: the cheapest set of explanations that covers the whole phrase.

Explanations compete. Each covers one or several notes in a row and costs what the one table says; a
cover of the phrase takes every note exactly once, and an explanation that leads to a note may not lead to
one that is itself unaccounted. The cheapest cover is found by dynamic programming over the places of the
notes, so the work grows with the length of the phrase and no faster. A second pass, from the front, gives
for every note the best cover in which it has another role; a role that comes close is the runner-up.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass

from shedbook.analysis.roles import enclosures, reasons
from shedbook.analysis.roles.nodes import Line
from shedbook.analysis.roles.reasons import Explanation
from shedbook.analysis.roles.tables.role_costs import CLOSE

_FAR = 10**9

Generator = Callable[[Line, int], Iterator[Explanation]]

_INSIDE_BY_STEP: tuple[Generator, ...] = (
    reasons.plain, reasons.anticipation, reasons.suspension, enclosures.enclosures, reasons.leaning,
    reasons.scale_step_approach,
)  # fmt: skip
_INSIDE: tuple[Generator, ...] = (reasons.plain, reasons.anticipation, enclosures.enclosures)
_OUTSIDE_BY_STEP: tuple[Generator, ...] = (
    reasons.plain, reasons.anticipation, reasons.suspension, reasons.passing, reasons.neighbour,
    enclosures.enclosures, reasons.leaning, reasons.approach, reasons.double_approach,
    reasons.delayed_approach, reasons.blue, reasons.pedal,
)  # fmt: skip
_OUTSIDE: tuple[Generator, ...] = (
    reasons.plain, reasons.anticipation, enclosures.enclosures, reasons.delayed_approach, reasons.escape,
    reasons.blue, reasons.pedal,
)  # fmt: skip
"""What may explain a note of the chord or scale, and a note outside; of equals the first in order is taken.

Most reasons need a note that is left by step, an escape note one that is not: the others are not asked.
"""


@dataclass(frozen=True, slots=True)
class Reading:
    """The chosen cover: its explanations in order and its cost in points.

    `rivals` holds for each node the closest explanation with another role, or None where none is close, and
    `margins` by how many points that is dearer.
    """

    chosen: tuple[Explanation, ...]
    cost: int
    rivals: tuple[Explanation | None, ...]
    margins: tuple[int, ...]


def candidates(line: Line, index: int) -> Iterator[Explanation]:
    """Yield every explanation that begins at a node."""
    node = line.nodes[index]
    if 1 <= abs(node.step) <= 2:
        generators = _INSIDE_BY_STEP if node.inside else _OUTSIDE_BY_STEP
    else:
        generators = _INSIDE if node.inside else _OUTSIDE
    for generate in generators:
        yield from generate(line, index)


def read(line: Line) -> Reading:
    """Return the cheapest cover of a line with its close rivals; of equals the first that is offered."""
    size = len(line.nodes)
    offers = [tuple(candidates(line, index)) for index in range(size)]
    onward, onward_firm = _backward(offers)
    chosen = _walk(offers, onward, onward_firm)
    rivals, margins = _rivals(offers, chosen, onward, onward_firm)
    return Reading(chosen, onward[0], rivals, margins)


def leads_on(explanation: Explanation) -> bool:
    """Whether the node after an explanation is its target, and so may not be unaccounted."""
    return explanation.target == explanation.last + 1


def _backward(offers: list[tuple[Explanation, ...]]) -> tuple[list[int], list[int]]:
    """Return the cheapest cost from each node to the end, free and without starting unaccounted."""
    size = len(offers)
    onward, firm = [0] * (size + 1), [0] * (size + 1)
    for index in range(size - 1, -1, -1):
        best = best_firm = _FAR
        for offer in offers[index]:
            cost = offer.cost + (firm if leads_on(offer) else onward)[offer.last + 1]
            best = min(best, cost)
            if not offer.lost:
                best_firm = min(best_firm, cost)
        onward[index], firm[index] = best, best_firm
    return onward, firm


def _walk(
    offers: list[tuple[Explanation, ...]], onward: list[int], firm: list[int]
) -> tuple[Explanation, ...]:
    """Follow the cheapest costs from the front."""
    chosen: list[Explanation] = []
    index, must_be_firm = 0, False
    while index < len(offers):
        wanted = firm[index] if must_be_firm else onward[index]
        for offer in offers[index]:
            if must_be_firm and offer.lost:
                continue
            if offer.cost + (firm if leads_on(offer) else onward)[offer.last + 1] == wanted:
                chosen.append(offer)
                index, must_be_firm = offer.last + 1, leads_on(offer)
                break
    return tuple(chosen)


def _rivals(
    offers: list[tuple[Explanation, ...]],
    chosen: tuple[Explanation, ...],
    onward: list[int],
    firm: list[int],
) -> tuple[tuple[Explanation | None, ...], tuple[int, ...]]:
    """Return for every node the close explanation with another role, and how much dearer it is."""
    size = len(offers)
    free, bound = [_FAR] * (size + 1), [_FAR] * (size + 1)
    free[0] = 0
    roles = [offer.role for offer in chosen for _ in range(offer.first, offer.last + 1)]
    found: list[Explanation | None] = [None] * size
    margins = [_FAR] * size
    for index in range(size):
        for offer in offers[index]:
            so_far = (free[index] if offer.lost else min(free[index], bound[index])) + offer.cost
            arrive = bound if leads_on(offer) else free
            arrive[offer.last + 1] = min(arrive[offer.last + 1], so_far)
            through = so_far + (firm if leads_on(offer) else onward)[offer.last + 1] - onward[0]
            if through > CLOSE:
                continue
            for place in range(offer.first, offer.last + 1):
                if offer.role != roles[place] and through < margins[place]:
                    found[place], margins[place] = offer, through
    return tuple(found), tuple(margin if margin < _FAR else 0 for margin in margins)
