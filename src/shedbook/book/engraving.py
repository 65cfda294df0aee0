"""A phrase read and engraved: what the workers' jobs do, without the store. Pure but for the engraver."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from types import MappingProxyType
from typing import TYPE_CHECKING, Any, NamedTuple

from shedbook.book.alt import scale_text, score_text
from shedbook.book.placing import keys_of
from shedbook.book.plan import HOME, Look, scale_pictures
from shedbook.book.settings import CONCERT
from shedbook.book.study import Studied, findings_of, index_of, marks_of, outline_of, progression_words
from shedbook.book.words import words_of
from shedbook.book.written_scales import written_scales
from shedbook.editions.edition import edition_named
from shedbook.editions.fingering import Tab
from shedbook.engrave.drawing import Drawing, draw, draw_all
from shedbook.engrave.layout import lay_out
from shedbook.engrave.scale_row import ScaleRow, draw_scales
from shedbook.engrave.score import NO_MARKS, Marks
from shedbook.engrave.style import SPACE, Style
from shedbook.engrave.tab_staff import LINE_GAP
from shedbook.errors import ShedbookError
from shedbook.phrase.model import Phrase

if TYPE_CHECKING:
    from shedbook.book.jobs import PhraseOrder

Drawn = tuple[str, dict[str, Any]]
"""An SVG picture, and its size, staff and description as `pages.Score` has them."""
_NO_TABS: Mapping[str, Tab | None] = MappingProxyType({})
_SYSTEM_SPACES = 17.5
"""What a system and the white over it take at most, in staff spaces, without the lines of tablature."""
_LEAST_STAFF_MM = 6.5
"""The least staff for players' parts [piano style guides]."""
_STEP, _MOST_STEPS = 0.9, 12
"""How much smaller a staff is tried, and how often."""


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
    studied: Studied,
    written: Mapping[str, Phrase],
    look: Look,
    clef: str,
    *,
    singly: bool = False,
    tabs: Mapping[str, Tab | None] = _NO_TABS,
) -> Iterator[tuple[str, Drawn | ShedbookError]]:
    """Draw a phrase as it is written in keys, each with a name of its own; the one called `HOME` is larger.

    An error in one key comes in the place of its score. `singly` draws one after the other, as they are
    asked for: after an engraver that ended without a word, the first that is missing is the one to blame.
    `tabs` are the strings and frets of each, where there is tablature.
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
            feel=words.sentence(words.named("feel", studied.phrase.feel)),
        )
        tall = next((_Asked(written[name], tab) for name in names if (tab := tabs.get(name))), None)
        if tall is not None:
            style = _sized(tall, marks, style, look.tall_home_room_mm if home else look.room_mm)
        for some in [[name] for name in names] if singly else [names]:
            group = [_Asked(written[name], tabs.get(name)) for name in some]
            for name, one, drawing in zip(some, group, _drawn(group, marks, style), strict=True):
                too_high = isinstance(drawing, Drawing) and drawing.height_mm > look.home_room_mm
                if home and too_high and tall is None:
                    drawing = _drawn_alone(one, marks, replace(style, staff_mm=look.staff_mm))
                if isinstance(drawing, ShedbookError):
                    yield name, drawing
                else:
                    yield name, (drawing.svg, facts_of(drawing, score_text(one.phrase, words, one.tab)))


class _Asked(NamedTuple):
    """A score that is asked for."""

    phrase: Phrase
    tab: Tab | None


def _sized(one: _Asked, marks: Marks, style: Style, room_mm: float) -> Style:
    """Return the style with a smaller staff where scores with tablature would be higher than their room.

    Notes set smaller are larger in the end than a score that is made smaller as a whole, for more bars
    stand in a system. The height is reckoned from the systems, which are the same in all keys.
    """
    strings = one.tab.strings if one.tab else 0
    for _ in range(_MOST_STEPS):
        systems = len(lay_out(one.phrase, marks, style).systems)
        spaces = systems * (_SYSTEM_SPACES + LINE_GAP / SPACE * strings)
        if spaces * SPACE * style.mm <= room_mm or style.staff_mm <= _LEAST_STAFF_MM:
            break
        style = replace(style, staff_mm=max(_LEAST_STAFF_MM, round(style.staff_mm * _STEP, 2)))
    return style


def _drawn(group: Sequence[_Asked], marks: Marks, style: Style) -> Sequence[Drawing | ShedbookError]:
    """Draw scores together, or one by one when one of them cannot be drawn."""
    try:
        return draw_all([one.phrase for one in group], marks, style, [one.tab for one in group])
    except ShedbookError:
        return [_drawn_alone(one, marks, style) for one in group]


def _drawn_alone(one: _Asked, marks: Marks, style: Style) -> Drawing | ShedbookError:
    try:
        return draw(one.phrase, marks, style, one.tab)
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
