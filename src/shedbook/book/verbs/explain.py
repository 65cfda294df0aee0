"""The phrases of a file, explained: the account of each, its findings and the sentences."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from pathlib import Path

from shedbook.analysis.account import account
from shedbook.analysis.account_json import account_json
from shedbook.analysis.proof import Finding, proof
from shedbook.analysis.telling import explain
from shedbook.book.ground.words import words_of
from shedbook.book.manuscript.choice import chosen_editions, chosen_phrase
from shedbook.book.manuscript.opening import open_manuscript
from shedbook.book.manuscript.settings.whole_book import CONCERT, Settings
from shedbook.book.manuscript.source import read_phrase
from shedbook.book.manuscript.unread_places import unread_places
from shedbook.book.scores.author_findings import author_findings
from shedbook.book.scores.inputs import key_order
from shedbook.book.scores.own_sentences import with_own_sentences
from shedbook.book.scores.placing import placing_of
from shedbook.book.scores.reader_commentary import reader_commentary
from shedbook.book.scores.study import EDITION_RULE_NAMES, Studied
from shedbook.editions.instruments.edition import Edition
from shedbook.errors import ReadError
from shedbook.phrase.changes_text import print_changes
from shedbook.phrase.model import Phrase
from shedbook.theory.interval import Interval


@dataclass(frozen=True, slots=True)
class Explained:
    """One phrase as its reader sees it, the sentences, the findings, and the account as JSON values."""

    phrase: Phrase
    changes: str
    progressions: tuple[str, ...]
    sentences: tuple[str, ...]
    findings: tuple[Finding, ...]
    json: Mapping[str, object]


def explain_file(
    path: str | Path, *, phrase: str | None = None, edition: str = CONCERT
) -> tuple[Explained | ReadError, ...]:
    """Explain every phrase of a file or a manuscript, or the one that is named.

    Returns:
        The phrases in order, in the place of one that could not be read its error; the errors of whole
        files come first.

    Raises:
        ManuscriptError: if the file itself cannot be read.
        UnknownNameError: if no phrase has the number or title, or no edition the name.
    """
    manuscript = open_manuscript(path, keep_going=True)
    settings = manuscript.settings
    (reader, *_) = chosen_editions((edition,), settings)
    sources = manuscript.phrases if phrase is None else (chosen_phrase(manuscript.phrases, phrase),)
    silenced = settings.silenced
    explained: list[Explained | ReadError] = [*manuscript.unread]
    for source in sources:
        try:
            explained.append(_explained(read_phrase(source), silenced, settings, reader))
        except ReadError as error:
            explained.extend(unread_places(source) or (error,))
    return tuple(explained)


def _explained(phrase: Phrase, silenced: tuple[str, ...], settings: Settings, edition: Edition) -> Explained:
    """Explain a phrase by the names that the reader of an edition sees in its home key.

    What the proof-reader says is for the author, and stays in concert pitch.
    """
    seen = shown = account(phrase)
    if edition.transposes:
        home = placing_of(Studied(phrase, seen), key_order(settings), edition).home
        shown = account(home.phrase)
        up = phrase.key.tonic.interval_to(home.key.written.tonic)
        octaves = (home.semitones + edition.transposition.semitones - up.semitones) // 12
        seen = account(phrase, reader=up + Interval(7 * octaves, 12 * octaves))
    findings = (
        *proof(seen, silenced=silenced, also_known=EDITION_RULE_NAMES),
        *author_findings(account(phrase), silenced=silenced, language=settings.language),
    )
    words = words_of(settings.language, dict(settings.pages.words))
    own = reader_commentary(phrase, shown.phrase, settings.language, words)
    shown = replace(shown, phrase=replace(shown.phrase, commentary=own))
    sentences = explain(shown, words=words)
    if phrase.sentences:
        concert = explain(account(phrase), words=words)
        sentences = with_own_sentences(
            phrase, shown.phrase, concert, sentences, language=settings.language, words=words
        )
    names = dict.fromkeys(progression.name for progression in seen.harmony.progressions)
    read = shown.phrase
    return Explained(
        phrase=read,
        changes=print_changes(read.changes, read.full_bars, read.metre),
        progressions=tuple(names),
        sentences=sentences,
        findings=findings,
        json=account_json(seen, findings, sentences),
    )
