"""Selection: which remarks are told, as the best set that has room and does not say a thing twice.

The best set has the largest sum of worths; a remark is worth less for every weightier one on its topic. No
two remarks of it explain the same notes, and there is one remark at most on what to practise and one on
where else the line fits. It is found by branch and bound, and is exact.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence

from shedbook.analysis.telling.remark import ALONG, Remark

LEAST_WORTH = 36
"""What is worth less than that is not told, unless there is nothing else."""

_AGAIN = 24
"""How much less a remark is worth for each weightier one on its topic."""

_MOST_WEIGHED = 18
"""How many remarks are weighed against one another at most: the worthiest."""


def worths(remarks: Sequence[Remark]) -> list[int]:
    """Return what each remark is worth beside the weightier ones on its topic, in their order."""
    seen: dict[str, int] = {}
    found = [0] * len(remarks)
    for place in sorted(range(len(remarks)), key=lambda at: (-remarks[at].worth, remarks[at].first, at)):
        topic = remarks[place].topic or remarks[place].kind
        found[place] = remarks[place].worth - _AGAIN * seen.get(topic, 0)
        seen[topic] = seen.get(topic, 0) + 1
    return found


def clash(one: Remark, other: Remark) -> bool:
    """Whether two remarks may not both be told: they explain the same notes, or there is room for one."""
    if one.part != other.part:
        return False
    if one.part != ALONG:
        return True
    return 2 * len(one.about & other.about) > min(len(one.about), len(other.about))


def best_set(
    remarks: Sequence[Remark], room: int, gist: Callable[[Remark], object] = id
) -> tuple[Remark, ...]:
    """Return the best set of at most `room` remarks, in their order.

    `gist` gives what makes a remark's sentence unlike others of its kind. Of equal sets the one is taken that
    has the worthier remarks. If nothing is worth telling, the worthiest remark stands alone.
    """
    worth = worths(remarks)
    order = sorted(range(len(remarks)), key=lambda at: (-worth[at], remarks[at].first, at))[:_MOST_WEIGHED]
    able = [at for at in order if worth[at] >= LEAST_WORTH]
    if not able:
        return tuple(remarks[at] for at in order[:1])
    values = [worth[at] for at in able]
    weighed = [remarks[at] for at in able]
    against = [0] * len(weighed)
    for place, one in enumerate(weighed):
        for other in range(place):
            before = weighed[other]
            if clash(one, before) or (one.kind == before.kind and gist(one) == gist(before)):
                against[place] |= 1 << other
                against[other] |= 1 << place
    chosen = _search(values, against, room)
    return tuple(remarks[at] for at in sorted(at for at, taken in zip(able, chosen, strict=True) if taken))


def _search(values: list[int], against: list[int], room: int) -> list[bool]:
    """Return which places are chosen; values fall, `against` has a bit for each place that one excludes."""
    best, best_set = -1, 0
    bounds = [sum(values[at : at + room]) for at in range(len(values) + 1)]
    stack = [(0, 0, 0, 0, 0)]  # place, value, chosen, how many, forbidden
    while stack:
        place, value, chosen, count, forbidden = stack.pop()
        if value > best:
            best, best_set = value, chosen
        if place == len(values) or count == room:
            continue
        left = room - count
        bound = bounds[place] if left == room else sum(values[place : place + left])
        if value + bound <= best:
            continue
        stack.append((place + 1, value, chosen, count, forbidden))
        if not forbidden >> place & 1:
            taken = chosen | 1 << place
            stack.append((place + 1, value + values[place], taken, count + 1, forbidden | against[place]))
    return [bool(best_set >> place & 1) for place in range(len(values))]
