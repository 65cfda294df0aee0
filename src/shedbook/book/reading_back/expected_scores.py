"""Which scores a book should hold, in the order of its pages, each with the phrase that it should show."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field

from shedbook.book.ground.words import Words, words_of
from shedbook.book.manuscript.settings.pages import BY_KEY as ARRANGED_BY_KEY
from shedbook.book.pages.data import BookData, KeyScore, PageData
from shedbook.book.scores.artefacts import CycleKey, PlacingCard
from shedbook.book.scores.engraving import Reading
from shedbook.book.scores.inputs import Music, music_of, spoken_language
from shedbook.book.scores.study import marks_of
from shedbook.book.scores.worker import PhraseOrder
from shedbook.book.scores.written_scales import WrittenScale, written_scales
from shedbook.editions.fingering.tab import Tab
from shedbook.editions.instruments.edition import Edition
from shedbook.editions.spelling.courtesy_accidentals import courtesies
from shedbook.phrase.model import Phrase, sounding_notes

HOME, KEY, PROOF, BY_KEY, SCALE = "home", "key", "proof", "by key", "scale"


@dataclass(frozen=True, slots=True)
class Expected:
    """A score that a book should hold.

    Attributes:
        kind: which part of the book it stands in: `HOME`, `KEY`, `PROOF`, `BY_KEY` or `SCALE`.
        number: the number of its phrase.
        title: the title of its phrase.
        phrase: the phrase in the key and the pitch in which it is printed.
        tonic: the tonic of its key as the book's language names it.
        mode: its mode in the same way.
        scale: the scale, where it is one.
        tab: the strings and frets, where tablature stands under the staff.
        signature: whether its key signature is printed.
        reminders: the struck notes that show a courtesy accidental.
        moved: whether it sounds as the author wrote it, moved by one interval throughout.
        under: by struck note the degree that stands under it.
        feel: the words for the feel, where feel and tempo stand over it; "" where they do not.
    """

    kind: str
    number: int
    title: str
    phrase: Phrase
    tonic: str
    mode: str
    scale: WrittenScale | None = None
    tab: Tab | None = None
    signature: bool = False
    reminders: frozenset[int] = frozenset()
    moved: bool = True
    under: Mapping[int, str] = field(default_factory=dict)
    feel: str = ""


class _Placed:
    """One phrase of the book placed in its keys, each key once."""

    def __init__(self, order: PhraseOrder, edition: Edition, card: PlacingCard) -> None:
        self._order = order
        self._edition = edition
        self._card = card
        self._reading = Reading()
        self._music: Music = music_of(order.source.text, edition, card, order.settings)
        language = spoken_language(order.settings)
        self._words: Words = words_of(language.tag, dict(language.own))

    def home(self) -> Expected:
        return self._expected(HOME, self._card.home)

    def key(self, kind: str, written: str) -> Expected:
        return self._expected(kind, next(key for key in self._card.keys if key.written == written))

    def scales(self) -> Iterator[Expected]:
        home = self.home()
        studied = self._reading.study(self._music.text, self._music.chord_style)
        for scale in written_scales(studied, home.phrase, self._edition.clef):
            yield Expected(SCALE, home.number, home.title, home.phrase, home.tonic, home.mode, scale)

    def _under(self, kind: str) -> Mapping[int, str]:
        studied = self._reading.study(self._music.text, self._music.chord_style)
        choice = self._order.settings.pages.marks
        return marks_of(studied, choice, self._words, home=kind == HOME).under

    def _feel(self, phrase: Phrase) -> str:
        return self._words.sentence(self._words.named("feel", phrase.feel))

    def _expected(self, kind: str, key: CycleKey) -> Expected:
        everything = [self._card.home, *self._card.keys]
        part = self._reading.place(self._music, everything)[everything.index(key)]
        settings = self._order.settings
        source = self._reading.study(self._music.text, self._music.chord_style).phrase
        semitones = part.semitones + self._edition.transposition.semitones
        before = [note.pitch.midi + semitones for note in sounding_notes(source)]
        after = [note.pitch.midi for note in sounding_notes(part.phrase)]
        tonic, mode = self._words.key(str(part.phrase.key))
        return Expected(
            kind=kind,
            number=self._order.source.number,
            title=self._order.source.title,
            phrase=part.phrase,
            tonic=tonic,
            mode=mode,
            tab=part.tab,
            signature=settings.signatures,
            reminders=courtesies(
                part.phrase, settings.courtesy, signature=part.phrase.key if settings.signatures else None
            ),
            moved=part.fold is not None or before == after,
            under=self._under(kind),
            feel=self._feel(source) if kind == HOME or settings.pages.arrange == ARRANGED_BY_KEY else "",
        )


def expected_scores(
    data: PageData, orders: Iterable[PhraseOrder], edition: Edition, cards: Mapping[int, PlacingCard]
) -> Iterator[Expected]:
    """Yield the scores of a book in the order of its pages.

    Args:
        data: what the template of the book prints; only the order of phrases and keys is taken from it.
        orders: the phrases of the book.
        edition: the edition of the book.
        cards: what the store knows of each phrase in the edition, by the phrase's number.
    """
    placed = {order.source.number: _Placed(order, edition, cards[order.source.number]) for order in orders}
    if not isinstance(data, BookData):
        for phrase in data.phrases:
            yield from _keys(placed, PROOF, phrase.number, phrase.scores)
        return
    for part in data.parts:
        for one in part.phrases:
            yield placed[one.number].home()
            yield from placed[one.number].scales()
            for page in one.pages:
                yield from _keys(placed, KEY, one.number, page.scores)
    for key in data.by_key:
        for score in (score for page in key.pages for score in page.scores):
            yield placed[score.number].key(BY_KEY, score.key)


def _keys(
    placed: Mapping[int, _Placed], kind: str, number: int, scores: Iterable[KeyScore]
) -> Iterator[Expected]:
    for score in scores:
        yield placed[number].key(kind, score.key)
