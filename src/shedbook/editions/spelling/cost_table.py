"""The costs of a table by their names."""

from __future__ import annotations

from types import MappingProxyType

from shedbook.editions.tables.spelling_costs import CostRow


def costs_by_name(rows: tuple[CostRow, ...]) -> MappingProxyType[str, int]:
    """Return the cost of each row by its name, as a read-only mapping.

    Raises:
        ValueError: if two rows have one name, or a cost is negative.
    """
    found: dict[str, int] = {}
    for row in rows:
        if row.name in found or row.cost < 0:
            raise ValueError(f"the row {row.name!r} stands twice or has a negative cost")
        found[row.name] = row.cost
    return MappingProxyType(found)
