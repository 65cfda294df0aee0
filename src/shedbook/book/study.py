"""What the study floors say of a phrase, in the form that the book keeps and prints.

The one place in the book floor where analysis is asked; what is given back is plain data.
"""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass
from typing import Any

from shedbook.analysis.account import Account, account
from shedbook.analysis.proof import Finding, proof, proof_book
from shedbook.engrave.score import Marks
from shedbook.phrase.model import Phrase
from shedbook.theory.metre import beat_words


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
    return tuple(_plain(finding) for finding in proof(studied.account, silenced=silenced))


def findings_between(studied: Sequence[Studied], silenced: Collection[str]) -> tuple[dict[str, Any], ...]:
    """Return what the proof-reader reports of phrases beside one another; `phrase` counts from 0."""
    accounts = [one.account for one in studied]
    return tuple(
        {**_plain(finding), "phrase": finding.phrase} for finding in proof_book(accounts, silenced=silenced)
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


def explanation_of(studied: Studied) -> tuple[str, ...]:
    """Return the sentences that say why the phrase works."""
    return ()


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
