"""One phrase in one key, drawn into a picture file."""

from __future__ import annotations

from pathlib import Path

from shedbook.book.ground.words import words_of
from shedbook.book.ground.writing import write_whole
from shedbook.book.manuscript.choice import chosen_editions, chosen_phrase
from shedbook.book.manuscript.opening import open_manuscript
from shedbook.book.manuscript.settings.whole_book import CONCERT, Settings
from shedbook.book.manuscript.unread_places import read_every_place
from shedbook.book.scores.inputs import key_order, looks_of
from shedbook.book.scores.placing import placing_of
from shedbook.book.scores.study import marks_of, study
from shedbook.engrave.drawing.picture import Drawing
from shedbook.engrave.drawing.score_drawing import draw
from shedbook.engrave.notation.score_style import ScoreStyle
from shedbook.errors import OutputError
from shedbook.phrase.model import Phrase

ENDINGS = (".png", ".svg")
PPI = 220
"""Pixels an inch in a PNG picture."""


def show(file: Path, out: Path, *, key: str = "", phrase: str = "", edition: str = CONCERT) -> None:
    """Draw a phrase of a file, by number or title (the first for ""), in a key (its own for "").

    Raises:
        ReadError: if the phrase cannot be read.
        UnknownNameError: for a key, phrase or edition that is not there.
        OutputError: if the picture's name has another ending, or it cannot be written.
    """
    ending = out.suffix.lower()
    if ending not in ENDINGS:
        raise OutputError(
            f"{out} is neither a .png nor a .svg.", hint="Name a picture such as --out low-tide.png"
        )
    drawing = drawn(file, key=key, phrase=phrase, edition=edition)
    if ending == ".svg":
        content = drawing.svg.encode()
    else:
        from shedbook.book.pages.typst_door import png  # noqa: PLC0415 - an SVG needs no Typst

        content = png(drawing.svg, drawing.width_mm, drawing.height_mm, PPI)
    write_whole(out, content)


def drawn(file: Path, *, key: str = "", phrase: str = "", edition: str = CONCERT) -> Drawing:
    """Return the drawing that `show` writes, as the manuscript's book of the edition has it."""
    manuscript = open_manuscript(file)
    chosen = read_every_place(chosen_phrase(manuscript.phrases, phrase or "1"))
    return drawing_of(chosen, manuscript.settings, key=key, edition=edition)


def drawing_of(phrase: Phrase, settings: Settings, *, key: str = "", edition: str = CONCERT) -> Drawing:
    """Return a phrase drawn in a key (its own for ""), as a book with these settings has it for an edition.

    Raises:
        UnknownNameError: for a key or edition that is not there.
    """
    (reader, *_) = chosen_editions((edition,), settings)
    studied = study(phrase)
    placing = placing_of(studied, key_order(settings, (key,) if key else ()), reader)
    look = looks_of(settings).key.score
    marks = marks_of(studied, look.marks, words_of(look.language.tag, dict(look.language.own)))
    style = ScoreStyle(
        staff_mm=look.staff_mm, width_mm=look.width_mm, clef=reader.clef, signature=look.signature,
        courtesy=look.courtesy,
    )  # fmt: skip
    placed = placing.keys[0] if key else placing.home
    return draw(placed.phrase, marks, style, placed.tab)
