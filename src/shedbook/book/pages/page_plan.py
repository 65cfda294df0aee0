"""Where the keys of a phrase stand on its pages: of all layouts the one that costs least. Pure geometry.

A phrase has a first page, on which its line, its words and its scales take some height; below them stand as
many keys as the plan puts there. The other keys follow on whole pages, in one column or in two. `plan_phrase`
chooses how the words and scales are set, how many keys stand on each page, and how many own staves fill what
is left; the costs stand in `tables.layout_costs`. All heights are millimetres.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache
from types import MappingProxyType
from typing import NamedTuple

from shedbook.book.ground.paper import GAP_MM
from shedbook.book.pages.tables.layout_costs import COMFORT_MM, COSTS, MOST_OWN_STAVES, WIDEST_MM

COST: Mapping[str, float] = MappingProxyType({row.name: row.cost for row in COSTS})
_DIVIDED_MM = 60.0
"""How much higher words and scales become at the most, when they go on after a turn."""
_FROM_KEYS_MM = 6.0
"""The least white between what stands over the keys of a first page and the first of them."""


class Box(NamedTuple):
    """A score as the plan sees it: its height, and how far under its top the first staff begins."""

    height: float
    staff: float


@dataclass(frozen=True, slots=True)
class Sheet:
    """What the plan must know of paper and settings.

    `room` is the height of a page, `most` the most rows of keys on one, `columns` 1 or 2. `opening` says that
    a phrase begins on a left page and takes whole openings; else it begins on any page. `own` is the height
    of an own staff, 0 where the book has none, `own_head` that of the words over them with the white about
    these.
    """

    room: float
    most: int
    columns: int = 1
    opening: bool = True
    own: float = 0.0
    own_head: float = 8.0


@dataclass(frozen=True, slots=True)
class Row:
    """One row of keys: how far under the top of the keys its staves begin, and how high it is."""

    top: float
    height: float
    staff: float


@dataclass(frozen=True, slots=True)
class KeyPage:
    """The keys of one page: how many, on which rows, how high together, and the own staves below."""

    count: int
    rows: tuple[Row, ...]
    height: float
    own: int = 0


@dataclass(frozen=True, slots=True)
class Plan:
    """The layout of a phrase: which way its words are set, its pages with the first, what it costs."""

    way: int
    pages: tuple[KeyPage, ...]
    cost: float


class First(NamedTuple):
    """A way to set the first page: the height that it needs without keys, and what it costs in itself."""

    height: float
    cost: float = 0.0


def plan_phrase(keys: Sequence[Box], firsts: Sequence[First], sheet: Sheet) -> Plan:
    """Return the cheapest layout.

    Args:
        keys: the scores of the keys in their order.
        firsts: the ways to set words and scales. One that is higher than the page takes as many pages as it
            needs.
        sheet: the paper, and what the author wants of it.
    """
    return min(layouts(tuple(keys), tuple(firsts), sheet), key=lambda plan: (plan.cost, len(plan.pages)))


def layouts(keys: tuple[Box, ...], firsts: tuple[First, ...], sheet: Sheet) -> Iterator[Plan]:
    """Yield the cheapest layout for each way of the first page and each number of keys on it."""
    for way, first in enumerate(firsts):
        over = max(0, math.ceil(first.height / sheet.room) - 1)
        # Where words go on after a turn, what cannot be divided leaves white at the foot.
        taken = first.height if not over else min(sheet.room, first.height - over * sheet.room + _DIVIDED_MM)
        for count in range(len(keys) + 1):
            head = _page(keys[:count], sheet, taken + (_FROM_KEYS_MM if count else 0), mixed=True)
            if head is None:
                break
            rest, rest_cost = _shared(keys[count:], sheet, 1 + over)
            pages = (head[0], *rest)
            cost = head[1] + rest_cost + first.cost
            yield _ended(Plan(way, pages, cost), taken, 1 + over, sheet)


def _ended(plan: Plan, taken: float, before: int, sheet: Sheet) -> Plan:
    """Return a layout with all that it costs, and own staves on the page with the most room."""
    count = before + len(plan.pages) - 1
    cost = plan.cost + COST["page"] * before
    odd = sheet.opening and count % 2 == 1
    if odd:
        cost += COST["page"] + _white(1.0)
    if not sheet.own:
        return Plan(plan.way, plan.pages, cost)
    rooms = [_left(page, sheet, taken if place == 0 else 0.0) for place, page in enumerate(plan.pages)]
    fits = [min(MOST_OWN_STAVES, int(room / sheet.own)) for room in rooms]
    place = max(range(len(fits)), key=lambda one: (fits[one], -one))
    own = fits[place]
    pages = tuple(
        KeyPage(page.count, page.rows, page.height, own) if one == place else page
        for one, page in enumerate(plan.pages)
    )
    if odd:  # the last page of the opening is for the reader's pencil
        most = min(2 * MOST_OWN_STAVES, int((sheet.room - sheet.own_head) / sheet.own))
        pages = (*pages, KeyPage(0, (), 0.0, most)) if most else pages
    cost += COST["few own staves"] * (MOST_OWN_STAVES - own) + (0 if own else COST["no own staff"])
    cost -= _white((rooms[place]) / sheet.room) - _white((rooms[place] - own * sheet.own) / sheet.room)
    return Plan(plan.way, pages, cost)


def _left(page: KeyPage, sheet: Sheet, taken: float) -> float:
    between = _FROM_KEYS_MM if page.count and taken else 0.0
    return max(0.0, sheet.room - taken - between - page.height - sheet.own_head)


def _white(share: float) -> float:
    return COST["white"] * share + COST["gathered white"] * share * share


@lru_cache(maxsize=4096)
def _shared(keys: tuple[Box, ...], sheet: Sheet, before: int) -> tuple[tuple[KeyPage, ...], float]:
    """Return the cheapest way to share keys out over whole pages; `before` pages stand before them."""
    if not keys:
        return (), 0.0
    turn = before % 2 == 0 if sheet.opening else True
    turned = (COST["turn"] if sheet.opening else COST["turn"] / 2) if turn else 0.0
    best: tuple[tuple[KeyPage, ...], float] | None = None
    for count in range(1, len(keys) + 1):
        page = _page(keys[:count], sheet, 0.0)
        if page is None and count > 1:
            break
        found, cost = page or (_too_high(keys[0]), 0.0)
        rest, rest_cost = _shared(keys[count:], sheet, before + 1)
        whole = cost + rest_cost + turned + COST["page"]
        if best is None or whole < best[1]:
            best = (found, *rest), whole
    assert best is not None
    return best


def _too_high(key: Box) -> KeyPage:
    """Return the page of a score that goes on after a turn."""
    return KeyPage(1, (Row(0.0, key.height, key.staff),), key.height)


def _page(
    keys: Sequence[Box], sheet: Sheet, taken: float, *, mixed: bool = False
) -> tuple[KeyPage, float] | None:
    """Return keys on one page under what takes the height `taken`, and what its white costs; None if too
    many.

    On a `mixed` page what is left stands between the words and the keys, else it is shared out among the
    rows.
    """
    room = sheet.room - taken
    rows = _rows(keys, sheet.columns)
    if len(rows) > sheet.most:
        return None
    net, gaps = sum(up + down for up, down in rows), max(0, len(rows) - 1)
    spare = room - net - gaps * GAP_MM
    if spare < 0 and (rows or not mixed):
        return None
    if not rows:
        return KeyPage(0, (), 0.0), _white(max(0.0, room) / sheet.room)
    widest = COMFORT_MM if mixed else WIDEST_MM
    gap = GAP_MM if not gaps else min(widest, GAP_MM + spare / gaps)
    placed, top = [], 0.0
    for up, down in rows:
        placed.append(Row(round(top + up, 2), round(up + down, 2), round(up, 2)))
        top += up + down + gap
    height = round(top - gap, 2)
    tight = max(0.0, COMFORT_MM - gap) / (COMFORT_MM - GAP_MM) if gaps else 0.0
    white = max(0.0, room - net - gaps * max(gap, COMFORT_MM)) / sheet.room
    return KeyPage(len(keys), tuple(placed), height), COST["tight"] * tight + _white(white)


def _rows(keys: Sequence[Box], columns: int) -> list[tuple[float, float]]:
    """Return for each row how high it reaches over the top lines of its first staves, and how far below them.

    Keys go down the first column and then down the second.
    """
    count = math.ceil(len(keys) / columns)
    found = []
    for row in range(count):
        own = keys[row::count] if count else ()
        found.append((max(key.staff for key in own), max(key.height - key.staff for key in own)))
    return found
