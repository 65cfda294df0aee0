"""Sentences of the explanation that the author has written anew, for the reader of an edition. Pure.

A sentence of one's own belongs to the computed one in whose place it stands. Where the music changes so that
this one is no longer told, it belongs to nothing: it is not printed, and the author is told.
"""

from __future__ import annotations

from collections.abc import Sequence

from shedbook.analysis.naming.sayings import saying
from shedbook.analysis.proof import Finding, Told, finding_in
from shedbook.book.ground.told_findings import COMMAND_LINE
from shedbook.book.ground.words import EN, Words
from shedbook.book.scores.reader_commentary import reader_prose
from shedbook.errors import shown
from shedbook.phrase.model import Phrase

OUTDATED = "sentence-outdated"
"""The rule on a sentence of the author's whose computed one the music no longer gives."""


def with_own_sentences(
    phrase: Phrase,
    read: Phrase,
    concert: Sequence[str],
    told: Sequence[str],
    *,
    language: str = "en",
    words: Words = EN,
) -> tuple[str, ...]:
    """Return what is told of a phrase, with the author's sentences in the place of those they replace.

    Args:
        phrase: the phrase as its author wrote it.
        read: the phrase as it is read.
        concert: the computed sentences by the names of the author's score.
        told: the same sentences, one to one, by the names of the reader's.
        language: the language of the book, a tag such as "en".
        words: the words for notes.
    """
    own = dict(phrase.sentences)
    if len(concert) != len(told):
        return tuple(told)
    return tuple(
        reader_prose(own[computed], phrase, read, language, words) if computed in own else sentence
        for computed, sentence in zip(concert, told, strict=True)
    )


def outdated(phrase: Phrase, concert: Sequence[str]) -> tuple[Finding, ...]:
    """Return a finding for each sentence of the author's that stands in the place of none any more."""
    mend = saying("finding.sentence-outdated.mend")
    told = (
        Told(saying("finding.sentence-outdated", sentence=shown(own)), mend)
        for computed, own in phrase.sentences
        if computed not in concert
    )
    return tuple(finding_in(Finding(OUTDATED, "warning", None, None, told=one), COMMAND_LINE) for one in told)
