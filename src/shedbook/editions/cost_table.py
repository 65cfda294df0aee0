"""The costs of a table by their names."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from types import MappingProxyType
from typing import Protocol

from shedbook.editions.tables.register_costs import RegisterRow
from shedbook.table_index import by_names, need

SPELLING_FILE = "src/shedbook/editions/tables/spelling_costs.py"
_REGISTER_FILE = "src/shedbook/editions/tables/register_costs.py"


class CostRow(Protocol):
    """A row of any table of costs."""

    @property
    def name(self) -> str:
        """What it is the cost of."""

    @property
    def cost(self) -> int:
        """The cost, a whole number from 0."""


def costs_by_name(rows: Iterable[CostRow], file: str = SPELLING_FILE) -> Mapping[str, int]:
    """Map the names of rows to their costs; `file` is where the rows stand.

    Raises:
        TableError: if two rows have one name, a row has no source, or a cost is negative.
    """
    named = by_names(rows, what="a cost", file=file)
    for name, row in named.items():
        need(row.cost >= 0, f'The cost "{name}" is below zero.', f"Write 0 or more in {file}.")
    return MappingProxyType({name: row.cost for name, row in named.items()})


def costs_by_policy(rows: Iterable[RegisterRow]) -> Mapping[tuple[str, str], int]:
    """Map policy and name of the rows of register costs to their costs.

    Raises:
        TableError: as `costs_by_name`, or if one policy lacks a cost that another has.
    """
    kept = tuple(rows)
    policies = tuple(dict.fromkeys(row.policy for row in kept))
    found = {
        policy: costs_by_name([row for row in kept if row.policy == policy], _REGISTER_FILE)
        for policy in policies
    }
    for policy in policies:
        for row in kept:
            need(
                row.name in found[policy],
                f'The register policy "{policy}" has no cost "{row.name}".',
                f'Write RegisterRow("{row.name}", "{policy}", …) in {_REGISTER_FILE}, 0 for none.',
            )
    return MappingProxyType(
        {(policy, name): cost for policy in policies for name, cost in found[policy].items()}
    )
