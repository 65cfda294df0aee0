"""The ink of one score: named glyphs, strokes, filled areas, curves and dots, each with its place.

All places are in one unit, whichever the page had, and ordinates (y) grow downwards. Both readers of files,
`svg_ink` and `pdf_ink`, give this; everything after them knows nothing of files.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import NamedTuple


class Glyph(NamedTuple):
    """A glyph of a font.

    Attributes:
        font: "music", "music in words", "sans", "sans-semibold", "serif-italic", "serif-semibold" or "sign";
            "?" where no table knows the outline.
        name: the SMuFL code point in the music font ("E0A4"), else the character.
        x: the abscissa of its origin.
        y: the ordinate of its origin.
        size: how many units of the page one thousandth of the em takes.
    """

    font: str
    name: str
    x: float
    y: float
    size: float


class Stroke(NamedTuple):
    """A straight stroke with its width."""

    x1: float
    y1: float
    x2: float
    y2: float
    width: float


class Area(NamedTuple):
    """A filled area with straight edges: its corners."""

    points: tuple[tuple[float, float], ...]


class Arc(NamedTuple):
    """A filled curve, such as a tie: its left end and its right end."""

    x1: float
    y1: float
    x2: float
    y2: float


class Dot(NamedTuple):
    """A filled circle: its middle."""

    x: float
    y: float


class Curve(NamedTuple):
    """A curved stroke, such as a fall: where it begins and where it ends."""

    x1: float
    y1: float
    x2: float
    y2: float


Mark = Glyph | Stroke | Area | Arc | Dot | Curve


@dataclass(slots=True)
class Ink:
    """The ink of one score in the order in which it was drawn."""

    marks: list[Mark] = field(default_factory=list)
