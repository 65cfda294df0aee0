"""The explanation: what a teacher would say of a phrase, in a few sentences.

Every sentence is a remark on the account. Of all that could be said the best set is chosen; the weightiest
of it comes first, the rest follows the line, then comes what to practise and where else the line fits.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from functools import partial

from shedbook.analysis.account import Account
from shedbook.analysis.devices.everything import devices
from shedbook.analysis.naming.language import ENGLISH, Words
from shedbook.analysis.telling.about_crossings import about_crossings
from shedbook.analysis.telling.about_harmony import about_harmony
from shedbook.analysis.telling.about_lines import about_lines
from shedbook.analysis.telling.about_notes import about_notes
from shedbook.analysis.telling.about_other_homes import about_other_homes
from shedbook.analysis.telling.about_rhythm import about_rhythm
from shedbook.analysis.telling.practice import practice
from shedbook.analysis.telling.reader_names import ReaderNames, reader_names
from shedbook.analysis.telling.remark import ALONG, Remark
from shedbook.analysis.telling.selection import best_set
from shedbook.analysis.telling.slots import Bar, BarNumber, Over, When, named_notes, with_degrees

MOST = 7
"""How many sentences an explanation has at most, besides the author's own [the project's design]."""

_FEWEST_ROOM, _WITH_COMMENTARY = 4, 4
_LEADS_FROM = 70
"""What a remark is worth at least that is told before everything else."""


def explain(account: Account, *, with_commentary: bool = True, words: Words = ENGLISH) -> tuple[str, ...]:
    """Return the sentences of the explanation, after the author's commentary where there is one.

    Notes and chords are named as the account's reader sees them: in concert pitch, or in the part of their
    instrument. `words` are those of the reader's language. A phrase without notes gets one sentence that says
    so; any other gets one to seven, and four at most after the author's own.

    Raises:
        MissingRowError: if the words have no row for something that is to be said.
    """
    own = account.phrase.commentary.strip() if with_commentary else ""
    before = (own,) if own else ()
    if not account.notes:
        return (*before, words.sentence(words("no notes")))
    say = reader_names(account, words)
    return before + tuple(words.sentence(text) for text in _told(told_remarks(account, own=bool(own)), say))


def notes_of_sentences(account: Account) -> tuple[tuple[int, ...], ...]:
    """Return for each sentence of `explain`, without the author's commentary, the notes that it speaks of.

    They are those that it names; where it names none, those that it explains, those over the chords or in the
    bars that it names. A sentence on the whole phrase has none.
    """
    if not account.notes:
        return ((),)
    return tuple(_shown(account, remark) for remark in told_remarks(account))


def _shown(account: Account, remark: Remark) -> tuple[int, ...]:
    slots = remark.slots.values()
    named = {note for slot in slots for note in named_notes(slot)} or set(remark.about)
    if not named:
        spans = {slot.span for slot in slots if isinstance(slot, Over)}
        bars = {
            bar
            for slot in slots
            if isinstance(slot, BarNumber)
            for bar in range(slot.first, (slot.last or slot.first) + 1)
        }
        named = {note.index for note in account.notes if note.span.index in spans or note.bar in bars}
    return tuple(sorted(named))


def told_remarks(account: Account, *, own: bool = False) -> tuple[Remark, ...]:
    """Return what is told of a phrase with notes, in order; `own` leaves room for the author's own words."""
    room = min(_WITH_COMMENTARY, _room(account)) if own else _room(account)
    chosen = best_set(list(offers(account)), room, partial(gist, account))
    topics = {(remark.topic, remark.first) for remark in chosen if remark.part == ALONG}
    chosen = tuple(
        replace(one, kind=f"{one.kind} told") if (one.recalls, one.first) in topics else one for one in chosen
    )
    leads = [remark for remark in chosen if remark.leads and remark.worth >= _LEADS_FROM]
    head = max(leads, key=lambda one: (one.worth, -one.first), default=None)
    rest = [remark for remark in chosen if remark is not head]
    rest.sort(key=lambda one: (one.part, one.first, -one.worth))
    return (*(() if head is None else (head,)), *rest)


def gist(account: Account, remark: Remark) -> tuple[object, ...]:
    """Return what makes the sentence of a remark unlike others of its kind: its names, and no place."""
    found: list[object] = []
    for slot in remark.slots.values():
        for note in named_notes(slot):
            one = account.notes[note]
            found.append((one.midi % 12, one.degree, one.span.chord.meaning))
        if isinstance(slot, Over):
            found.append(account.spans[slot.span].chord.meaning)
        elif not isinstance(slot, (Bar, BarNumber, When)) and not named_notes(slot):
            found.append(slot)
    return tuple(found)


def notes_told(account: Account) -> frozenset[int]:
    """Return the notes of which the explanation says by name what they are over their chord."""
    if not account.notes:
        return frozenset()
    return frozenset(note for remark in told_remarks(account) for note in with_degrees(remark.slots))


def offers(account: Account) -> Iterator[Remark]:
    """Yield every remark that there is on an account with notes."""
    seen = devices(account)
    yield from about_lines(account, seen)
    yield from about_harmony(account)
    yield from about_crossings(account, seen)
    yield from about_notes(account)
    yield from about_rhythm(account)
    yield from practice(account, seen)
    yield from about_other_homes(account)


def _room(account: Account) -> int:
    """Return how many sentences the music deserves: more notes give more to say."""
    return min(MOST, _FEWEST_ROOM + sum(len(account.notes) >= many for many in (12, 22, 48)))


def _told(remarks: tuple[Remark, ...], say: ReaderNames) -> Iterator[str]:
    """Yield the sentences; one that does not say where it is gets its bar where that changes."""
    bar = say.bar_number(say.account.notes[0])
    for remark in remarks:
        text = remark.said(say)
        at = say.bar_number(say.account.notes[remark.first])
        if remark.part == ALONG and not remark.placed and at != bar:
            text = say.placed(at, text)
        bar = at if remark.part == ALONG else bar
        yield text
