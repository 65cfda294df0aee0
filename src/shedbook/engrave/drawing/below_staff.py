"""Our own quiet marks under a staff: a wedge under each landing, a bracket for each link. Pure geometry.

They are told apart by their shapes, not by a colour. Sizes are in drawing units (180 to a staff space).
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from shedbook.engrave.notation.study_marks import StudyMarks

_HALF_HEAD = 113
_GAP = 70
"""The white over the row of marks."""
_WEDGE_HALF, _WEDGE_HIGH = 62, 92
_HOOK, _PEN = 85, 20
_ROW = 130
"""The height of the row."""
_APART = 95
"""How far the bracket's ends keep from the middle of the heads, so that wedge and hook do not touch."""


def marks_below(
    marks: StudyMarks, places: Mapping[int, int], floor: float, width: float
) -> tuple[tuple[str, ...], int]:
    """Return the marks under one system as SVG elements, and how much room they take under `floor`.

    Args:
        marks: the landings and links.
        places: where the heads of this system stand, by note.
        floor: the lowest ink of the system.
        width: the length of the system; a link to the next system runs to its end.
    """
    top = round(floor) + _GAP
    drawn = [*_wedges(marks, places, top), *_brackets(marks, places, top, width)]
    return tuple(drawn), _GAP + _ROW if drawn else 0


def _wedges(marks: StudyMarks, places: Mapping[int, int], top: int) -> Iterable[str]:
    for note in sorted(marks.landings & places.keys()):
        x = places[note] + _HALF_HEAD
        yield f'<path d="M{x} {top}l{_WEDGE_HALF} {_WEDGE_HIGH}h{-2 * _WEDGE_HALF}z"/>'


def _brackets(marks: StudyMarks, places: Mapping[int, int], top: int, width: float) -> Iterable[str]:
    low = top + _HOOK
    for before, after in marks.links:
        start, end = places.get(before), places.get(after)
        if start is None and end is None:
            continue
        way = ""
        if start is not None:
            way = f"M{start + _HALF_HEAD + (_APART if before in marks.landings else 0)} {top}V{low}"
        else:
            way = f"M0 {low}"
        if end is not None:
            way += f"H{end + _HALF_HEAD - _APART}V{top}"
        else:
            way += f"H{round(width)}"
        yield f'<path d="{way}" fill="none" stroke="currentColor" stroke-width="{_PEN}"/>'
