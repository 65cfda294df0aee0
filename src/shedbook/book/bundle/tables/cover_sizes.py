"""The sizes in which shops ask for a cover picture.

Row format: name; width and height in pixels; source. Shops differ by a few pixels and take what is larger;
what counts is the ratio of the sides.
"""

from __future__ import annotations

from typing import NamedTuple


class CoverSize(NamedTuple):
    """One size of a cover picture, in pixels."""

    name: str
    wide: int
    high: int
    source: str


COVER_SIZES: tuple[CoverSize, ...] = (
    CoverSize("portrait", 1600, 2560, "common practice: electronic books, 1 to 1.6"),
    CoverSize("square", 2000, 2000, "common practice: music and general shops"),
    CoverSize("product", 1200, 1600, "common practice: product pictures, 3 to 4"),
    CoverSize("wide", 1280, 720, "common practice: thumbnails, 16 to 9"),
    CoverSize("link", 1200, 630, "common practice: the picture of a link, 1.91 to 1"),
)
