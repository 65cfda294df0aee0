"""The paper of a book: how large the page is, and how large what stands on it. Pure."""

from __future__ import annotations

from dataclasses import dataclass
from types import MappingProxyType

from shedbook.book.tables.papers import HOME_TIMES, LARGE_TIMES, PAPERS, SCALE_TIMES

PAGE_SIZES = tuple(row.name for row in PAPERS)
_ROWS = MappingProxyType({row.name: row for row in PAPERS})
_LARGE_GUTTER_TIMES = 1.25
_HOME_SHARE, _TALL_HOME_SHARE = 0.6, 0.86
"""The first score takes at most this share of its page, so that words stand beneath it."""


@dataclass(frozen=True, slots=True)
class Paper:
    """One page, in millimetres; `text_times` is how much larger the text is than in a book on A4.

    `width_mm` and `height_mm` are the paper's, `room_mm` is the height between head and foot,
    `line_mm` the length of the longest staff line.
    """

    name: str
    width_mm: float
    height_mm: float
    top_mm: float
    bottom_mm: float
    side_mm: float
    gutter_mm: float
    staff_mm: float
    home_staff_mm: float
    scale_staff_mm: float
    text_pt: float
    text_times: float
    most_keys: int

    @property
    def line_mm(self) -> float:
        """The length of the longest staff line."""
        return round(self.width_mm - 2 * self.side_mm - self.gutter_mm, 2)

    @property
    def home_room_mm(self) -> float:
        """The height that the first score may take."""
        if self.text_times < LARGE_TIMES * 0.9:
            return round(_HOME_SHARE * self.room_mm, 2)
        return self.tall_home_room_mm

    @property
    def tall_home_room_mm(self) -> float:
        """The height that the first score may take where each of its staves has tablature under it."""
        return round(_TALL_HOME_SHARE * self.room_mm, 2)

    @property
    def room_mm(self) -> float:
        """The height between the head and the foot of a page."""
        return round(self.height_mm - self.top_mm - self.bottom_mm, 2)


def paper_of(name: str, *, large: bool = False) -> Paper:
    """Return a paper by its name; in large print staff and text are half as large again.

    Raises:
        KeyError: if no paper has the name.
    """
    row = _ROWS[name]
    times = LARGE_TIMES if large else 1.0
    staff = row.staff * times
    return Paper(
        name=row.name,
        width_mm=row.width,
        height_mm=row.height,
        top_mm=row.top,
        bottom_mm=row.bottom,
        side_mm=row.side,
        gutter_mm=round(row.gutter * (_LARGE_GUTTER_TIMES if large else 1), 2),
        staff_mm=round(staff, 2),
        home_staff_mm=round(staff * HOME_TIMES, 2),
        scale_staff_mm=round(staff * SCALE_TIMES, 2),
        text_pt=row.text_pt * times,
        text_times=round(row.text_pt * times / _ROWS["a4"].text_pt, 3),
        most_keys=row.most_keys,
    )
