"""The proof-reader: every rule fires on its example and is silent on the other."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import pytest

from analysis.helpers import phrase, read
from shedbook.analysis.account import account
from shedbook.analysis.proof import RULES, Finding, proof, proof_book
from shedbook.analysis.proof.rule import SEVERITIES, Example, RuleRow, SlipRule
from shedbook.analysis.roles.tables.role_costs import COSTS
from shedbook.phrase.model import Bar, Event, Phrase
from shedbook.theory.interval import OCTAVE, Interval
from shedbook.theory.key import Key


def _last_bar(written: Phrase, change: Callable[[tuple[Event, ...]], tuple[Event, ...]]) -> Phrase:
    last = written.bars[-1]
    return replace(written, bars=(*written.bars[:-1], Bar(last.number, change(last.events))))


def _raised(event: Event, by: Interval) -> Event:
    return event if event.pitch is None else replace(event, pitch=event.pitch + by)


ROWS = [rule.row for rule in RULES.values()]
SLIPS = {rule.name for rule in RULES.values() if isinstance(rule, SlipRule)}


EDITS: dict[str, Callable[[Phrase], Phrase]] = {
    "": lambda written: written,
    "shorten the last bar": lambda written: _last_bar(written, lambda events: events[:-1]),
    "move the tied note": lambda written: _last_bar(
        written, lambda events: (_raised(events[0], Interval(1, 2)), *events[1:])
    ),
    "raise the second bar": lambda written: _last_bar(
        written, lambda events: tuple(_raised(event, OCTAVE) for event in events)
    ),
    "name F major as the key": lambda written: replace(written, key=Key.parse("F major"), key_inferred=False),
    "silence a rule that does not exist": lambda written: replace(
        written, silence=(("no-such-rule", "for the test"),)
    ),
}


def findings(example: Example) -> tuple[Finding, ...]:
    written = EDITS[example.edit](phrase(example.changes, example.line, example.scales))
    first = account(written)
    if not example.line_2:
        return proof(first)
    second = read(example.changes_2, example.line_2)
    return proof_book([first, second])


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
