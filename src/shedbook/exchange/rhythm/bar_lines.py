"""How likely a place of the bar line is under a line whose beats were found.

A chart, where there is one, says how many bars the line should have and which chords sound where. Costs are
tenths of a natural logarithm; they stand in `tables.bar_line_costs`.
"""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise

from shedbook.exchange.ground.written_values import place_strength
from shedbook.exchange.rhythm.landings import Chart, Places, cost_over_changes
from shedbook.exchange.rhythm.tables.bar_line_costs import FIRST_NOTE, LONG_NOTE, SEARCH
from shedbook.table_index import Rows
from shedbook.theory.metre import Metre

_COST = Rows(
    "costs of finding bar lines",
    "src/shedbook/exchange/rhythm/tables/bar_line_costs.py",
    [(row.name, row.cost) for row in SEARCH],
)
_COST.must_be(
    (
        "a round more", "a bar too few", "bars that fit no round", "begins before the changes",
        "a long pick-up",
    ),
    "the search adds them up",
)  # fmt: skip
_LONG = Fraction(3, 2)
_COMMON = Metre(4, 4)


def bar_line_cost(
    places: Places, shift: int, metre: Metre, chart: Chart | None, beyond: Fraction = Fraction(0)
) -> tuple[float, bool]:
    """Return what it costs that the first beat is so many beats after a bar line.

    The second answer says whether the changes begin with the bar after that of the first note.

    Args:
        places: the written notes.
        shift: how many beats after a bar line the first beat is.
        metre: the metre.
        chart: the changes, which begin with the bar of the first note or the one after it; None for none.
        beyond: for how many beats the line goes on after the last of `places`.
    """
    bar = metre.bar_quarters
    begins = (places[0][0] + shift) % bar
    cost = _long_notes(places, shift, metre) + FIRST_NOTE[min(int(2 * begins), len(FIRST_NOTE) - 1)]
    if chart is None:
        return cost, False
    first = (places[0][0] + shift) // bar
    last = (places[-1][0] + shift + beyond) // bar
    early = pick_up_cost(begins, bar)
    ways = [
        extra
        + bars_cost(int(last - begin) + 1, chart)
        + cost_over_changes(places, shift - begin * bar, metre, chart)
        for begin, extra in ((first, 0.0), (first + 1, early))
    ]
    return cost + min(ways), ways[1] < ways[0]


def pick_up_cost(begins: Fraction | int, bar: Fraction | int) -> float:
    """Return what it costs that a line begins before its changes, at a place of a bar, in quarters."""
    return _COST["begins before the changes"] + (_COST["a long pick-up"] if 2 * begins < bar else 0)


def bars_cost(bars: int, chart: Chart) -> float:
    """Return what it costs that the line has so many bars over the changes."""
    if bars == chart.bars:
        return 0
    if 0 < bars < chart.bars:
        return _COST["a bar too few"] * (chart.bars - bars)
    if bars > 0 and bars % chart.bars == 0:
        return _COST["a round more"]
    return _COST["bars that fit no round"]


def _long_notes(places: Places, shift: int, metre: Metre) -> float:
    """Return what it costs where the long notes begin."""
    cost = 0.0
    for (place, _), (after, _) in pairwise(places):
        if after - place < _LONG:
            continue
        at = (place + shift) % metre.bar_quarters
        if metre == _COMMON:
            cost += LONG_NOTE[int(at * 2)]
        else:
            cost += 6 - 3 * place_strength(at, metre)
    return cost
