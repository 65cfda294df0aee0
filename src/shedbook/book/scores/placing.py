"""A phrase placed for an edition: its keys by name, its registers, and what its reader is told. Pure."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from typing import NamedTuple

from shedbook.analysis.account.inseparable_notes import inseparable_notes
from shedbook.analysis.naming.prose_names import prose_language
from shedbook.analysis.telling import explain
from shedbook.book.ground.findings import PhraseFinding
from shedbook.book.ground.told_findings import own
from shedbook.book.ground.words import EN, Words
from shedbook.book.manuscript.choice import asked_key
from shedbook.book.scores.artefacts import CycleKey, PlacingCard
from shedbook.book.scores.edition_sayings import edition_sayings
from shedbook.book.scores.inputs import KeyOrder
from shedbook.book.scores.own_sentences import with_own_sentences
from shedbook.book.scores.reader_commentary import reader_commentary
from shedbook.book.scores.study import Studied, study
from shedbook.book.scores.written_scales import written_scales
from shedbook.editions.instruments.edition import Edition
from shedbook.editions.keys.reader_keys import ReaderKey, phrase_keys
from shedbook.editions.reader_part import EditionFinding, ReaderPart, reader_parts
from shedbook.phrase.model import Phrase, sounding_notes
from shedbook.theory.metre import beat_words

_NAMES_NOTES = re.compile(
    r"\b(?:[A-G](?:[#b♯♭]|[ -](?:flat|sharp|major|minor)\b)\S*|[B-G](?=\W|$)|A(?=[.,;:!?)]|$)"
    r"|[A-G](?:m|maj|dim|[2-9])\S*)"
)
"""A text that names notes, chords or keys, in a language whose names are not known."""


@dataclass(frozen=True, slots=True)
class Placing:
    """A phrase in its home key, and in all keys that are wanted, as the reader of an edition sees it."""

    home: ReaderPart
    keys: tuple[ReaderPart, ...]

    @property
    def findings(self) -> tuple[EditionFinding, ...]:
        """What is said of its keys, each once."""
        return tuple(dict.fromkeys(one for placed in (*self.keys, self.home) for one in placed.findings))


class Keys(NamedTuple):
    """The keys of a phrase by name: its home key, the author's whole order, and those that were asked for."""

    home: ReaderKey
    cycle: tuple[ReaderKey, ...]
    asked: tuple[ReaderKey, ...]

    @property
    def wanted(self) -> tuple[ReaderKey, ...]:
        """The keys that are printed."""
        return self.asked or self.cycle


@lru_cache(maxsize=16)
def keys_of(phrase: Phrase, wishes: KeyOrder, edition: Edition) -> Keys:
    """Return the keys of a phrase in an edition; one that was asked for has the name that it was asked by.

    Kept, for a phrase's card and its placing both ask.
    """
    prefer, written = wishes.enharmonic, wishes.written
    asked = tuple(
        phrase_keys(
            phrase, edition, (asked_key(tonic, phrase.key.mode).tonic,), prefer=prefer, written=written
        )[0]
        for tonic in wishes.asked
    )
    named = {_sound(key): key for key in asked}
    cycle = phrase_keys(phrase, edition, wishes.order, prefer=prefer, written=written)
    cycle = tuple(named.get(_sound(key), key) for key in cycle)
    named = {_sound(key): key for key in cycle} | named
    home = phrase_keys(phrase, edition, prefer=prefer)[0]
    return Keys(named.get(_sound(home), home), cycle, asked)


def placing_of(studied: Studied, wishes: KeyOrder, edition: Edition) -> Placing:
    """Return a phrase placed for an edition.

    The registers of the whole order are chosen together, whichever keys are asked for; a key that is not in
    the author's order is placed by itself.

    Raises:
        ShedbookError: if in some key no octave lies between A0 and C8.
    """
    keys = keys_of(studied.phrase, wishes, edition)
    home, *wanted = placed_in(studied, keys.cycle, (keys.home, *keys.wanted), edition)
    return Placing(home, tuple(wanted))


def placed_in(
    studied: Studied, cycle: Sequence[ReaderKey], wanted: Sequence[ReaderKey], edition: Edition
) -> tuple[ReaderPart, ...]:
    """Return a phrase in each wanted key.

    The registers of the `cycle` are chosen together; a key that is not in it is placed by itself.

    Raises:
        ShedbookError: if in some key no octave lies between A0 and C8.
    """
    phrase = studied.phrase
    fold = bool(phrase.fold)
    held = inseparable_notes(studied.account) if fold else ()
    there = {_sound(one.key): one for one in reader_parts(phrase, cycle, edition, fold=fold, held=held)}
    for key in wanted:
        if _sound(key) not in there:
            (there[_sound(key)],) = reader_parts(phrase, [key], edition, fold=fold, held=held)
    return tuple(there[_sound(key)] for key in wanted)


def _sound(key: ReaderKey) -> int:
    return key.concert.tonic.pitch_class


def placing_card(
    studied: Studied,
    wishes: KeyOrder,
    edition: Edition,
    silenced: Sequence[str],
    words: Words = EN,
    *,
    language: str = "en",
) -> PlacingCard:
    """Return what the book must know of a phrase in an edition besides its pictures.

    `language` is the tag of the language in which the author writes.

    Raises:
        ShedbookError: as `placing_of`.
    """
    placing = placing_of(studied, wishes, edition)
    home = placing.home
    scales = written_scales(studied, home.phrase, edition.clef)
    return PlacingCard(
        home=_cycle_key(home.key),
        keys=tuple(_cycle_key(one.key) for one in placing.keys),
        cycle=tuple(_cycle_key(key) for key in keys_of(studied.phrase, wishes, edition).cycle),
        explanation=reader_explanation(studied, home, words, language),
        scales=tuple(scale.name for scale in scales),
        transposes=edition.transposes,
        names_concert=(
            edition.transposes
            and not prose_language(language)
            and _NAMES_NOTES.search(studied.phrase.commentary) is not None
        ),
        findings=tuple(_plain(one, words) for one in placing.findings if one.rule not in silenced),
        commentary=reader_commentary(studied.phrase, home.phrase, language, words),
    )


def _cycle_key(key: ReaderKey) -> CycleKey:
    return CycleKey(str(key.concert), str(key.written))


def reader_explanation(
    studied: Studied, home: ReaderPart, words: Words = EN, language: str = "en"
) -> tuple[str, ...]:
    """Return the sentences that say why a phrase works, by the names that its reader sees in the home key.

    A sentence that the author has written anew stands in the author's words.
    """
    before, seen = sounding_notes(studied.phrase), sounding_notes(home.phrase)
    same = studied.phrase.changes == home.phrase.changes and all(
        one.pitch.name == other.pitch.name for one, other in zip(before, seen, strict=True)
    )
    seen_account = (studied if same else study(home.phrase)).account
    told = explain(seen_account, with_commentary=False, words=words)
    if not studied.phrase.sentences:
        return told
    own = told if same else explain(studied.account, with_commentary=False, words=words)
    return with_own_sentences(studied.phrase, home.phrase, own, told, language=language, words=words)


def _plain(finding: EditionFinding, words: Words) -> PhraseFinding:
    """Return a finding of an edition as the book keeps it, in English and in the words of the book."""
    message, mend = own(*edition_sayings(finding.told), words)
    return PhraseFinding(
        finding.rule,
        finding.severity,
        finding.bar,
        beat_words(finding.beat),
        finding.message,
        finding.mend,
        finding.edition,
        str(finding.key.written),
        message,
        mend,
    )
