"""A phrase engraved for the screen: as large as its room bears, never smaller than can be read on a phone."""

from __future__ import annotations

from dataclasses import dataclass

from shedbook.editions.fingering.tab import Tab
from shedbook.engrave.drawing.picture import Cut, Drawing, cut_out
from shedbook.engrave.drawing.score_drawing import draw
from shedbook.engrave.notation.score_style import ScoreStyle
from shedbook.engrave.notation.study_marks import NO_STUDY_MARKS, StudyMarks
from shedbook.film.card import Box, ScorePicture, SystemPlace
from shedbook.film.tables.screens import ScreenRow
from shedbook.phrase.model import Phrase

_STAFF_MM = 7.0
_MOST_WHITE = 2.5
"""The most white between two systems, in staff spaces: enough to tell them apart."""
_STEP = 4
"""By how many pixels a staff is made smaller until the score goes into its room."""


@dataclass(frozen=True, slots=True)
class ScreenScore:
    """What is engraved: a phrase as its reader sees it, its marks, those of them that are seen, its look."""

    phrase: Phrase
    marks: StudyMarks = NO_STUDY_MARKS
    shown: StudyMarks | None = None
    tab: Tab | None = None
    clef: str = "G2"
    signature: bool = False
    courtesy: str = "none"


def screen_scores(score: ScreenScore, row: ScreenRow, room: Box) -> tuple[ScorePicture, ...]:
    """Return a score as pictures for a screen: one, or several where it is too long for one.

    The staff is as high as lets the whole score go into its room, and never lower than the screen's least
    staff; then the systems are shared out.

    Raises:
        RenderError: if it cannot be drawn.
    """
    for staff in range(row.most_staff, row.least_staff - 1, -_STEP):
        drawing = _drawn(score, staff, room)
        if drawing.height_mm * staff / _STAFF_MM <= room.height and not drawing.crowded:
            break
    scale = staff / _STAFF_MM
    return tuple(
        _picture(cut_out(drawing, first, last), staff, scale)
        for first, last in _shares(drawing, room.height / scale)
    )


def _drawn(score: ScreenScore, staff: int, room: Box) -> Drawing:
    style = ScoreStyle(
        staff_mm=_STAFF_MM,
        width_mm=room.width * _STAFF_MM / staff,
        clef=score.clef,
        signature=score.signature,
        courtesy=score.courtesy,
        tempo=False,
        most_white=_MOST_WHITE,
    )
    return draw(score.phrase, score.marks, style, score.tab, shown=score.shown)


def _shares(drawing: Drawing, room_mm: float) -> list[tuple[int, int]]:
    """Return the first and last system of each picture: as few pictures as there can be, evenly filled."""
    edges = (0.0, *drawing.cuts_mm, drawing.height_mm)
    count = len(edges) - 1
    for pictures in range(1, count + 1):
        ends = [round(count * (place + 1) / pictures) for place in range(pictures)]
        found = list(zip([0, *ends[:-1]], [end - 1 for end in ends], strict=True))
        if all(edges[last + 1] - edges[first] <= room_mm for first, last in found):
            return found
    return [(place, place) for place in range(count)]


def _picture(cut: Cut, staff: int, scale: float) -> ScorePicture:
    unit = cut.unit_mm * scale
    systems = tuple(
        SystemPlace(
            line.first_bar,
            tuple((edge - cut.left) * unit for edge in line.edges),
            (line.top - cut.upper) * unit,
            staff,
            {note: (x - cut.left) * unit for note, x in line.notes.items()},
        )
        for line in cut.lines
    )
    return ScorePicture(cut.svg, cut.width_mm * scale, cut.height_mm * scale, staff, systems)
