"""A phrase read and engraved: what the workers' jobs do, without the store. Pure but for the engraver."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from types import MappingProxyType
from typing import TYPE_CHECKING, Any, NamedTuple

from shedbook.book.alt import scale_text, score_text
from shedbook.book.paper import paper_of
from shedbook.book.phrase_pages import GAP_MM
from shedbook.book.placing import keys_of
from shedbook.book.plan import CHANGES, HOME, Look, scale_pictures
from shedbook.book.settings import CONCERT
from shedbook.book.study import Studied, findings_of, index_of, marks_of, outline_of, progression_words
from shedbook.book.words import words_of
from shedbook.book.written_scales import written_scales
from shedbook.editions.fingering.tab import Tab
from shedbook.editions.instruments.edition import edition_named
from shedbook.engrave.drawing.empty_staves import draw_empty_staves
from shedbook.engrave.drawing.picture import Drawing
from shedbook.engrave.drawing.scale_staff import ScaleStaff, draw_scales
from shedbook.engrave.drawing.score_drawing import draw, draw_all
from shedbook.engrave.notation.score_style import ScoreStyle
from shedbook.engrave.notation.study_marks import NO_STUDY_MARKS, StudyMarks
from shedbook.errors import ShedbookError
from shedbook.phrase.model import Phrase

if TYPE_CHECKING:
    from shedbook.book.jobs import PhraseOrder

_LARGE_SHARES = (0.66, 0.33, 0.0)
"""How much of what the first score is larger than the others is left, where it does not fit its page."""
_CLOSE_SPACES = (2.0, 1.2)
"""The most white between two systems that stand close, in staff spaces: enough to tell them apart."""
_CLOSEST = 0.88
"""How much lower a score may become by that, at the most."""

Drawn = tuple[str, dict[str, Any]]
"""An SVG picture, and its size, staff and description as `pages.Score` has them."""
_NO_TABS: Mapping[str, Tab | None] = MappingProxyType({})


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
    for names, home in (
        ([name for name in written if name == HOME], True),
        ([name for name in written if name != HOME], False),
    ):
        marks = marks_of(studied, look, home=home) if names else NO_STUDY_MARKS
        style = ScoreStyle(
            staff_mm=look.staff_mm,
            width_mm=look.width_mm,
            clef=clef,
            signature=look.signature,
            courtesy=look.courtesy,
            tempo=home or look.key_tempo,
            quiet=not home,
            feel=words.sentence(words.named("feel", studied.phrase.feel)),
        )
        for some in [[name] for name in names] if singly else [names]:
            group = [_Asked(written[name], tabs.get(name)) for name in some]
            if home:
                drawings: Sequence[Drawing | ShedbookError] = [
                    _large(one, marks, style, look) for one in group
                ]
            else:
                drawings = _closer(_drawn(group, marks, style), group, marks, style, look)
            for name, one, drawing in zip(some, group, drawings, strict=True):
                if isinstance(drawing, ShedbookError):
                    yield name, drawing
                else:
                    yield name, (drawing.svg, facts_of(drawing, score_text(one.phrase, words, one.tab)))


class _Asked(NamedTuple):
    """A score that is asked for."""

    phrase: Phrase
    tab: Tab | None


def _large(one: _Asked, marks: StudyMarks, style: ScoreStyle, look: Look) -> Drawing | ShedbookError:
    """Draw a phrase as large as its first page bears, never smaller than in its keys."""
    most = look.home_staff_mm / look.staff_mm
    room = paper_of(look.paper, large=look.large).home_room_mm(one.phrase.title)
    for share in (1.0, *_LARGE_SHARES):
        staff_mm = round(look.staff_mm * (1 + (most - 1) * share), 2)
        drawing = _drawn_alone(one, marks, replace(style, staff_mm=staff_mm))
        if isinstance(drawing, ShedbookError):
            break
        if drawing.height_mm <= room and not drawing.crowded:
            break
    return drawing


def _closer(
    drawings: Sequence[Drawing | ShedbookError],
    group: Sequence[_Asked],
    marks: StudyMarks,
    style: ScoreStyle,
    look: Look,
) -> Sequence[Drawing | ShedbookError]:
    """Draw keys with their systems closer together, where one key more goes on a page then.

    Each is looked at by itself, so that it is the same whichever keys are drawn with it.
    """
    found = list(drawings)
    rooms = {
        place: room
        for place, drawing in enumerate(drawings)
        if isinstance(drawing, Drawing) and drawing.cuts_mm and (room := _room_near(drawing.height_mm, look))
    }
    for white in _CLOSE_SPACES:
        places = list(rooms)
        closer = _drawn([group[place] for place in places], marks, replace(style, most_white=white))
        for place, drawing in zip(places, closer, strict=True):
            if isinstance(drawing, Drawing) and drawing.height_mm <= rooms[place]:
                found[place] = drawing
                del rooms[place]
    return found


def _room_near(height_mm: float, look: Look) -> float:
    """Return the share of a page for which a score is a little too high; 0 where there is none."""
    for count in range(look.most_keys, 1, -1):
        room = (look.room_mm - GAP_MM * (count - 1)) / count
        if height_mm <= room:
            return 0
        if height_mm <= room / _CLOSEST:
            return room
    return 0


def _drawn(
    group: Sequence[_Asked], marks: StudyMarks, style: ScoreStyle
) -> Sequence[Drawing | ShedbookError]:
    """Draw scores together, or one by one when one of them cannot be drawn."""
    try:
        return draw_all([one.phrase for one in group], marks, style, [one.tab for one in group])
    except ShedbookError:
        return [_drawn_alone(one, marks, style) for one in group]


def _drawn_alone(one: _Asked, marks: StudyMarks, style: ScoreStyle) -> Drawing | ShedbookError:
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
    style = ScoreStyle(staff_mm=look.scale_staff_mm, clef=clef, tempo=False)
    rows = [ScaleStaff(scale.pitches, scale.degrees, scale.chord) for scale in found]
    drawings = _scales_drawn([] if singly else rows, style)
    for place, name in enumerate(scale_pictures(len(found))):
        drawing = _scales_drawn([rows[place]], style)[0] if singly else drawings[place]
        if isinstance(drawing, ShedbookError):
            yield name, drawing
        else:
            scale = found[place]
            said = scale_text(scale.name, scale.chord, scale.pitches, words)
            yield name, (drawing.svg, facts_of(drawing, said))


def changes(written: Phrase, look: Look) -> Iterator[tuple[str, Drawn | ShedbookError]]:
    """Draw empty staves under the changes of a phrase, for a line of the reader's own."""
    words = words_of(look.language, dict(look.words))
    drawing = draw_empty_staves(written, ScoreStyle(staff_mm=look.staff_mm, width_mm=look.width_mm))
    said = " | ".join(
        " ".join(change.chord.text for change in written.changes if change.bar == bar.number)
        for bar in written.bars
        if bar.number
    )
    yield CHANGES, (drawing.svg, facts_of(drawing, words("alt.changes", changes=said)))


def _scales_drawn(rows: Sequence[ScaleStaff], style: ScoreStyle) -> Sequence[Drawing | ShedbookError]:
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
        "cuts_mm": [round(cut, 2) for cut in drawing.cuts_mm],
        "alt": alt,
    }
