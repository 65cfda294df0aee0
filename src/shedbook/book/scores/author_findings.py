"""What the proof-reader says of the author's own names for notes: in the score and in the commentary. Pure.

It stands here because it reads both floors of the study: how a reader reads a name, and what the names in
sentences mean in the language of the book.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator
from fractions import Fraction

from shedbook.analysis.account import Account
from shedbook.analysis.naming.prose_names import NOTE, names_in_prose, prose_language
from shedbook.analysis.naming.sayings import Note, saying
from shedbook.analysis.proof import Finding, Remedy, Told, finding_in
from shedbook.analysis.telling import explain
from shedbook.book.ground.told_findings import COMMAND_LINE
from shedbook.book.ground.words import words_of
from shedbook.book.scores.own_sentences import OUTDATED, outdated
from shedbook.editions.spelling.stumbles import stumbles
from shedbook.phrase.model import Phrase, sounding_notes
from shedbook.theory.pitch import NoteName, spellings

STUMBLING, CONTRADICTED = "stumbling-name", "commentary-names"
AUTHOR_RULE_NAMES = (STUMBLING, CONTRADICTED, OUTDATED)
"""The rules of this module; a phrase or a book may silence them like any other."""


def author_findings(
    account: Account, *, silenced: Collection[str] = (), language: str = "en"
) -> tuple[Finding, ...]:
    """Return what is said of the names that the author gave to notes, in order of place.

    Args:
        account: the phrase as its author wrote it.
        silenced: rules that are silenced for the book; those of the phrase itself are left out too.
        language: the language in which the author writes, a tag such as "en".
    """
    phrase = account.phrase
    quiet = {*silenced, *(rule for rule, _ in phrase.silence)}
    found = [*_stumbling(phrase), *_contradicted(account, language)]
    if phrase.sentences:
        found += outdated(phrase, explain(account, with_commentary=False, words=words_of(language)))
    return tuple(
        sorted(
            (one for one in found if one.rule not in quiet),
            key=lambda one: (one.bar or 0, one.beat or Fraction(0), one.rule),
        )
    )


def _stumbling(phrase: Phrase) -> Iterator[Finding]:
    """Yield notes that a reader expects by another name where they stand."""
    places = {note.event: (index, note) for index, note in enumerate(sounding_notes(phrase))}
    for one in stumbles(phrase):
        index, note = places[one.event]
        if abs(note.pitch.alteration) > 1:
            continue  # the rule on names that are easily misread speaks of it
        names = {"written": Note(one.written), "better": Note(one.better)}
        told = Told(saying("finding.stumbling-name", **names), saying("finding.stumbling-name.mend", **names))
        meant = next(pitch for pitch in spellings(note.pitch.midi) if pitch.name == one.better)
        remedy = Remedy(((index, meant),))
        finding = Finding(STUMBLING, "advice", note.bar, note.beat, note=index, remedy=remedy, told=told)
        yield finding_in(finding, COMMAND_LINE)


def _contradicted(account: Account, language: str) -> Iterator[Finding]:
    """Yield names in the commentary whose sound the score has, but by another name."""
    phrase = account.phrase
    if not phrase.commentary or not prose_language(language):
        return
    notes = [note.pitch.name for note in sounding_notes(phrase)]
    roots = [change.chord.root for change in phrase.changes if change.chord.root is not None]
    rest = _names_of_the_harmony(account)
    said: set[NoteName] = set()
    for found in names_in_prose(phrase.commentary, language, frozenset(roots)):
        name = found.name
        if name in said or name in notes or name in roots:
            continue
        said.add(name)
        first, second = (notes, roots) if found.kind == NOTE else (roots, notes)
        if name in rest and (found.kind == NOTE or _called(name, roots) is None):
            continue
        meant = _called(name, (*first, *second, *rest))
        if meant is not None:
            yield _contradiction(phrase, name, meant)


def _called(name: NoteName, among: Iterable[NoteName]) -> NoteName | None:
    """Return the name of the same sound among some names, or None."""
    return next((one for one in among if one.pitch_class == name.pitch_class), None)


def _names_of_the_harmony(account: Account) -> list[NoteName]:
    """Return the tonic, and the names of chord tones and scale notes that the line does not write otherwise.

    A C flat of the chord is no name in the score where the line has a B over that very chord.
    """
    found: list[NoteName] = [account.phrase.key.tonic]
    for span in account.spans:
        over = {note.pitch.name for note in account.notes if note.span == span}
        sounded = {name.pitch_class for name in over}
        names = (*span.chord.tones, *(span.scale.notes if span.scale else ()))
        found += [name for name in names if name in over or name.pitch_class not in sounded]
    return found


def _contradiction(phrase: Phrase, name: NoteName, meant: NoteName) -> Finding:
    """Return the finding, at the first note of that name, or at none where it is a chord's."""
    where = next(
        ((index, note) for index, note in enumerate(sounding_notes(phrase)) if note.pitch.name == meant), None
    )
    names = {"said": Note(name), "score": Note(meant)}
    finding = Finding(
        CONTRADICTED,
        "warning",
        None if where is None else where[1].bar,
        None if where is None else where[1].beat,
        note=None if where is None else where[0],
        told=Told(
            saying("finding.commentary-names", **names), saying("finding.commentary-names.mend", **names)
        ),
    )
    return finding_in(finding, COMMAND_LINE)
