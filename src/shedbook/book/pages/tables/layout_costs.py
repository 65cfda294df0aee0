"""What a layout of a phrase's pages costs; the cheapest is printed. Row format: see `CostRow`.

A page is what paper costs; a turn is what a player pays who has no hand free. White is counted as the share
of a page that stays empty beyond comfortable gaps. The values are our own choice, made on pages as pictures,
but for the order: a page turn is worse than white, and white is worse than a tight gap (common practice).
"""

from __future__ import annotations

from typing import NamedTuple


class CostRow(NamedTuple):
    """One cost: its name, what one unit of it costs, what a unit is."""

    name: str
    cost: float
    unit: str


COSTS: tuple[CostRow, ...] = (
    CostRow("page", 100.0, "one page of the book, an empty one too"),
    CostRow("turn", 80.0, "one page turn between the keys of a phrase"),
    CostRow("white", 12.0, "one whole page left white"),
    CostRow(
        "gathered white", 45.0, "the square of that share: one large hole is worse than several small ones"
    ),
    CostRow("tight", 9.0, "all gaps of a page as narrow as they may be"),
    CostRow("side by side", 1.0, "text and scales set in two columns, whose lines of words are shorter"),
    CostRow("lone scale", 6.0, "a single scale under the words, with white beside it"),
    CostRow("close", 4.0, "less white between the parts of a first page"),
    CostRow("no own staff", 8.0, "a book that has the reader's own staves, and none on this phrase's pages"),
    CostRow("few own staves", 2.0, "each own staff fewer than there may be"),
)

COMFORT_MM = 7.0
"""A gap between two scores that is neither tight nor white."""
WIDEST_MM = 16.0
"""The widest gap between two scores of a page."""
MOST_OWN_STAVES = 4
"""The most own staves on a page."""
