"""The proof-reader: every rule fires on its example and is silent on the other."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from analysis.broken_rules import EDITS, findings
from analysis.helpers import phrase
from shedbook.analysis.account import account
from shedbook.analysis.proof import RULES, proof
from shedbook.analysis.proof.rule import SEVERITIES, RuleRow, SlipRule
from shedbook.analysis.roles.tables.role_costs import COSTS

ROWS = [rule.row for rule in RULES.values()]
SLIPS = {rule.name for rule in RULES.values() if isinstance(rule, SlipRule)}


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row.name)
def test_the_example_fires(row: RuleRow) -> None:
    found = [one for one in findings(row.fires) if one.rule == row.name]
    assert found
    assert all(one.message and one.mend for one in found)
    if row.name in SLIPS:  # the severity of a slip follows its odds
        assert {one.severity for one in found} <= set(SEVERITIES)
    else:
        assert {one.severity for one in found} == {row.severity}


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row.name)
def test_the_other_example_is_silent(row: RuleRow) -> None:
    assert row.name not in {one.rule for one in findings(row.silent)}


@pytest.mark.parametrize("row", [row for row in ROWS if not row.fires.line_2], ids=lambda row: row.name)
def test_each_rule_can_be_silenced(row: RuleRow) -> None:
    written = EDITS[row.fires.edit](phrase(row.fires.changes, row.fires.line, row.fires.scales))
    assert row.name not in {one.rule for one in proof(account(written), silenced=(row.name,))}
    quiet = replace(written, silence=(*written.silence, (row.name, "it is meant")))
    assert row.name not in {one.rule for one in proof(account(quiet))}


def test_severities_and_names() -> None:
    assert {row.severity for row in ROWS} == {"error", "warning", "advice"}


def test_the_docs_list_every_rule_and_every_cost() -> None:
    text = (Path(__file__).parents[3] / "docs" / "analysis.md").read_text(encoding="utf-8")
    for row in ROWS:
        assert f"| `{row.name}` | {row.severity} | {row.says} | {row.mend} |" in text
    for cost in COSTS:
        assert f"| {cost.name} | {cost.cost} | {cost.why} |" in text
