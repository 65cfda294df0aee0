"""A lesson plan of some phrases: plain text to read from and to edit, and the same as PDF with the scores.

A new run keeps what the author has edited in the text, and says what changed beneath it.
"""

from __future__ import annotations

import json
from collections.abc import Sequence
from dataclasses import dataclass, replace
from pathlib import Path

from shedbook.book.ground.words import Words, inside, language_of_words, words_of
from shedbook.book.ground.writing import put, refused
from shedbook.book.lessons.pages_data import LessonPages, PageBlock, PageScore
from shedbook.book.lessons.reader_scores import STAGES, ReaderScore, reader_score
from shedbook.book.manuscript.choice import chosen_phrases
from shedbook.book.manuscript.opening import Manuscript, open_manuscript
from shedbook.book.pages.typst_door import sheet_pdf
from shedbook.book.scores.inputs import key_order
from shedbook.book.scores.placing import keys_of
from shedbook.book.scores.spoken_text import score_text
from shedbook.book.verbs.cards import stem_of
from shedbook.book.workshop.output_folder import STORE, claim
from shedbook.engrave.drawing.score_drawing import draw
from shedbook.engrave.notation.score_style import ScoreStyle
from shedbook.errors import OutputError, ReadError
from shedbook.lesson.edits import Beneath, merged
from shedbook.lesson.plan import Lesson, LessonPhrase, plan, timed, times, untimed
from shedbook.lesson.script import HEAD, Block, printed, read
from shedbook.lesson.timing import WORDS_A_MINUTE

TEXT, PDF, RECORD = "lesson.txt", "lesson.pdf", "lesson.json"
_LINE_MM, _STAFF_MM = 164.0, 6.2
_MOST_BYTES = 2_000_000


@dataclass(frozen=True, slots=True)
class LessonOrder:
    """Which lesson is wanted: phrases by number, none for all; the player's instrument, "" for none."""

    manuscript: Path
    out: Path
    phrases: tuple[str, ...] = ()
    instrument: str = ""
    words_a_minute: int = WORDS_A_MINUTE


@dataclass(frozen=True, slots=True)
class LessonMade:
    """The files, the length in seconds, how many edits were kept, and what changed beneath them."""

    files: tuple[Path, ...]
    seconds: float
    own: int
    beneath: tuple[Beneath, ...]


def make_lesson(order: LessonOrder) -> LessonMade:
    """Write the plan of a lesson.

    Raises:
        ReadError: if a phrase, or the text that the author has edited, cannot be read.
        UnknownNameError: for a phrase or an instrument that is not there.
        OutputError: if the folder is not ours or cannot be written.
    """
    manuscript = open_manuscript(order.manuscript)
    settings = manuscript.settings
    words = words_of(settings.language, dict(settings.pages.words))
    scores = [
        reader_score(source, manuscript) for source in chosen_phrases(manuscript.phrases, order.phrases)
    ]
    owns = [
        reader_score(score.source, manuscript, edition=order.instrument) if order.instrument else None
        for score in scores
    ]
    lesson = _lesson(order, manuscript, words, scores, owns)
    now = plan(lesson, words)
    claim(order.out)
    kept = merged(*_before(order.out, now, words), now)
    text = timed(kept.blocks, lesson, words)
    pages = _pages(text, manuscript, words, scores, owns)
    files = {TEXT: printed(text).encode(), PDF: sheet_pdf("lesson.typ", pages)}
    record = json.dumps({"made": printed(now)}, ensure_ascii=False).encode()
    with refused(order.out):
        unfinished = order.out / STORE / "unfinished"
        for name, content in files.items():
            put(order.out / name, content, unfinished, lasting=True)
        put(order.out / STORE / RECORD, record, unfinished, lasting=True)
    seconds = sum(times(kept.blocks, lesson).values())
    return LessonMade(tuple(order.out / name for name in files), seconds, kept.own, kept.beneath)


def _lesson(
    order: LessonOrder,
    manuscript: Manuscript,
    words: Words,
    scores: Sequence[ReaderScore],
    owns: Sequence[ReaderScore | None],
) -> Lesson:
    settings = manuscript.settings
    instrument = ""
    if order.instrument and owns[0] is not None:
        edition = owns[0].edition
        row = f"edition.name.{edition.name}"
        instrument = words.table[row] if words.has(row) else edition.title
        if edition.instrument is not None:
            instrument = inside(instrument, words)
    phrases = tuple(
        LessonPhrase(
            score.number,
            score.source.title,
            score.account,
            None if own is None else own.account,
            _cards_of(score),
            len(keys_of(score.sounding, key_order(settings), score.edition).cycle),
        )
        for score, own in zip(scores, owns, strict=True)
    )
    address = settings.links[0][1] if settings.links else ""
    return Lesson(manuscript.title, address, instrument, phrases, order.words_a_minute)


def _cards_of(score: ReaderScore) -> tuple[str, str, str, str]:
    """Return the names of the cards that show the stages of a phrase, as `shedbook cards` calls them."""
    stem = stem_of(score)
    one, two, three, four = (f"{stem}-wide-{place}-{stage}" for place, stage in enumerate(STAGES, 1))
    return one, two, three, four


def _before(out: Path, now: Sequence[Block], words: Words) -> tuple[Sequence[Block], Sequence[Block]]:
    """Return the text as it was made last time, and as the author left it.

    Without a record of what was made everything that is there is the author's.
    """
    try:
        text = (out / TEXT).read_bytes()
        if len(text) > _MOST_BYTES:
            raise OutputError(
                f"{out / TEXT} is too long for the text of a lesson.", hint="Move it elsewhere."
            )
        mine = untimed(read(text.decode("utf-8")), words)
    except FileNotFoundError:
        return now, now
    except UnicodeDecodeError:
        raise ReadError(
            f"{out / TEXT} is not a text in UTF-8.", hint="Save it as UTF-8, or move it elsewhere."
        ) from None
    except OSError as error:
        raise OutputError(f"{out / TEXT} cannot be read: {error.strerror}.") from error
    try:
        made = json.loads((out / STORE / RECORD).read_text(encoding="utf-8"))["made"]
        return read(str(made)), mine
    except (OSError, ValueError, KeyError, TypeError):
        return now, mine


# The pages.


def _pages(
    blocks: Sequence[Block],
    manuscript: Manuscript,
    words: Words,
    scores: Sequence[ReaderScore],
    owns: Sequence[ReaderScore | None],
) -> LessonPages:
    """Return the pages: the text, and behind the head that begins with a phrase's number its scores."""
    drawn = {
        str(score.number): (_score(score, words), *(() if own is None else (_score(own, words),)))
        for score, own in zip(scores, owns, strict=True)
    }
    found = []
    for block in blocks:
        number = block.text.partition(".")[0].strip() if block.kind == HEAD and block.level == 2 else ""
        found.append(PageBlock(block.kind, block.text, block.level, drawn.pop(number, ())))
    settings = manuscript.settings
    title = next((block.text for block in blocks if block.level == 1), manuscript.title)
    return LessonPages(title, settings.author, language_of_words(settings.language), tuple(found))


def _score(score: ReaderScore, words: Words) -> PageScore:
    style = ScoreStyle(
        staff_mm=_STAFF_MM, width_mm=_LINE_MM, clef=score.edition.clef, signature=score.signature,
        courtesy=score.courtesy, tempo=False,
    )  # fmt: skip
    drawing = draw(score.written, replace(score.marks), style, score.tab)
    row = f"edition.name.{score.edition.name}"
    name = words.table[row] if words.has(row) else score.edition.title
    alt = score_text(score.written, words, score.tab)
    return PageScore(f"{name}: {score.facts}", drawing.svg, drawing.width_mm, drawing.height_mm, alt)
