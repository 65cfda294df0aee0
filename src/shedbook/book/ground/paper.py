"""The paper of a book: how large the page is, and how large what stands on it. Pure."""

from __future__ import annotations

import math
from dataclasses import dataclass
from types import MappingProxyType

from shedbook.book.ground.tables.papers import HOME_TIMES, LARGE_TIMES, PAPERS, SCALE_TIMES

GAP_MM = 3.0
"""The least white between two scores."""
COLUMN_GAP_MM = 4.0
"""The white between two columns of scores, beside the gutter of the second."""

PAGE_SIZES = tuple(row.name for row in PAPERS)
_SCREENS = frozenset(("tablet",))
_ROWS = MappingProxyType({row.name: row for row in PAPERS})
_LARGE_GUTTER_TIMES = 1.4
_TITLE_PT, _LETTER, _PITCH = 24.0, 0.52, 1.36
"""The size of a phrase's title, and in it the width of a letter and the distance of lines."""
_HEAD_MM, _FACTS_PT = 12.0, 10.0
"""The white about a title, and the size of the two lines at most that stand under it."""
_POINT_MM = 25.4 / 72


@dataclass(frozen=True, slots=True)
class Paper:
    """One page, in millimetres; `text_times` is how much larger the text is than in a book on A4.

    `width_mm` and `height_mm` are the paper's, `room_mm` is the height between head and foot,
    `line_mm` the length of the longest staff line, `column_mm` that of a line in one of two columns, 0 where
    there is one column only. `leaves` says that it is printed on two sides, so that there are left and right
    pages.
    """

    name: str
    width_mm: float
    height_mm: float
    top_mm: float
    bottom_mm: float
    inner_mm: float
    outer_mm: float
    gutter_mm: float
    staff_mm: float
    home_staff_mm: float
    scale_staff_mm: float
    text_pt: float
    text_times: float
    most_keys: int
    line_mm: float
    column_mm: float
    room_mm: float

    @property
    def leaves(self) -> bool:
        """Whether it has left and right pages."""
        return self.name not in _SCREENS

    def home_room_mm(self, title: str) -> float:
        """Return the height that the first score may take under a title."""
        point_mm = _POINT_MM * self.text_times
        lines = math.ceil(len(title) * _LETTER * _TITLE_PT * point_mm / self.line_mm)
        taken = _HEAD_MM + _PITCH * point_mm * (lines * _TITLE_PT + 2 * _FACTS_PT)
        return round(self.room_mm - taken, 2)


def paper_of(name: str, *, large: bool = False) -> Paper:
    """Return a paper by its name; in large print staff and text are half as large again.

    Raises:
        KeyError: if no paper has the name.
    """
    row = _ROWS[name]
    times = LARGE_TIMES if large else 1.0
    staff = row.staff * times
    gutter = round(row.gutter * (_LARGE_GUTTER_TIMES if large else 1), 2)
    measure = row.width - row.inner - row.outer
    column = (measure - COLUMN_GAP_MM) / 2 - gutter if row.columns > 1 and not large else 0.0
    return Paper(
        name=row.name,
        width_mm=row.width,
        height_mm=row.height,
        top_mm=row.top,
        bottom_mm=row.bottom,
        inner_mm=row.inner,
        outer_mm=row.outer,
        gutter_mm=gutter,
        staff_mm=round(staff, 2),
        home_staff_mm=round(staff * HOME_TIMES, 2),
        scale_staff_mm=round(staff * SCALE_TIMES, 2),
        text_pt=row.text_pt * times,
        text_times=round(row.text_pt * times / _ROWS["a4"].text_pt, 3),
        most_keys=row.most_keys,
        line_mm=round(measure - gutter, 2),
        column_mm=round(column, 2),
        room_mm=round(row.height - row.top - row.bottom, 2),
    )
