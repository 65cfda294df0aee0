"""A finding of the proof-reader, and the rule that it comes from."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from types import MappingProxyType

from shedbook.analysis.account.note_account import NoteAccount
from shedbook.analysis.proof.tables.rules import RULES, RuleRow

RULE: Mapping[str, RuleRow] = MappingProxyType({row.name: row for row in RULES})
"""The rules by name."""


@dataclass(frozen=True, slots=True)
class Finding:
    """Something that wants a second look.

    `bar` and `beat` say where (`beat` None for a whole bar or phrase, `bar` None for the phrase); `note`
    is the index of the note meant, `phrase` and `other` the places in the book of the phrases meant.
    """

    rule: str
    severity: str
    bar: int | None
    beat: Fraction | None
    message: str
    mend: str
    note: int | None = None
    phrase: int = 0
    other: int | None = None


def finding_of(
    rule: str,
    bar: int | None,
    beat: Fraction | None,
    message: str,
    mend: str = "",
    note: int | None = None,
) -> Finding:
    """Return the finding of a rule; `mend` is the rule's own where none is said."""
    row = RULE[rule]
    return Finding(rule, row.severity, bar, beat, message, mend or row.mend, note)


def finding_at(rule: str, note: NoteAccount, message: str, mend: str = "") -> Finding:
    """Return the finding of a rule at a note."""
    return finding_of(rule, note.bar, note.beat, message, mend, note.index)
