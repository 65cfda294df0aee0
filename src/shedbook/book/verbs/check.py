"""The proof-reading of a manuscript: every finding, with its place in the author's files.

Every place that cannot be read is a finding too, and the phrases after it are still read.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from pathlib import Path

from shedbook.analysis.account import Account, account
from shedbook.analysis.proof import Finding, proof, proof_book, unknown_silences
from shedbook.book.ground.told_findings import COMMAND_LINE
from shedbook.book.manuscript.choice import chosen_editions
from shedbook.book.manuscript.opening import MANUSCRIPT_FILE, Manuscript, open_manuscript, place_in_book
from shedbook.book.manuscript.settings.whole_book import CONCERT, Settings
from shedbook.book.manuscript.source import PhraseSource, locate, read_phrase
from shedbook.book.manuscript.tablature import RULE, without_tablature
from shedbook.book.manuscript.translation import translation_findings
from shedbook.book.manuscript.unread_places import unread_places
from shedbook.book.scores.author_findings import author_findings
from shedbook.book.scores.inputs import key_order
from shedbook.book.scores.placing import keys_of, placing_of
from shedbook.book.scores.study import EDITION_RULE_NAMES, Studied
from shedbook.book.tracks.orders import Playable
from shedbook.book.tracks.plan import track_orders
from shedbook.book.tracks.recordings import UNUSED, check_recordings, check_sound_font, unused_recordings
from shedbook.editions.instruments.edition import AUTHOR, Edition, edition_named
from shedbook.errors import NotationError, Place, ReadError
from shedbook.phrase.line_text import event_spans
from shedbook.phrase.model import Phrase, sounding_notes
from shedbook.theory.metre import beat_from_words, beat_words

UNREADABLE = "unreadable"
"""The rule name under which `check` reports what cannot be read."""


@dataclass(frozen=True, slots=True)
class Placed:
    """A finding and where it stands: file, line, column, phrase, bar and beat."""

    finding: Finding
    place: Place


@dataclass(frozen=True, slots=True)
class Checked:
    """A manuscript, its accounts by phrase, and everything found, in the order of the book."""

    manuscript: Manuscript
    found: tuple[Placed, ...]

    @property
    def errors(self) -> int:
        """How many findings are errors."""
        return sum(1 for placed in self.found if placed.finding.severity == "error")


def check(path: str | Path) -> Checked:
    """Proof-read a manuscript or a phrase file.

    Raises:
        ManuscriptError: if the manuscript itself cannot be opened; single phrases become findings.
    """
    manuscript = open_manuscript(path, keep_going=True)
    silenced = manuscript.settings.silenced
    found = [unreadable(error) for error in manuscript.unread]
    read: list[tuple[PhraseSource, Account]] = []
    editions = chosen_editions((), manuscript.settings)
    for source in manuscript.phrases:
        try:
            seen = account(read_phrase(source))
        except ReadError:
            found += [unreadable(error) for error in unread_places(source)]
            continue
        read.append((source, seen))
        findings = (
            *proof(seen, silenced=silenced, also_known=EDITION_RULE_NAMES),
            *author_findings(seen, silenced=silenced, language=manuscript.settings.language),
            *_of_editions(seen, manuscript.settings, editions),
        )
        found += [Placed(finding, place_of(finding, source, seen)) for finding in findings]
    found += _between(read, silenced)
    found += [
        Placed(finding, place_in_book(manuscript, "silence", rule))
        for rule in silenced
        for finding in unknown_silences((rule,), silenced, EDITION_RULE_NAMES)
    ]
    if RULE.name not in silenced:
        found += [
            Placed(
                Finding(RULE.name, RULE.severity, None, None, message.said(COMMAND_LINE), RULE.mend),
                place_in_book(manuscript, "tablature", ""),
            )
            for message in without_tablature(editions, manuscript.settings.tablature)
        ]
    found += [
        Placed(
            Finding(one.rule, one.severity, None, None, one.message, one.mend),
            place_in_book(manuscript, "language", ""),
        )
        for one in translation_findings(manuscript.settings, MANUSCRIPT_FILE)
    ]
    try:
        check_sound_font(manuscript)
    except ReadError as error:
        found.append(unreadable(error))
    else:
        found += _of_recordings(manuscript, read)
    order = {source.file: source.number for source in reversed(manuscript.phrases)}
    found.sort(key=lambda placed: (order.get(placed.place.file, 0), placed.place.line or 0))
    return Checked(manuscript, tuple(found))


def _of_editions(seen: Account, settings: Settings, editions: Sequence[Edition]) -> Iterator[Finding]:
    """Yield what is found of a phrase in the keys of the manuscript's editions."""
    wishes = key_order(settings)
    for edition in editions:
        if edition.policy == AUTHOR:
            continue
        for one in placing_of(Studied(seen.phrase, seen), wishes, edition).findings:
            if one.rule not in settings.silenced:
                yield Finding(one.rule, one.severity, one.bar, one.beat, one.message, one.mend, one.note)


def _of_recordings(manuscript: Manuscript, read: list[tuple[PhraseSource, Account]]) -> Iterator[Placed]:
    """Yield what is found of the author's recordings: those that lead nowhere, or replace no track."""
    tracks = manuscript.settings.tracks
    if not (tracks.recordings or tracks.phrases) or len(read) < len(manuscript.phrases) or manuscript.unread:
        return
    cards = [(source, _playable(seen.phrase, manuscript.settings)) for source, seen in read]
    nowhere = Path()
    try:
        orders = track_orders(manuscript, cards, nowhere, nowhere, "")
        check_recordings(manuscript, manuscript.phrases)
    except ReadError as error:
        yield unreadable(error)
        return
    for one in unused_recordings(manuscript, cards, orders):
        message, mend = (said.said(COMMAND_LINE) for said in (one.message, one.mend))
        yield Placed(Finding(UNUSED, "warning", None, None, message, mend), one.place)


def _playable(phrase: Phrase, settings: Settings) -> Playable:
    """Return what of a phrase decides its tracks."""
    keys = keys_of(phrase, key_order(settings), edition_named(CONCERT))
    concert = tuple(str(key.concert) for key in keys.cycle)
    return Playable(phrase.title, str(keys.home.concert), concert, phrase.tempo_bpm, phrase.feel)


def _between(read: list[tuple[PhraseSource, Account]], silenced: tuple[str, ...]) -> Iterator[Placed]:
    """Yield what is found between the phrases of a book."""
    for finding in proof_book([seen for _, seen in read], silenced=silenced):
        source, seen = read[finding.phrase]
        yield Placed(finding, place_of(finding, source, seen))


def unreadable(error: ReadError) -> Placed:
    """Return what cannot be read as a finding, with the bar and beat that the error names."""
    place = error.place or Place()
    beat = beat_from_words(place.beat) if place.beat else None
    return Placed(Finding(UNREADABLE, "error", place.bar, beat, error.message, error.hint), place)


def place_of(finding: Finding, source: PhraseSource, seen: Account) -> Place:
    """Return where in the author's file a finding stands; a phrase as a whole stands at its title."""
    beat = "" if finding.beat is None else beat_words(finding.beat)
    start, end, field = _span(finding, source, seen)
    error = locate(NotationError("", start=start, end=end, field=field), source)
    place = error.place or Place(file=source.file)
    return replace(place, phrase=source.title, bar=finding.bar, beat=beat)


def _span(finding: Finding, source: PhraseSource, seen: Account) -> tuple[int, int, str]:
    """Return start, end and key of the text that a finding is about."""
    line = source.fields.get("line")
    if finding.bar is None or not isinstance(line, str):
        return 0, 1, "title"
    spans = event_spans(line)
    index = next(
        (place for place, bar in enumerate(seen.phrase.bars) if bar.number == finding.bar), len(spans)
    )
    if index >= len(spans):
        return 0, 1, "line"
    bar = spans[index]
    if finding.note is not None:
        bar_index, event_index = sounding_notes(seen.phrase)[finding.note].event
        start, end = spans[bar_index][event_index]
    else:
        start, end = bar[0][0], bar[-1][1]
    return start, end, "line"
