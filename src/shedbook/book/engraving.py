"""A phrase read and engraved: what the workers' jobs do, without the store. Pure but for the engraver."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import TYPE_CHECKING, Any

from shedbook.book.pages import key_words
from shedbook.book.placing import keys_of
from shedbook.book.plan import HOME, Look
from shedbook.book.settings import CONCERT
from shedbook.book.study import Studied, findings_of, marks_of, outline_of, progression_words
from shedbook.editions.edition import edition_named
from shedbook.engrave.drawing import Drawing, draw, draw_all
from shedbook.engrave.score import Marks
from shedbook.engrave.style import Style
from shedbook.errors import ShedbookError
from shedbook.phrase.changes_text import print_changes
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
        "findings": list(findings_of(studied, order.silenced)),
    }


def scores(
    studied: Studied, written: Mapping[str, Phrase], look: Look, clef: str, *, singly: bool = False
) -> Iterator[tuple[str, Drawn | ShedbookError]]:
    """Draw a phrase as it is written in keys, each with a name of its own; the one called `HOME` is larger.

    An error in one key comes in the place of its score. `singly` draws one after the other, as they are
    asked for: after an engraver that ended without a word, the first that is missing is the one to blame.
    """
    marks = marks_of(studied, under=look.degrees, scales=look.scale_names)
    for names, staff_mm in (
        ([name for name in written if name == HOME], look.home_staff_mm),
        ([name for name in written if name != HOME], look.staff_mm),
    ):
        style = Style(staff_mm=staff_mm, width_mm=look.width_mm, clef=clef, signature=look.signature)
        for some in [[name] for name in names] if singly else [names]:
            phrases = [written[name] for name in some]
            for name, phrase, drawing in zip(some, phrases, _drawn(phrases, marks, style), strict=True):
                if isinstance(drawing, ShedbookError):
                    yield name, drawing
                else:
                    yield name, (drawing.svg, facts_of(phrase, drawing))


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


def facts_of(phrase: Phrase, drawing: Drawing) -> dict[str, Any]:
    """Return what the page must know of a picture, rounded to a hundredth of a millimetre."""
    return {
        "width_mm": round(drawing.width_mm, 2),
        "height_mm": round(drawing.height_mm, 2),
        "staff_mm": round(drawing.staff_top_mm, 2),
        "alt": f"{phrase.title} in {' '.join(key_words(str(phrase.key)))}: "
        f"{print_changes(phrase.changes, phrase.full_bars, phrase.metre)}",
    }
