"""The phrases of a file, explained: the account of each, its findings and the sentences."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

from shedbook.analysis.account import account
from shedbook.analysis.as_json import account_json
from shedbook.analysis.explain import explain
from shedbook.analysis.proof import Finding, proof
from shedbook.book.choice import chosen_phrase
from shedbook.book.manuscript import open_manuscript, read_phrase
from shedbook.errors import ReadError
from shedbook.phrase.changes_text import print_changes
from shedbook.phrase.model import Phrase


@dataclass(frozen=True, slots=True)
class Explained:
    """One phrase: as read, the sentences, the findings, and the whole account as JSON values."""

    phrase: Phrase
    changes: str
    progressions: tuple[str, ...]
    sentences: tuple[str, ...]
    findings: tuple[Finding, ...]
    json: Mapping[str, object]


def explain_file(path: str | Path, *, phrase: str | None = None) -> tuple[Explained | ReadError, ...]:
    """Explain every phrase of a file or a manuscript, or the one that is named.

    Returns:
        The phrases in order, in the place of one that could not be read its error; the errors of whole
        files come first.

    Raises:
        ManuscriptError: if the file itself cannot be read.
        UnknownNameError: if no phrase has the number or title.
    """
    manuscript = open_manuscript(path, keep_going=True)
    sources = manuscript.phrases if phrase is None else (chosen_phrase(manuscript.phrases, phrase),)
    silenced = tuple(rule for rule, _ in manuscript.settings.silence)
    explained: list[Explained | ReadError] = [*manuscript.unread]
    for source in sources:
        try:
            explained.append(_explained(read_phrase(source), silenced))
        except ReadError as error:
            explained.append(error)
    return tuple(explained)


def _explained(phrase: Phrase, silenced: tuple[str, ...]) -> Explained:
    seen = account(phrase)
    findings = proof(seen, silenced=silenced)
    sentences = explain(seen)
    names = dict.fromkeys(progression.name for progression in seen.harmony.progressions)
    return Explained(
        phrase=phrase,
        changes=print_changes(phrase.changes, phrase.full_bars, phrase.metre),
        progressions=tuple(names),
        sentences=sentences,
        findings=findings,
        json=account_json(seen, findings, sentences),
    )
