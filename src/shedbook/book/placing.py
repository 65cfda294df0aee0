"""A phrase placed for an edition: its keys by name, its registers, and what its reader is told. Pure."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from typing import Any, NamedTuple

from shedbook.analysis.account.inseparable_notes import inseparable_notes
from shedbook.analysis.telling import explain
from shedbook.book.choice import asked_key
from shedbook.book.plan import KeyOrder
from shedbook.book.study import Studied, study
from shedbook.book.words import EN, Words
from shedbook.book.written_scales import scale_data, written_scales
from shedbook.editions.edition import Edition, ReaderKey
from shedbook.editions.phrase_keys import phrase_keys
from shedbook.editions.place import EditionFinding, Placed, place
from shedbook.phrase.model import Phrase, sounding_notes
from shedbook.theory.metre import beat_words

_NAMES_NOTES = re.compile(
    r"\b(?:[A-G](?:[#b♯♭]|[ -](?:flat|sharp|major|minor)\b)\S*|[B-G](?=\W|$)|A(?=[.,;:!?)]|$)"
    r"|[A-G](?:m|maj|dim|[2-9])\S*)"
)
"""A text that names notes, chords or keys; "A" alone only where it can be no article."""


@dataclass(frozen=True, slots=True)
class Placing:
    """A phrase in its home key, and in all keys that are wanted, as the reader of an edition sees it."""

    home: Placed
    keys: tuple[Placed, ...]

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
    phrase = studied.phrase
    keys = keys_of(phrase, wishes, edition)
    fold = bool(phrase.fold)
    held = inseparable_notes(studied.account) if fold else ()
    there = {_sound(one.key): one for one in place(phrase, keys.cycle, edition, fold=fold, held=held)}
    for key in (*keys.asked, keys.home):
        if _sound(key) not in there:
            (there[_sound(key)],) = place(phrase, [key], edition, fold=fold, held=held)
    return Placing(there[_sound(keys.home)], tuple(there[_sound(key)] for key in keys.wanted))


def _sound(key: ReaderKey) -> int:
    return key.concert.tonic.pitch_class


def placing_card(
    studied: Studied, placing: Placing, edition: Edition, silenced: Sequence[str], words: Words = EN
) -> dict[str, Any]:
    """Return what the book must know of a phrase in an edition besides its scores, as a JSON object.

    `home` and `keys` are written keys, `home_concert` and `concert` the same as they sound.
    """
    home = placing.home
    return {
        "key": str(home.key.written),
        "home": str(home.key.written),
        "home_concert": str(home.key.concert),
        "keys": [str(one.key.written) for one in placing.keys],
        "concert": [str(one.key.concert) for one in placing.keys],
        "explanation": list(reader_explanation(studied, home, words)),
        "scales": scale_data(written_scales(studied, home.phrase, edition.clef), words),
        "names_concert": edition.transposes and _NAMES_NOTES.search(studied.phrase.commentary) is not None,
        "findings": [plain(one) for one in placing.findings if one.rule not in silenced],
    }


def reader_explanation(studied: Studied, home: Placed, words: Words = EN) -> tuple[str, ...]:
    """Return the sentences that say why a phrase works, by the names that its reader sees in the home key."""
    before, seen = sounding_notes(studied.phrase), sounding_notes(home.phrase)
    same = studied.phrase.changes == home.phrase.changes and all(
        one.pitch.name == other.pitch.name for one, other in zip(before, seen, strict=True)
    )
    seen_account = (studied if same else study(home.phrase)).account
    return explain(seen_account, with_commentary=False, words=words)


def reader_words(key: ReaderKey, *, transposes: bool) -> str:
    """Return a key as a reader knows it, the concert key beside it: "D minor (concert C minor)"."""
    return f"{key.written} (concert {key.concert})" if transposes else str(key.written)


def plain(finding: EditionFinding) -> dict[str, Any]:
    """Return a finding of an edition as JSON values."""
    return {
        "rule": finding.rule,
        "severity": finding.severity,
        "bar": finding.bar,
        "beat": beat_words(finding.beat),
        "message": finding.message,
        "mend": finding.mend,
        "edition": finding.edition,
        "key": str(finding.key.written),
    }
