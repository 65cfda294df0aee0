"""Score cards for the screen: pictures of phrases for a lesson, to lay over a film, or to post."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from shedbook.book.ground.progress import Step, Tell
from shedbook.book.ground.words import language_of_words
from shedbook.book.ground.writing import refused
from shedbook.book.lessons.reader_scores import (
    FIGURES,
    LINKS,
    STAGES,
    ReaderScore,
    marks_at,
    reader_score,
)
from shedbook.book.lessons.screen_scores import ScreenScore, screen_scores
from shedbook.book.manuscript.choice import chosen_phrases
from shedbook.book.manuscript.file_names import file_words
from shedbook.book.manuscript.opening import Manuscript, open_manuscript
from shedbook.book.pages.typst_door import card_png
from shedbook.book.scores.spoken_text import score_text
from shedbook.book.verbs.exported_files import put_files
from shedbook.book.workshop.output_folder import claim
from shedbook.engrave.notation.study_marks import NO_STUDY_MARKS
from shedbook.errors import UnknownNameError, nearest
from shedbook.film.card import (
    BLACK,
    NONE,
    SCREEN_NAMES,
    WHITE,
    Figured,
    ScorePicture,
    card_of,
    rooms_of,
    screen_named,
)
from shedbook.film.tables.screens import ScreenRow

ALL, NO_MARKS, BUILD_UP = "all", "none", "build-up"
MARKS = (ALL, NO_MARKS, BUILD_UP)
INKS = {"black": BLACK, "white": WHITE}


@dataclass(frozen=True, slots=True)
class CardsOrder:
    """Which cards are wanted.

    `phrases` are numbers and ranges of numbers, none for all; `screens` names of kinds of cards, none for
    all; `key` a tonic, "" for each phrase's own. `marks` is one of MARKS. `title` and `author` stand in the
    place of the phrase's title and the book's author; "" leaves them out, None leaves them as they are.
    """

    manuscript: Path
    out: Path
    phrases: tuple[str, ...] = ()
    screens: tuple[str, ...] = ()
    key: str = ""
    edition: str = "concert"
    marks: str = ALL
    transparent: bool = False
    ink: str = "black"
    title: str | None = None
    author: str | None = None


def make_cards(order: CardsOrder, tell: Tell | None = None) -> tuple[Path, ...]:
    """Write the cards and, beside those of each phrase, what to say of them to those who cannot see them.

    Raises:
        ReadError: if a phrase cannot be read.
        UnknownNameError: for a phrase, key, edition or kind of card that is not there.
        OutputError: if the folder is not ours or cannot be written.
    """
    screens = [screen_named(name) for name in order.screens or SCREEN_NAMES]
    if order.marks not in MARKS:
        raise UnknownNameError(
            f'"{order.marks}" is no choice of marks.',
            hint=nearest(order.marks, MARKS) or f"Write one of {', '.join(MARKS)}.",
        )
    manuscript = open_manuscript(order.manuscript)
    files: dict[str, bytes] = {}
    sources = chosen_phrases(manuscript.phrases, order.phrases)
    for place, source in enumerate(sources):
        if tell is not None:
            tell(Step("cards", place, len(sources), source.title))
        score = reader_score(source, manuscript, key=order.key, edition=order.edition)
        stem = stem_of(score, keyed=bool(order.key))
        for row in screens:
            for name, content in _cards(score, row, order, manuscript):
                files[f"{stem}-{name}.png"] = content
        files[f"{stem}.txt"] = (score_text(score.written, score.words, score.tab) + "\n").encode()
    claim(order.out)
    with refused(order.out):
        put_files(order.out, files)
    return tuple(order.out / name for name in files)


def stem_of(score: ReaderScore, *, keyed: bool = False) -> str:
    """Return how the names of a phrase's files begin: its number and the words of its title."""
    named = f"{score.number:0{score.digits}}-{file_words(score.source.title)}"
    return f"{named}-{file_words(str(score.key.tonic))}" if keyed else named


def _cards(
    score: ReaderScore, row: ScreenRow, order: CardsOrder, manuscript: Manuscript
) -> Iterator[tuple[str, bytes]]:
    """Yield the end of the name and the bytes of each card of a phrase for one screen."""
    said = (
        score.source.title if order.title is None else order.title,
        score.facts,
        manuscript.settings.author if order.author is None else order.author,
    )
    language = language_of_words(manuscript.settings.language)
    stages = STAGES if order.marks == BUILD_UP else (LINKS,) if order.marks == ALL else ("",)
    for stage in stages:
        pictures = pictures_of(score, row, stage)
        figures = figures_of(score) if stage in (FIGURES, LINKS) else ()
        for place, picture in enumerate(pictures, 1):
            card = card_of(
                row, picture, said,
                ground=NONE if order.transparent else WHITE if order.ink == "black" else BLACK,
                ink=INKS[order.ink], figures=figures, language=language,
            )  # fmt: skip
            name = row.name
            name += f"-{STAGES.index(stage) + 1}-{stage}" if order.marks == BUILD_UP else ""
            name += f"-part-{place}" if len(pictures) > 1 else ""
            yield name, card_png(card)


def pictures_of(
    score: ReaderScore, row: ScreenRow, stage: str, *, captions: bool = False
) -> tuple[ScorePicture, ...]:
    """Return a phrase as pictures for a screen, with the marks of a stage; "" for none at all."""
    marks = score.marks if stage else NO_STUDY_MARKS
    shown = marks_at(score.marks, stage) if stage else None
    engraved = ScreenScore(
        score.written, marks, shown, score.tab, score.edition.clef, score.signature, score.courtesy
    )
    return screen_scores(engraved, row, rooms_of(row, captions=captions).score)


def figures_of(score: ReaderScore) -> tuple[Figured, ...]:
    """Return the figures of a phrase by their names in its book's language."""
    return tuple(
        Figured(one.kind, score.words.named("device", one.kind), one.first, one.last)
        for one in score.account.figures
    )
