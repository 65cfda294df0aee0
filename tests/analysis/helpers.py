"""What the tests of the analysis share: phrases from text, and the twelve keys."""

from __future__ import annotations

import importlib
import json
from pathlib import Path

from shedbook.analysis.account import Account, account
from shedbook.editions.transpose import transpose
from shedbook.phrase.fields import phrase_from_fields
from shedbook.phrase.model import Phrase
from shedbook.theory.interval import Interval

_SCHEMA = Path(__file__).parents[2] / "docs" / "account.schema.json"
VALIDATOR = importlib.import_module("jsonschema").Draft202012Validator(
    json.loads(_SCHEMA.read_text(encoding="utf-8"))
)
"""Checks a document against the published schema of the account."""

TWELVE = (
    Interval(0, 0), Interval(1, 1), Interval(1, 2), Interval(2, 3), Interval(2, 4), Interval(3, 5),
    Interval(3, 6), Interval(-3, -5), Interval(-2, -4), Interval(-2, -3), Interval(-1, -2), Interval(-1, -1),
)  # fmt: skip
"""From the key that is written to all twelve."""


def phrase(changes: str, line: str, scales: str = "", **more: object) -> Phrase:
    fields: dict[str, object] = {"title": "A test", "changes": changes, "line": line, **more}
    if scales:
        fields["scales"] = scales
    return phrase_from_fields(fields)


def read(changes: str, line: str, scales: str = "", **more: object) -> Account:
    return account(phrase(changes, line, scales, **more))


def in_all_keys(changes: str, line: str, scales: str = "", **more: object) -> list[Account]:
    written = phrase(changes, line, scales, **more)
    return [account(transpose(written, interval)) for interval in TWELVE]


def roles(found: Account) -> list[str]:
    return [note.role for note in found.notes]


def both_keys(changes: str, scales: str, line: str) -> list[Account]:
    """Read a line in its home key and in one other; a bar more than the changes have is a pick-up."""
    more = {"pickup": "1/4"} if line.count("|") > changes.count("|") else {}
    written = phrase(changes, line, scales, **more)
    other = TWELVE[1 + len(line) % 11]
    return [account(written), account(transpose(written, other))]
