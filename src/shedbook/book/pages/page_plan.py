"""Where the keys of a phrase stand on its pages: of all layouts the one that costs least. Pure geometry.

A phrase has a first page, on which its line, its words and its scales take some height; below them stand as
many keys as the plan puts there. The other keys follow on whole pages, in one column or in two. `plan_phrase`
chooses how the words and scales are set, how many keys stand on each page, and how many own staves fill what
is left; the costs stand in `tables.layout_costs`. All heights are millimetres.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
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
    search = _Search(tuple(keys), sheet)
    plans = search.plans(firsts)
    return min(plans, key=lambda plan: (plan.cost, len(plan.pages)))  # a single key always has a page


class _Search:
    """The search for the cheapest layout of some keys; what it has found of the last so many keys is kept."""

    def __init__(self, keys: tuple[Box, ...], sheet: Sheet) -> None:
        self._keys = keys
        self._sheet = sheet
        self._rest: dict[tuple[int, int, bool], tuple[tuple[KeyPage, ...], float]] = {}
        self._pages: dict[tuple[int, int], tuple[KeyPage, float] | None] = {}

    def plans(self, firsts: Sequence[First]) -> Iterator[Plan]:
        """Yield the cheapest layout for each way of the first page, and each number of keys on it."""
        for way, first in enumerate(firsts):
            taken, before = first_page(first, self._sheet)
            for count in range(len(self._keys) + 1):
                head = page_of(self._keys[:count], self._sheet, taken, first=True)
                if head is None:
                    break
                for found, cost in with_own(*head, self._sheet, taken):
                    rest, more = self._after(count, before, found.own > 0)
                    whole = COST["page"] * before + first.cost + cost + more
                    yield Plan(way, (found, *rest), whole)

    def _after(self, start: int, before: int, staves: bool) -> tuple[tuple[KeyPage, ...], float]:
        """Return the cheapest way to share the keys from `start` on out over whole pages, and what it costs.

        `before` pages stand before them, of which only matters whether they are even; `staves` says that they
        have the reader's own staves.
        """
        known = self._rest.get((start, before % 2, staves))
        if known is not None:
            return known
        if start == len(self._keys):
            best = end_of(self._sheet, before, staves)
        else:
            best = min(self._ways(start, before, staves), key=lambda found: found[1])
        self._rest[start, before % 2, staves] = best
        return best

    def _ways(self, start: int, before: int, staves: bool) -> Iterator[tuple[tuple[KeyPage, ...], float]]:
        begun = COST["page"] + turned(self._sheet, before)
        for count in range(1, len(self._keys) - start + 1):
            page = self._page(start, count)
            if page is None:
                return
            for found, cost in with_own(*page, self._sheet, 0.0, never=staves):
                rest, more = self._after(start + count, before + 1, staves or found.own > 0)
                yield (found, *rest), begun + cost + more

    def _page(self, start: int, count: int) -> tuple[KeyPage, float] | None:
        """Return keys on a page of their own; one that is too high for it goes on after a turn."""
        if (start, count) not in self._pages:
            page = page_of(self._keys[start : start + count], self._sheet, 0.0)
            if page is None and count == 1:
                page = _too_high(self._keys[start]), 0.0
            self._pages[start, count] = page
        return self._pages[start, count]


def first_page(first: First, sheet: Sheet) -> tuple[float, int]:
    """Return how much of a page the words take on which the first keys may stand, and which page that is.

    Where words go on after a turn, what cannot be divided leaves white at the foot.
    """
    over = max(0, math.ceil(first.height / sheet.room) - 1)
    if not over:
        return first.height, 1
    return min(sheet.room, first.height - over * sheet.room + _DIVIDED_MM), 1 + over


def turned(sheet: Sheet, before: int) -> float:
    """Return what the turn to a page costs before which so many stand: on an opening only to a left page."""
    if sheet.opening:
        return COST["turn"] if before % 2 == 0 else 0.0
    return COST["turn"] / 2


def end_of(sheet: Sheet, pages: int, staves: bool) -> tuple[tuple[KeyPage, ...], float]:
    """Return what stands after the last key: the empty page of an opening, for own staves if wanted."""
    odd = sheet.opening and pages % 2 == 1
    cost = COST["page"] + _white(1.0) if odd else 0.0
    own = min(2 * MOST_OWN_STAVES, int((sheet.room - sheet.own_head) / sheet.own)) if sheet.own else 0
    if odd and own:
        return (KeyPage(0, (), 0.0, own),), cost
    if sheet.own and not staves:
        cost += COST["no own staff"] + COST["few own staves"] * MOST_OWN_STAVES
    return (), cost


def with_own(
    page: KeyPage, cost: float, sheet: Sheet, taken: float, *, never: bool = False
) -> Iterator[tuple[KeyPage, float]]:
    """Yield a page without own staves, and with as many as there is room for, each with what it costs."""
    yield page, cost
    between = _FROM_KEYS_MM if page.count and taken else 0.0
    room = max(0.0, sheet.room - taken - between - page.height - sheet.own_head)
    own = min(MOST_OWN_STAVES, int(room / sheet.own)) if sheet.own and not never else 0
    if own:
        filled = _white(room / sheet.room) - _white((room - own * sheet.own) / sheet.room)
        few = COST["few own staves"] * (MOST_OWN_STAVES - own)
        yield replace(page, own=own), cost - filled + few


def _white(share: float) -> float:
    return COST["white"] * share + COST["gathered white"] * share * share


def _too_high(key: Box) -> KeyPage:
    """Return the page of a score that goes on after a turn."""
    return KeyPage(1, (Row(0.0, key.height, key.staff),), key.height)


def page_of(
    keys: tuple[Box, ...], sheet: Sheet, taken: float, *, first: bool = False
) -> tuple[KeyPage, float] | None:
    """Return keys on one page under what takes the height `taken`, and what its white costs.

    None if there are too many. On a `first` page what is left stands between the words and the keys, else it
    is shared out among the rows.
    """
    room = sheet.room - taken - (_FROM_KEYS_MM if keys and first else 0.0)
    rows = _rows(keys, sheet.columns)
    if len(rows) > sheet.most:
        return None
    net, gaps = sum(up + down for up, down in rows), max(0, len(rows) - 1)
    spare = room - net - gaps * GAP_MM
    if spare < 0 and (rows or not first):
        return None
    if not rows:
        return KeyPage(0, (), 0.0), _white(max(0.0, room) / sheet.room)
    widest = COMFORT_MM if first else WIDEST_MM
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
