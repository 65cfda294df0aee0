"""The costs of explanations: every field has its row, and a lost row is named [the project's design]."""

from __future__ import annotations

import importlib

import pytest

from shedbook.analysis.roles import costs
from shedbook.analysis.roles.tables import role_costs
from shedbook.errors import MissingRowError


def test_every_row_is_read_under_its_name() -> None:
    for row in role_costs.COSTS:
        assert getattr(costs.COST, row.name.replace(" ", "_").replace("-", "_")) == row.cost


def test_a_lost_row_stops_the_program_and_is_named(monkeypatch: pytest.MonkeyPatch) -> None:
    with monkeypatch.context() as patch:
        patch.setattr(role_costs, "COSTS", role_costs.COSTS[1:])
        with pytest.raises(MissingRowError, match='no row "chord_tone"') as caught:
            importlib.reload(costs)
    assert "roles/tables/role_costs.py" in caught.value.hint
    importlib.reload(costs)
