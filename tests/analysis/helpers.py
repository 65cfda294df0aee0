"""What the tests of the analysis share: phrases from text, and the twelve keys."""

from __future__ import annotations

from shedbook.analysis.account import Account, account
from shedbook.editions.transpose import transpose
from shedbook.phrase.fields import phrase_from_fields
from shedbook.phrase.model import Phrase
from shedbook.theory.interval import Interval

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
