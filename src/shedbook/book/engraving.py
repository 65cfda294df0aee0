"""A phrase read and engraved: what the workers' jobs do, without the store. Pure but for the engraver."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from typing import TYPE_CHECKING, Any

from shedbook.book.choice import asked_key
from shedbook.book.pages import key_words
from shedbook.book.plan import HOME, Look
from shedbook.book.study import Studied, explanation_of, findings_of, marks_of, outline_of, progression_words
from shedbook.editions.in_key import in_key, in_keys
from shedbook.editions.keys import key_cycle
from shedbook.engrave.drawing import Drawing, draw
from shedbook.engrave.style import Style
from shedbook.errors import ShedbookError
from shedbook.phrase.changes_text import print_changes
from shedbook.phrase.model import Phrase
from shedbook.theory.key import Key

if TYPE_CHECKING:
    from shedbook.book.jobs import PhraseOrder

Drawn = tuple[str, dict[str, Any]]
"""An SVG picture, and its size, staff and description as `pages.Score` has them."""

_STAFF = re.compile(r'd="M0 (-?\d+)H\d+M0 ')
_VIEW = re.compile(r'viewBox="\S+ (-?\d+) \S+ (\d+)"')


def card(studied: Studied, order: PhraseOrder) -> dict[str, Any]:
    """Return what the book must know of a phrase besides its scores, as a JSON object."""
    phrase = studied.phrase
    cycle = key_cycle(phrase.key, order.keys, prefer=order.enharmonic)
    home = next((key for key in cycle if key.tonic.pitch_class == phrase.key.tonic.pitch_class), phrase.key)
    wanted = [asked_key(tonic, phrase.key.mode) for tonic in order.asked] or cycle
    return {
        "title": phrase.title,
        "key": str(phrase.key),
        "key_inferred": phrase.key_inferred,
        "home": str(home),
        "keys": [str(key) for key in wanted],
        "metre": str(phrase.metre),
        "tempo": phrase.tempo_bpm,
        "feel": phrase.feel,
        "commentary": phrase.commentary,
        "progression": progression_words(studied),
        "outline": outline_of(studied),
        "findings": list(findings_of(studied, order.silenced)),
        "explanation": list(explanation_of(studied)),
    }


def scores(
    studied: Studied, keys: Mapping[str, str], look: Look
) -> Iterator[tuple[str, Drawn | ShedbookError]]:
    """Draw a phrase in keys, each with a name of its own; the one called `HOME` is larger.

    An error in one key comes in the place of its score.
    """
    marks = marks_of(studied, under=look.degrees, scales=look.scale_names)
    moved = _in_keys(studied.phrase, {name: Key.parse(key) for name, key in keys.items()})
    for name, phrase in moved:
        if isinstance(phrase, ShedbookError):
            yield name, phrase
            continue
        style = Style(staff_mm=look.home_staff_mm if name == HOME else look.staff_mm, width_mm=look.width_mm)
        try:
            drawing = draw(phrase, marks, style)
        except ShedbookError as error:
            yield name, error
        else:
            yield name, (drawing.svg, facts_of(phrase, drawing))


def facts_of(phrase: Phrase, drawing: Drawing) -> dict[str, Any]:
    """Return what the page must know of a picture, rounded to a hundredth of a millimetre."""
    return {
        "width_mm": round(drawing.width_mm, 2),
        "height_mm": round(drawing.height_mm, 2),
        "staff_mm": round(_staff_mm(drawing), 2),
        "alt": f"{phrase.title} in {' '.join(key_words(str(phrase.key)))}: "
        f"{print_changes(phrase.changes, phrase.full_bars, phrase.metre)}",
    }


def _in_keys(phrase: Phrase, keys: Mapping[str, Key]) -> Iterator[tuple[str, Phrase | ShedbookError]]:
    try:
        yield from zip(keys, in_keys(phrase, keys.values()), strict=True)
    except ShedbookError:  # one key, hardly ever; find which
        for name, key in keys.items():
            try:
                yield name, in_key(phrase, key)
            except ShedbookError as error:
                yield name, error


def _staff_mm(drawing: Drawing) -> float:
    """Return how far under the picture's upper edge the first staff begins."""
    staff, view = _STAFF.search(drawing.svg), _VIEW.search(drawing.svg)
    if staff is None or view is None:
        return 0.0
    return (int(staff[1]) - int(view[1])) * drawing.height_mm / int(view[2])
