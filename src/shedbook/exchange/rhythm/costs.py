"""The costs of a written rhythm by their names, looked up in `tables.quantise_costs`."""

from __future__ import annotations

from shedbook.exchange.rhythm.tables.quantise_costs import COSTS
from shedbook.table_index import Rows

COST = Rows(
    "costs of a rhythm",
    "src/shedbook/exchange/rhythm/tables/quantise_costs.py",
    [(row.name, row.cost) for row in COSTS],
)
"""The costs by their names, in tenths of a natural logarithm."""
COST.must_be(
    (
        "weak place", "held from the half", "held from a weak place", "tie", "half tied into a third",
        "another division", "grace note", "left out", "shorter than written", "longer than written", "rest",
        "rest under an eighth", "dotted before a rest", "last note ends on a half beat",
        "last note ends on a weak place",
    ),
    "the search for a rhythm asks for it",
)  # fmt: skip
