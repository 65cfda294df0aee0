"""A phrase read and engraved: what the workers' jobs do, without the store. Pure but for the engraver."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from typing import TYPE_CHECKING, Any

from shedbook.book.alt import scale_text, score_text
from shedbook.book.placing import keys_of
from shedbook.book.plan import HOME, Look, scale_pictures
from shedbook.book.settings import CONCERT
from shedbook.book.study import Studied, findings_of, index_of, marks_of, outline_of, progression_words
from shedbook.book.words import words_of
from shedbook.book.written_scales import written_scales
from shedbook.editions.edition import edition_named
from shedbook.engrave.drawing import Drawing, draw, draw_all
from shedbook.engrave.scale_row import ScaleRow, draw_scales
from shedbook.engrave.score import NO_MARKS, Marks
from shedbook.engrave.style import Style
from shedbook.errors import ShedbookError
from shedbook.phrase.model import Phrase

if TYPE_CHECKING:
    from shedbook.book.jobs import PhraseOrder

Drawn = tuple[str, dict[str, Any]]
"""An SVG picture, and its size, staff and description as `pages.Score` has them."""


def card(studied: Studied, order: PhraseOrder) -> dict[str, Any]:
    """Return what the book must know of a phrase whatever the edition, as a JSON object.

    `home` and `keys` are those of the concert edition.
    """
    phrase = studied.phrase
    keys = keys_of(phrase, order.keys, edition_named(CONCERT))
    return {
        "title": phrase.title,
        "key": str(phrase.key),
        "key_inferred": phrase.key_inferred,
        "home": str(keys.home.concert),
        "keys": [str(key.concert) for key in keys.wanted],
        "metre": str(phrase.metre),
        "tempo": phrase.tempo_bpm,
        "feel": phrase.feel,
        "commentary": phrase.commentary,
        "progression": progression_words(studied),
        "outline": outline_of(studied),
        "links": dict(order.source.fields.get("links", {})),
        **index_of(studied),
        "findings": list(findings_of(studied, order.silenced)),
    }


def scores(
    studied: Studied, written: Mapping[str, Phrase], look: Look, clef: str, *, singly: bool = False
) -> Iterator[tuple[str, Drawn | ShedbookError]]:
    """Draw a phrase as it is written in keys, each with a name of its own; the one called `HOME` is larger.

    An error in one key comes in the place of its score. `singly` draws one after the other, as they are
    asked for: after an engraver that ended without a word, the first that is missing is the one to blame.
    """
    words = words_of(look.language, dict(look.words))
    for names, staff_mm, home in (
        ([name for name in written if name == HOME], look.home_staff_mm, True),
        ([name for name in written if name != HOME], look.staff_mm, False),
    ):
        marks = marks_of(studied, look, home=home) if names else NO_MARKS
        style = Style(
            staff_mm=staff_mm,
            width_mm=look.width_mm,
            clef=clef,
            signature=look.signature,
            courtesy=look.courtesy,
            quiet=not home,
        )
        for some in [[name] for name in names] if singly else [names]:
            phrases = [written[name] for name in some]
            for name, phrase, drawing in zip(some, phrases, _drawn(phrases, marks, style), strict=True):
                if isinstance(drawing, Drawing) and home and drawing.height_mm > look.home_room_mm:
                    drawing = _drawn_alone(phrase, marks, replace(style, staff_mm=look.staff_mm))
                if isinstance(drawing, ShedbookError):
                    yield name, drawing
                else:
                    yield name, (drawing.svg, facts_of(drawing, score_text(phrase, words)))


def _drawn(phrases: Sequence[Phrase], marks: Marks, style: Style) -> Sequence[Drawing | ShedbookError]:
    """Draw scores together, or one by one when one of them cannot be drawn."""
    try:
        return draw_all(phrases, marks, style)
    except ShedbookError:
        return [_drawn_alone(phrase, marks, style) for phrase in phrases]


def _drawn_alone(phrase: Phrase, marks: Marks, style: Style) -> Drawing | ShedbookError:
    try:
        return draw(phrase, marks, style)
    except ShedbookError as error:
        return error


def scales(
    studied: Studied, written: Phrase, look: Look, clef: str, *, singly: bool = False
) -> Iterator[tuple[str, Drawn | ShedbookError]]:
    """Draw the scales of a phrase as they are read where it is `written`, named as by `scale_pictures`.

    `singly` is as for `scores`.
    """
    found = written_scales(studied, written, clef)
    words = words_of(look.language, dict(look.words))
    style = Style(staff_mm=look.scale_staff_mm, clef=clef, tempo=False)
    rows = [ScaleRow(scale.pitches, scale.degrees, scale.chord) for scale in found]
    drawings = _scales_drawn([] if singly else rows, style)
    for place, name in enumerate(scale_pictures(len(found))):
        drawing = _scales_drawn([rows[place]], style)[0] if singly else drawings[place]
        if isinstance(drawing, ShedbookError):
            yield name, drawing
        else:
            yield name, (drawing.svg, facts_of(drawing, scale_text(found[place], words)))


def _scales_drawn(rows: Sequence[ScaleRow], style: Style) -> Sequence[Drawing | ShedbookError]:
    """Draw scales together, or one by one when one of them cannot be drawn."""
    try:
        return draw_scales(rows, style)
    except ShedbookError as error:
        if len(rows) == 1:
            return [error]
        return [_scales_drawn([row], style)[0] for row in rows]


def facts_of(drawing: Drawing, alt: str) -> dict[str, Any]:
    """Return what the page must know of a picture, rounded to a hundredth of a millimetre."""
    return {
        "width_mm": round(drawing.width_mm, 2),
        "height_mm": round(drawing.height_mm, 2),
        "staff_mm": round(drawing.staff_top_mm, 2),
        "alt": alt,
    }
