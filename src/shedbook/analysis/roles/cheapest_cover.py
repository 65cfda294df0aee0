"""The role of every note: the cheapest set of explanations that covers the whole phrase.

Explanations compete. Each covers one or several notes in a row and costs what the one table says; a
cover of the phrase takes every note exactly once, and an explanation that leads to a note may not lead to
one that is itself unaccounted. The cheapest cover is the least path of a lattice over the places of the
notes (`lattice.graph`), so the work grows with the length of the phrase and no faster. By how much the best
cover with each explanation is dearer tells which other role a note might have; one that comes close is the
runner-up.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass

from shedbook.analysis.roles import blue_notes, enclosures, reasons
from shedbook.analysis.roles.nodes import Line
from shedbook.analysis.roles.reasons import Explanation
from shedbook.analysis.roles.repeated_cells import alike, repeated_cells
from shedbook.analysis.roles.superimposed_triads import superimposed_triad
from shedbook.analysis.roles.tables.role_costs import CLOSE, SAME_IN_SEQUENCE
from shedbook.lattice.graph import Lattice, onward, path_back, totals
from shedbook.lattice.semiring import LEAST

_FAR = 10**9

Generator = Callable[[Line, int], Iterator[Explanation]]

_INSIDE_BY_STEP: tuple[Generator, ...] = (
    reasons.plain, reasons.anticipation, reasons.suspension, enclosures.enclosures, reasons.leaning,
    reasons.scale_step_approach,
)  # fmt: skip
_INSIDE: tuple[Generator, ...] = (
    reasons.plain, reasons.anticipation, enclosures.enclosures, superimposed_triad,
)  # fmt: skip
_OUTSIDE_BY_STEP: tuple[Generator, ...] = (
    reasons.plain, reasons.anticipation, reasons.suspension, reasons.passing, reasons.neighbour,
    enclosures.enclosures, reasons.leaning, reasons.approach, reasons.double_approach,
    reasons.delayed_approach, blue_notes.blue, blue_notes.bent_third,
    blue_notes.major_seventh_of_minor, reasons.pedal,
)  # fmt: skip
_OUTSIDE: tuple[Generator, ...] = (
    reasons.plain, reasons.anticipation, enclosures.enclosures, reasons.delayed_approach, reasons.escape,
    blue_notes.blue, blue_notes.bent_third,
    blue_notes.major_seventh_of_minor, reasons.pedal, superimposed_triad,
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
    """Return the best cover of a line with its close rivals.

    Where a cell comes again, what explains the first makes the same explanation of the next cheaper, and the
    best cover is looked for once more.
    """
    offers = [tuple(candidates(line, index)) for index in range(len(line.nodes))]
    covers, chosen, from_end = _best(offers)
    cells = tuple(repeated_cells(line))
    if cells and _favour(offers, chosen, cells):
        covers, chosen, from_end = _best(offers)
    rivals, margins = _rivals(offers, chosen, covers, from_end)
    return Reading(chosen, int(from_end[-1]), rivals, margins)


def _best(offers: list[tuple[Explanation, ...]]) -> tuple[_Covers, tuple[Explanation, ...], list[float]]:
    """Return the covers, the best of them, and what the covers cost from each seam to the end."""
    covers = _covers(offers)
    from_end = totals(covers.lattice, LEAST)
    path = path_back(covers.lattice, from_end, LEAST)
    arcs = zip(path.nodes[:0:-1], path.places[::-1], strict=True)
    return covers, tuple([covers.offered[node][place] for node, place in arcs]), from_end


def _favour(
    offers: list[tuple[Explanation, ...]], chosen: tuple[Explanation, ...], cells: tuple[tuple[int, int], ...]
) -> bool:
    """Make explanations cheaper that say of a repeated cell what was said of the cell before it.

    Return whether any of them was not chosen anyway.
    """
    found = False
    said = {one.first: one for one in chosen}
    for first, cell in cells:
        for before in [said[place] for place in range(first, first + cell) if place in said]:
            place = before.first + cell
            if before.lost or before.last >= first + cell or said.get(place, before).role == before.role:
                continue
            favoured = tuple(
                [
                    one._replace(cost=max(0, one.cost - SAME_IN_SEQUENCE))
                    if alike(one, before, cell)
                    else one
                    for one in offers[place]
                ]
            )
            found = found or favoured != offers[place]
            offers[place] = favoured
    return found


def leads_on(explanation: Explanation) -> bool:
    """Whether the node after an explanation is its target, and so may not be unaccounted."""
    return explanation.target == explanation.last + 1


@dataclass(frozen=True, slots=True)
class _Covers:
    """The lattice of all covers, from the end of the line to its front: so ties are decided from the front.

    Its nodes are the seams between notes, 0 being the end of the line; `offered` are the explanations that
    begin at each. `free` and `firm` are the node of the seam before each note, the second where the
    explanation before it leads on, so that the next one has to account for its note; often they are the
    same.
    """

    lattice: Lattice[int]
    offered: list[tuple[Explanation, ...]]
    free: list[int]
    firm: list[int]


def _covers(offers: list[tuple[Explanation, ...]]) -> _Covers:
    size = len(offers)
    sources: list[list[int]] = [[]]
    weights: list[list[int]] = [[]]
    offered: list[tuple[Explanation, ...]] = [()]
    free, firm = [0] * (size + 1), [0] * (size + 1)
    for index in range(size - 1, -1, -1):
        row = offers[index]
        known = row
        if any([offer.lost for offer in row]):
            known = tuple([offer for offer in row if not offer.lost])
            sources.append([(firm if leads_on(offer) else free)[offer.last + 1] for offer in known])
            weights.append([offer.cost for offer in known])
            offered.append(known)
        sources.append([(firm if leads_on(offer) else free)[offer.last + 1] for offer in row])
        weights.append([offer.cost for offer in row])
        offered.append(row)
        free[index] = len(sources) - 1
        firm[index] = free[index] if known is row else free[index] - 1
    return _Covers(Lattice(sources, weights), offered, free, firm)


def _rivals(
    offers: list[tuple[Explanation, ...]],
    chosen: tuple[Explanation, ...],
    covers: _Covers,
    from_end: list[float],
) -> tuple[tuple[Explanation | None, ...], tuple[int, ...]]:
    """Return for every note the close explanation with another role, and how much dearer it is."""
    from_front = onward(covers.lattice, LEAST)
    roles = [offer.role for offer in chosen for _ in range(offer.first, offer.last + 1)]
    found: list[Explanation | None] = [None] * len(offers)
    margins = [_FAR] * len(offers)
    for index, row in enumerate(offers):
        if len(row) == 1 and row[0].last == index and row[0].role == roles[index]:
            continue  # no rival of anything, as most notes have it
        free = covers.free[index]
        before = from_front[free]
        either = min(before, from_front[covers.firm[index]])
        for offer, seam in zip(row, covers.lattice.sources[free], strict=True):
            cost = (before if offer.lost else either) + offer.cost + from_end[seam]
            through = cost - from_end[-1]
            if through > CLOSE:
                continue
            for place in range(offer.first, offer.last + 1):
                if offer.role != roles[place] and through < margins[place]:
                    found[place], margins[place] = offer, int(through)
    return tuple(found), tuple([margin if margin < _FAR else 0 for margin in margins])
