"""A phrase in a key as the reader of an edition sees it, with all that cards and videos say of it."""

from __future__ import annotations

from dataclasses import dataclass

from shedbook.analysis.account import Account, account
from shedbook.book.ground.words import Words, words_of
from shedbook.book.manuscript.choice import asked_key, chosen_editions
from shedbook.book.manuscript.opening import Manuscript
from shedbook.book.manuscript.settings.pages import MarkChoice
from shedbook.book.manuscript.source import PhraseSource
from shedbook.book.manuscript.unread_places import read_every_place
from shedbook.book.scores.inputs import key_order, looks_of
from shedbook.book.scores.placing import placing_of
from shedbook.book.scores.study import Studied, marks_of, study
from shedbook.editions.fingering.tab import Tab
from shedbook.editions.instruments.edition import Edition
from shedbook.editions.keys.phrase_in_key import in_key
from shedbook.engrave.notation.study_marks import NO_STUDY_MARKS, StudyMarks
from shedbook.phrase.model import Phrase
from shedbook.theory.key import Key

_MARKS = MarkChoice(scales=True, degrees=True, sparse=True)


@dataclass(frozen=True, slots=True)
class ReaderScore:
    """A phrase in one key: as it sounds, as its reader sees it, and the account of what the reader sees.

    `number` is its number in the book, `digits` how many figures the largest number has.
    """

    source: PhraseSource
    sounding: Phrase
    written: Phrase
    account: Account
    tab: Tab | None
    edition: Edition
    words: Words
    marks: StudyMarks
    digits: int
    signature: bool
    courtesy: str

    @property
    def number(self) -> int:
        """Its number in the book."""
        return self.source.number

    @property
    def key(self) -> Key:
        """The key in which it sounds."""
        return self.sounding.key

    @property
    def facts(self) -> str:
        """The key that its reader sees, and the tempo."""
        return f"{self.words.whole_key(str(self.written.key))} · {self.written.tempo_bpm}"


def reader_score(
    source: PhraseSource,
    manuscript: Manuscript,
    *,
    key: str = "",
    edition: str = "concert",
) -> ReaderScore:
    """Return a phrase of a book in a key (its own for "") as the reader of an edition sees it.

    Raises:
        ReadError: if it cannot be read.
        UnknownNameError: for a key or an edition that is not there.
    """
    settings = manuscript.settings
    (reader, *_) = chosen_editions((edition,), settings)
    phrase = read_every_place(source)
    studied = study(phrase)
    placing = placing_of(studied, key_order(settings, (key,) if key else ()), reader)
    placed = placing.keys[0] if key else placing.home
    sounding = in_key(phrase, asked_key(key, phrase.key.mode)) if key else phrase
    words = words_of(settings.language, dict(settings.pages.words))
    return ReaderScore(
        source=source,
        sounding=sounding,
        written=placed.phrase,
        account=account(placed.phrase),
        tab=placed.tab,
        edition=reader,
        words=words,
        marks=marks_of(Studied(phrase, studied.account), _MARKS, words, home=True),
        digits=max(2, len(str(max(one.number for one in manuscript.phrases)))),
        signature=looks_of(settings).key.score.signature,
        courtesy=settings.courtesy,
    )


PLAIN, LANDINGS, FIGURES, LINKS = "plain", "landings", "figures", "links"
STAGES = (PLAIN, LANDINGS, FIGURES, LINKS)
"""How a card is built up: each stage has the marks of those before it."""


def marks_at(marks: StudyMarks, stage: str) -> StudyMarks:
    """Return those of a phrase's marks that are seen at a stage of the build-up; scales stand from the start.

    From the first stage on a card with all its marks keeps its places, so that it stands still.
    """
    place = STAGES.index(stage)
    under = marks.under if place >= 2 else {note: text for note, text in marks.under.items()
                                            if place and note in marks.landings}  # fmt: skip
    return StudyMarks(
        under=under,
        scales=marks.scales,
        landings=marks.landings if place else frozenset(),
        links=marks.links if place >= STAGES.index(LINKS) else (),
        shorter=marks.shorter,
    )


__all__ = ["NO_STUDY_MARKS", "STAGES", "ReaderScore", "marks_at", "reader_score"]
