"""The rules of the proof-reader by theme: each module holds rows, each with its function under it.

To add a rule, write its row and its function in the module of its theme, and its sentences in the table of
words; nothing else names it. A new theme is a new module, which is named in `_THEMES` below.
"""

from __future__ import annotations

from pkgutil import iter_modules

from shedbook.analysis.naming.tables.findings import FINDINGS
from shedbook.analysis.proof.rule import AnyRule, BookRule, PhraseRule, SilenceRule, SlipRule, rules_in
from shedbook.analysis.proof.rules import (
    between_phrases,
    contradictions,
    held_notes,
    line_shape,
    scales,
    silences,
    slips,
    written_text,
)
from shedbook.errors import ShedbookError
from shedbook.table_index import Rows

_THEMES = (written_text, slips, held_notes, scales, contradictions, line_shape, between_phrases, silences)

_FOLDER = "src/shedbook/analysis/proof/rules"

for _module in iter_modules(__path__):
    if f"{__name__}.{_module.name}" not in {_theme.__name__ for _theme in _THEMES}:
        raise ShedbookError(
            f"The rules in {_FOLDER}/{_module.name}.py are read by nobody.",
            hint=f"Name the module in _THEMES in {_FOLDER}/__init__.py.",
        )

RULES: Rows[AnyRule] = Rows(
    "rules of the proof-reader", _FOLDER, [(rule.name, rule) for theme in _THEMES for rule in rules_in(theme)]
)
"""Every rule by its name."""

Rows("words of findings", "src/shedbook/analysis/naming/tables/findings.py", FINDINGS).must_have(
    [f"finding.{rule}.mend" for rule in RULES], "how the findings of this rule are usually mended"
)

PHRASE_RULES = tuple(rule for rule in RULES.values() if isinstance(rule, PhraseRule))
SLIP_RULES = tuple(rule for rule in RULES.values() if isinstance(rule, SlipRule))
BOOK_RULES = tuple(rule for rule in RULES.values() if isinstance(rule, BookRule))
SILENCE_RULES = tuple(rule for rule in RULES.values() if isinstance(rule, SilenceRule))
