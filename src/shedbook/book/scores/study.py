"""What the study floors say of a phrase, as plain values that the book keeps and prints."""

from __future__ import annotations

from collections import Counter
from collections.abc import Collection, Mapping
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import lru_cache

from shedbook.analysis.account import Account, account
from shedbook.analysis.proof import Finding, proof, proof_book, unknown_silences
from shedbook.analysis.telling import notes_told
from shedbook.book.ground.findings import BookFinding, PhraseFinding, of_book
from shedbook.book.ground.told_findings import own
from shedbook.book.ground.words import EN, Words
from shedbook.book.manuscript.opening import MANUSCRIPT_FILE
from shedbook.book.manuscript.settings.pages import MarkChoice
from shedbook.book.manuscript.translation import UNTRANSLATED
from shedbook.book.scores.artefacts import Compared, NumberedFinding
from shedbook.book.scores.author_findings import AUTHOR_RULE_NAMES, author_findings
from shedbook.editions.tables.edition_rules import EDITION_RULES
from shedbook.engrave.notation.study_marks import StudyMarks
from shedbook.phrase.model import Phrase
from shedbook.theory.metre import beat_words

EDITION_RULE_NAMES = (*(row.name for row in EDITION_RULES), *AUTHOR_RULE_NAMES, UNTRANSLATED)
"""Rules that a phrase may silence though the analysis does not know them."""

_NO_DEVICES = frozenset(("chord tone", "scale tone", "unaccounted"))
"""Roles that are no device."""


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


def findings_of(
    studied: Studied, silenced: Collection[str], language: str = "en", words: Words = EN
) -> tuple[PhraseFinding, ...]:
    """Return what the proof-reader reports of one phrase, whose commentary is in a language."""
    found = (
        *proof(studied.account, silenced=silenced, also_known=EDITION_RULE_NAMES),
        *author_findings(studied.account, silenced=silenced, language=language),
    )
    return tuple(_plain(finding, words) for finding in found)


def findings_of_book(silenced: Collection[str], words: Words = EN) -> tuple[BookFinding, ...]:
    """Return what the proof-reader reports of manuscript.toml itself, which has the number 0."""
    return tuple(
        of_book(MANUSCRIPT_FILE, _plain(finding, words))
        for finding in unknown_silences(silenced, silenced, EDITION_RULE_NAMES)
    )


def outline_of(studied: Studied) -> str:
    """Return the line's intervals from its first note as text: phrases with different ones are no twins."""
    notes = studied.account.notes
    return " ".join(str(note.midi - notes[0].midi) for note in notes)


def findings_between(
    studied: Mapping[int, Studied], silenced: Collection[str], words: Words = EN
) -> Compared:
    """Return what the proof-reader reports of phrases beside one another, by their numbers in the book."""
    if not studied:
        return Compared()
    # The proof-reader names phrases by their place: the places of the others are held by empty accounts.
    empty = replace(next(iter(studied.values())).account, notes=())
    accounts = [
        studied[number].account if number in studied else empty for number in range(1, max(studied) + 1)
    ]
    found = proof_book(accounts, silenced=silenced)
    return Compared(tuple(NumberedFinding(finding.phrase + 1, _plain(finding, words)) for finding in found))


def _plain(finding: Finding, words: Words) -> PhraseFinding:
    """Return a finding as the book keeps it, its sentences in English and in the words of the book."""
    beat = "" if finding.beat is None else beat_words(finding.beat)
    message, mend = ("", "") if finding.told is None else own(*finding.told, words)
    return PhraseFinding(
        finding.rule, finding.severity, finding.bar, beat, finding.message, finding.mend,
        own_message=message, own_mend=mend,
    )  # fmt: skip


def marks_of(studied: Studied, wanted: MarkChoice, words: Words, *, home: bool = False) -> StudyMarks:
    """Return the study marks of a phrase; they are the same in every key.

    The name of a scale stands where it starts, not over every chord it goes on through. On its first page a
    phrase shows its landings and links too, if it shows degrees.
    """
    notes = studied.account.notes
    shown = spoken_of(studied) if wanted.sparse else frozenset(note.index for note in notes)
    landings = frozenset(landing.note for landing in studied.account.landings)
    return StudyMarks(
        under={
            note.index: note.degree
            for note in notes
            if wanted.degrees and note.degree and (note.index in shown or note.index in landings)
        },
        scales=_scale_names(studied, words) if wanted.scales else {},
        shorter=_shorter_names(studied, words) if wanted.scales else {},
        landings=landings if home and wanted.degrees else frozenset(),
        links=_links(studied) if home and wanted.degrees else (),
    )


@lru_cache(maxsize=16)
def spoken_of(studied: Studied) -> frozenset[int]:
    """Return the notes of which the explanation says by name what they are over their chord; kept."""
    return notes_told(studied.account)


def _links(studied: Studied) -> tuple[tuple[int, int], ...]:
    """Return the pairs of notes that lead by step across a bar line or into a new chord."""
    return tuple(
        (link.before, link.after)
        for link in studied.account.links
        if link.before is not None and link.after is not None and (link.by_step or link.wrapped)
    )


def _scale_names(studied: Studied, words: Words) -> dict[int, str]:
    found, before = {}, None
    for index, fit in enumerate(studied.account.fits):
        if fit.scale is not None and fit.scale != before:
            found[index] = words.named("scale", fit.scale.row.name)
        before = fit.scale
    return found


def _shorter_names(studied: Studied, words: Words) -> dict[str, str]:
    """Return a shorter name for each scale that has one, by its usual name in the book's language."""
    names = {fit.scale.row.name for fit in studied.account.fits if fit.scale is not None}
    return {
        words.named("scale", name): words(f"scale.short.{name}")
        for name in sorted(names)
        if words.has(f"scale.short.{name}")
    }


@dataclass(frozen=True, slots=True)
class Terms:
    """Under what a book's indexes and parts list a phrase.

    `scale` is the name of the scale that is in mind longest, `devices` are roles and figures, `level` is the
    difficulty.
    """

    progressions: tuple[str, ...]
    scale: str
    scale_names: tuple[str, ...]
    devices: tuple[str, ...]
    level: int
    scale_shares: tuple[tuple[str, float], ...] = ()
    device_shares: tuple[tuple[str, float], ...] = ()


def terms_of(studied: Studied) -> Terms:
    """Return under what a book's indexes and parts list a phrase."""
    account = studied.account
    lengths: dict[str, Fraction] = {}
    for span in account.spans:
        if span.scale is not None:
            lengths[span.scale.name] = lengths.get(span.scale.name, Fraction(0)) + span.end - span.start
    roles = [note.role for note in account.notes if note.role not in _NO_DEVICES]
    devices = roles + [figure.kind for figure in account.figures]
    counted = Counter(roles)
    for figure in account.figures:
        counted[figure.kind] += figure.last - figure.first + 1
    whole = sum(lengths.values(), Fraction(0)) or Fraction(1)
    return Terms(
        progressions=tuple(dict.fromkeys(found.name for found in account.harmony.progressions)),
        scale=max(lengths, key=lambda name: lengths[name], default=""),
        scale_names=tuple(lengths),
        devices=tuple(sorted(set(devices))),
        level=account.difficulty.level,
        scale_shares=tuple((name, round(float(length / whole), 3)) for name, length in lengths.items()),
        device_shares=tuple(
            (name, round(count / len(account.notes), 3)) for name, count in sorted(counted.items())
        ),
    )
