"""A finding of the proof-reader: what a rule says of one place in a phrase, or between two phrases."""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction
from typing import NamedTuple

from shedbook.analysis.account.note_account import NoteAccount
from shedbook.analysis.naming.language import Words
from shedbook.analysis.naming.sayings import Saying
from shedbook.theory.pitch import Pitch


class Remedy(NamedTuple):
    """What would mend a finding, so that a program can write it: pitches, a scale, or a chord symbol.

    `pitches` are pairs of a note's index and its new pitch. `change` is the index of the change whose scale
    or chord is to be another, -1 for none; `scale` and `chord` are its new texts, "" where that stays.
    """

    pitches: tuple[tuple[int, Pitch], ...] = ()
    change: int = -1
    scale: str = ""
    chord: str = ""


class Told(NamedTuple):
    """What a finding says, and how it is mended, before a language says it."""

    message: Saying
    mend: Saying


@dataclass(frozen=True, slots=True)
class Finding:
    """Something that wants a second look.

    `rule` and `severity` are those of the rule's row. `bar` and `beat` say where it is; beats count from 1 in
    the metre's denominator. `beat` is None for a whole bar or phrase, `bar` is None for the phrase. `note` is
    the index of the note meant; `phrase` and `other` are the places in the book of the phrases meant, from 0.
    `remedy` is what would mend it, where a program can tell. `message` and `mend` are English, as on the
    command line; `told` is what they say, for any other language, None where it is an error's own text.
    """

    rule: str
    severity: str
    bar: int | None
    beat: Fraction | None
    message: str = ""
    mend: str = ""
    note: int | None = None
    phrase: int = 0
    other: int | None = None
    remedy: Remedy | None = None
    told: Told | None = None


def finding_in(finding: Finding, words: Words) -> Finding:
    """Return a finding with its message and its mend in the words of a language."""
    if finding.told is None:
        return finding
    return replace(
        finding,
        message=words.sentence(finding.told.message.said(words)),
        mend=words.sentence(finding.told.mend.said(words)),
    )


class Found(NamedTuple):
    """What a rule's function finds, before the rule's name, severity and usual mend are added.

    The fields are those of a `Finding`, its sentences not yet said; `mend` is None and `severity` "" where
    the rule's own serve.
    """

    bar: int | None
    beat: Fraction | None
    message: Saying
    mend: Saying | None = None
    note: int | None = None
    phrase: int = 0
    other: int | None = None
    severity: str = ""
    remedy: Remedy | None = None


def found_at(
    note: NoteAccount, message: Saying, mend: Saying | None = None, remedy: Remedy | None = None
) -> Found:
    """Return what is found at a note."""
    return Found(note.bar, note.beat, message, mend, note.index, remedy=remedy)
