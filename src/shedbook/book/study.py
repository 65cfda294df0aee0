"""What the study floors say of a phrase, in the form that the book keeps and prints.

The one place in the book floor where analysis is asked; what is given back is plain data.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import dataclass, replace
from typing import Any

from shedbook.analysis.account import Account, account
from shedbook.analysis.proof import Finding, proof, proof_book
from shedbook.editions.tables.edition_rules import EDITION_RULES
from shedbook.engrave.score import Marks
from shedbook.phrase.model import Phrase
from shedbook.theory.metre import beat_words

EDITION_RULE_NAMES = tuple(row.name for row in EDITION_RULES)
"""Rules that a phrase may silence though the analysis does not know them."""


@dataclass(frozen=True, slots=True)
class Studied:
    """A phrase with its account, made once and asked several times."""

    phrase: Phrase
    account: Account


def study(phrase: Phrase) -> Studied:
    """Return the phrase with its account."""
    return Studied(phrase, account(phrase))


def progression_words(studied: Studied) -> str:
    """Return the name of the progression that covers most of the changes, or ""."""
    found = studied.account.harmony.progressions
    if not found:
        return ""
    return max(found, key=lambda progression: progression.last - progression.first).name


def findings_of(studied: Studied, silenced: Collection[str]) -> tuple[dict[str, Any], ...]:
    """Return what the proof-reader reports of one phrase."""
    found = proof(studied.account, silenced=silenced, also_known=EDITION_RULE_NAMES)
    return tuple(_plain(finding) for finding in found)


def outline_of(studied: Studied) -> str:
    """Return the line's intervals from its first note as text: phrases with different ones are no twins."""
    notes = studied.account.notes
    return " ".join(str(note.midi - notes[0].midi) for note in notes)


def findings_between(studied: Mapping[int, Studied], silenced: Collection[str]) -> tuple[dict[str, Any], ...]:
    """Return what the proof-reader reports of phrases beside one another, by their numbers in the book.

    `number` in a finding is that of the phrase it belongs to.
    """
    if not studied:
        return ()
    # The proof-reader names phrases by their place: the places of the others are held by empty accounts.
    empty = replace(next(iter(studied.values())).account, notes=())
    accounts = [
        studied[number].account if number in studied else empty for number in range(1, max(studied) + 1)
    ]
    return tuple(
        {**_plain(finding), "number": finding.phrase + 1}
        for finding in proof_book(accounts, silenced=silenced)
    )


def _plain(finding: Finding) -> dict[str, Any]:
    return {
        "rule": finding.rule,
        "severity": finding.severity,
        "bar": finding.bar,
        "beat": "" if finding.beat is None else beat_words(finding.beat),
        "message": finding.message,
        "mend": finding.mend,
    }


def marks_of(studied: Studied, *, under: bool, scales: bool) -> Marks:
    """Return the study marks of a phrase; they are the same in every key.

    The name of a scale stands where it starts, not over every chord it goes on through.
    """
    return Marks(
        under={note.index: note.degree for note in studied.account.notes} if under else {},
        scales=_scale_names(studied) if scales else {},
    )


def _scale_names(studied: Studied) -> dict[int, str]:
    found, before = {}, None
    for index, row in enumerate(studied.account.harmony.scales):
        if row.scale is not None and row.scale != before:
            found[index] = row.scale.row.name
        before = row.scale
    return found
