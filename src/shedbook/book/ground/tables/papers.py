"""The papers a book can be laid out on. Row format: see `PaperRow`; sizes in millimetres, text in points.

Sources: A4 is 210 by 297 mm (ISO 216), US Letter 8.5 by 11 in (ANSI/ASME Y14.1). A player's staff is 7 mm
high, 6.5 mm at the least, and the outer margins of a part are 15 to 19 mm (piano style guides; MOLA
guidelines, from memory). The inner margin, where the book is bound, is a little wider than the outer one
(common practice). The tablet page has the 3:4 shape of common tablets, 6 by 8 in; it is read in the
hand, so its margins are narrow (our own choice). The gutter holds the names of keys; text of 10 to 11 points
in a line of 60 to 75 characters is common practice in books (Bringhurst, from memory).
"""

from __future__ import annotations

from typing import NamedTuple


class PaperRow(NamedTuple):
    """One paper: its size, the margins, the gutter for the names of keys, the staff, the text."""

    name: str
    width: float
    height: float
    top: float
    bottom: float
    inner: float
    outer: float
    gutter: float
    staff: float
    text_pt: float
    most_keys: int
    """How many systems stand on a page at most, where the book does not say."""
    columns: int
    """In how many columns the keys of a short phrase stand at most."""
    source: str


PAPERS: tuple[PaperRow, ...] = (
    PaperRow("a4", 210.0, 297.0, 21.0, 18.0, 17.0, 15.0, 10.0, 7.0, 10.5, 8, 2, "ISO 216"),
    PaperRow("letter", 215.9, 279.4, 19.0, 17.0, 18.0, 15.9, 10.0, 7.0, 10.5, 8, 2, "ANSI/ASME Y14.1"),
    PaperRow("tablet", 152.4, 203.2, 14.0, 12.0, 8.0, 8.0, 10.0, 6.6, 10.0, 6, 1, "6 by 8 in, our own"),
)  # fmt: skip

HOME_TIMES = 1.3
"""How much larger the phrase stands on its first page."""

SCALE_TIMES = 0.85
"""How high the staff of a written-out scale is beside the staff of the keys."""

LARGE_TIMES = 1.5
"""How much larger staff and text are in large print: at least 16 points (RNIB clear print, from memory)."""
