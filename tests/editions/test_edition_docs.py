from __future__ import annotations

from pathlib import Path

from shedbook.editions.instruments.edition import group_editions
from shedbook.editions.instruments.instrument import instruments
from shedbook.editions.instruments.own_instruments import INSTRUMENT_KEYS
from shedbook.editions.spelling.courtesy_accidentals import COURTESY_RULES
from shedbook.editions.tables.edition_rules import EDITION_RULES
from shedbook.editions.tables.fingerboards import FINGERBOARDS
from shedbook.editions.tables.fingering_costs import FINGERING_COSTS
from shedbook.editions.tables.register_costs import FOLD_COSTS, REGISTER_COSTS

PAGE = (Path(__file__).parents[2] / "docs" / "editions.md").read_text(encoding="utf-8")
INTERVALS = {
    0: "as it sounds", 2: "major 2nd up", 5: "perfect 4th up", 7: "perfect 5th up", 9: "major 6th up",
    12: "octave up", 14: "major 9th up", 21: "major 13th up",
}  # fmt: skip


def test_every_edition_and_instrument_stands_in_the_page_as_it_is() -> None:
    for edition in group_editions():
        bands = edition.bands
        if edition.name == "concert":
            continue
        assert (
            f"| `{edition.name}` | {INTERVALS[edition.transposition.semitones]} | {edition.clef} "
            f"| {bands.comfortable} | {bands.full} | {bands.extreme} |"
        ) in PAGE
    for instrument in instruments():
        bands = instrument.bands
        assert (
            f"| {instrument.name} | {INTERVALS[instrument.transposition.semitones]} | {instrument.clef} "
            f"| {bands.comfortable} | {bands.full} | {bands.extreme} |"
        ) in PAGE


def test_every_cost_rule_and_key_stands_in_the_page() -> None:
    for row in REGISTER_COSTS:
        if row.policy == "reader" and row.cost:
            assert f"| {row.name} | {row.cost} | a {row.per} |" in PAGE
    for cost in FINGERING_COSTS:
        assert f"| {cost.name} | {cost.cost} | a {cost.per} | {cost.why} |" in PAGE
    for board in FINGERBOARDS:
        assert f"| {board.instrument} | {board.strings} | {board.frets} |" in PAGE
    for row in FOLD_COSTS:
        assert f"| {row.name} | {row.cost} | a {row.per} |" in PAGE
    for rule in EDITION_RULES:
        assert f"`{rule.name}` ({rule.severity})" in PAGE
    for name in (*COURTESY_RULES, *INSTRUMENT_KEYS):
        assert f"`{name}`" in PAGE
