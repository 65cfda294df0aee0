"""The proof-reader: every rule fires on its example and is silent on the other."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from fractions import Fraction
from pathlib import Path

import pytest

from analysis.helpers import phrase, read
from shedbook.analysis.account import account
from shedbook.analysis.proof import RULES, Finding, proof, proof_book
from shedbook.analysis.proof.rule import Example, RuleRow
from shedbook.analysis.roles.tables.role_costs import COSTS
from shedbook.phrase.model import Bar, Event, Phrase
from shedbook.theory.interval import OCTAVE, Interval
from shedbook.theory.pitch import Pitch


def _last_bar(written: Phrase, change: Callable[[tuple[Event, ...]], tuple[Event, ...]]) -> Phrase:
    last = written.bars[-1]
    return replace(written, bars=(*written.bars[:-1], Bar(last.number, change(last.events))))


def _raised(event: Event, by: Interval) -> Event:
    return event if event.pitch is None else replace(event, pitch=event.pitch + by)


ROWS = [rule.row for rule in RULES.values()]

EDITS: dict[str, Callable[[Phrase], Phrase]] = {
    "": lambda written: written,
    "shorten the last bar": lambda written: _last_bar(written, lambda events: events[:-1]),
    "move the tied note": lambda written: _last_bar(
        written, lambda events: (_raised(events[0], Interval(1, 2)), *events[1:])
    ),
    "raise the second bar": lambda written: _last_bar(
        written, lambda events: tuple(_raised(event, OCTAVE) for event in events)
    ),
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
    assert all(one.severity == row.severity and one.message and one.mend for one in found)


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


def test_findings_carry_a_place_and_a_mend() -> None:
    found = proof(read("Cm7 | Fm7", "1/2 eb4 g4 | 1/2 ab4 a4", "dorian | dorian"))
    contradiction = next(one for one in found if one.rule == "chord-contradicted")
    assert (contradiction.bar, contradiction.beat, contradiction.note) == (2, Fraction(3), 3)
    assert "A" in contradiction.message
    assert "Fm7" in contradiction.mend


def test_natural_fifth_sustained_over_alt() -> None:
    found = proof(read("G7alt", "1/2 b4 d5", "altered"))
    assert "chord-contradicted" in {one.rule for one in found}


# A half step above a chord tone: b9 and b13 of a dominant are colours, the project's design.
@pytest.mark.parametrize(
    ("changes", "scales", "line", "fires"),
    [
        ("Cmaj7", "ionian", "1/2 e4 f4", True),
        ("Cm7", "aeolian", "1/2 eb4 ab4", True),
        ("Cm7b5", "locrian", "1/2 eb4 db4", True),
        ("C7", "half-whole diminished", "1/2 e4 db4", False),
        ("C7", "mixolydian b6", "1/2 e4 ab4", False),
        ("Cmaj7", "ionian", "1/2 g4 1/8 f4 e4 1/4 c4", False),
    ],
)
def test_notes_to_pass_through(changes: str, scales: str, line: str, fires: bool) -> None:
    found = {one.rule for one in proof(read(changes, line, scales))}
    assert ("pass-through-held" in found) == fires


def test_all_outside_and_extreme_registers_have_an_account() -> None:
    found = read("Cmaj7", "1/8 c#1 d#2 f#7 g#6 a#1 c#7 d#4 f#1", "ionian")
    assert len(found.notes) == 8
    assert proof(found)


def test_book_rules_name_both_phrases() -> None:
    one = read("Dm7 | G7", "1/4 d4 f a c5 | b4 d5 c5 b4")
    other = read("Em7 | A7", "1/4 e4 g b d5 | c#5 e5 d5 c#5")
    (finding,) = proof_book([one, other])
    assert (finding.rule, finding.phrase, finding.other) == ("duplicate-phrase", 1, 0)
    assert proof_book([one, other], silenced=("duplicate-phrase",)) == ()


def test_misread_names_the_plain_note() -> None:
    written = phrase("G7", "1/4 g4 b4 d5 f5", "mixolydian")
    events = written.bars[0].events
    odd = replace(events[1], pitch=Pitch.parse("Cb5"))
    odder = replace(written, bars=(Bar(1, (events[0], odd, *events[2:])),))
    (finding,) = [one for one in proof(account(odder)) if one.rule == "misread-accidental"]
    assert finding.mend == "Write B."


def test_the_docs_list_every_rule_and_every_cost() -> None:
    text = (Path(__file__).parents[3] / "docs" / "analysis.md").read_text(encoding="utf-8")
    for row in ROWS:
        assert f"| `{row.name}` | {row.severity} | {row.says} | {row.mend} |" in text
    for cost in COSTS:
        assert f"| {cost.name} | {cost.cost} | {cost.why} |" in text


def test_the_wrong_third_over_a_major_chord() -> None:
    assert "chord-contradicted" in {one.rule for one in proof(read("Cmaj7", "1/2 eb4 g4", "ionian"))}
    assert "chord-contradicted" not in {one.rule for one in proof(read("C7", "1/2 eb4 g4", "mixolydian"))}
