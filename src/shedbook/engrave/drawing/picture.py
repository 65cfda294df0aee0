"""A picture put together: systems, words and glyphs as one self-contained SVG.

The SVG holds outlines only: no text, no fonts, no style sheet. It is drawn in `currentColor`, which is black
unless a page says otherwise. Its user units are Verovio's drawing units (180 to a staff space), so that all
numbers stay whole; its width and height are given in millimetres.
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import NamedTuple

from shedbook.engrave.drawing.outlined_words import GlyphKey, PlacedWord, glyph_definition
from shedbook.engrave.engraver.verovio_svg import MUSIC_SCALE
from shedbook.engrave.notation.score_style import ScoreStyle

PADDING = 12
"""The white at the right and at the bottom of a picture, in drawing units, which a stroke may reach into."""


class ScoreLine(NamedTuple):
    """Where things stand in one system, in the user units of the picture.

    Attributes:
        first_bar: the number of its first bar, a pick-up being bar 0.
        edges: the abscissas of its bars' edges from left to right, one more than there are bars.
        top: the ordinate of the top line of its staff.
        notes: by struck note, the abscissa of the middle of its head.
    """

    first_bar: int
    edges: tuple[int, ...]
    top: int
    notes: Mapping[int, int]


@dataclass(frozen=True, slots=True)
class Drawing:
    """A score as SVG, with its measures.

    Attributes:
        svg: the picture.
        width_mm: its width.
        height_mm: its height.
        staff_top_mm: how far the top line of the first staff lies below the upper edge.
        cuts_mm: how far below the upper edge the picture may be cut, between two systems each.
        crowded: whether the notes stand closer than they should, because a bar is too long for the line.
        lines: where bars and notes stand, system by system; it is not compared.
    """

    svg: str
    width_mm: float
    height_mm: float
    staff_top_mm: float
    cuts_mm: tuple[float, ...] = ()
    crowded: bool = False
    lines: tuple[ScoreLine, ...] = field(default=(), compare=False)


class PictureSize(NamedTuple):
    """The edges of a picture in drawing units, counted from the left end of the first staff's top line."""

    right: int
    upper: int
    lower: int


class LetteredSystem(NamedTuple):
    """A system with the words that belong to it.

    Attributes:
        parts: its SVG elements.
        words: its words, placed from the left end of the staff's top line.
        down: how far its staff lies below the first staff, in drawing units.
        white: the upper and the lower end of the white over the system, counted as `down` is; (0, 0) for the
            first system.
    """

    parts: Sequence[str]
    words: list[PlacedWord]
    down: int
    white: tuple[float, float] = (0, 0)


def assembled(
    systems: Sequence[LetteredSystem], music: Mapping[str, str], size: PictureSize, style: ScoreStyle
) -> Drawing:
    """Return the picture of systems with their words.

    Args:
        systems: the systems from the top down.
        music: the outlines of the music glyphs that they use, by code point.
        size: the edges of the picture; the margin of `style` for the label is added at the left.
        style: gives the scale and the prefix of ids.
    """
    prefix = style.prefix
    glyphs: set[GlyphKey] = set()
    body = []
    for system in systems:
        body.append(f'<g transform="translate(0 {system.down})">' if system.down else "<g>")
        body += system.parts
        for item in system.words:
            glyphs |= item.word.glyphs
            body.append(f'<g transform="translate({item.x:.0f} {item.y:.0f})">{item.word.svg}</g>')
        body.append("</g>")
    left = -round(style.label_mm / style.mm)
    width, height = size.right - left, size.lower - size.upper
    definitions = [
        f'<path id="{prefix}{code}" transform="scale({MUSIC_SCALE:g} -{MUSIC_SCALE:g})" d="{data}"/>'
        for code, data in music.items()
    ]
    definitions += [glyph_definition(key, prefix) for key in sorted(glyphs)]
    svg = (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{width * style.mm:.3f}mm" '
        f'height="{height * style.mm:.3f}mm" viewBox="{left} {size.upper} {width} {height}" '
        f'fill="currentColor"><defs>{"".join(definitions)}</defs>{"".join(body).replace("{p}", prefix)}</svg>'
    )
    cuts = tuple((sum(system.white) / 2 - size.upper) * style.mm for system in systems[1:])
    return Drawing(svg, width * style.mm, height * style.mm, -size.upper * style.mm, cuts)


_BOX = re.compile(r'width="([\d.]+)mm" height="([\d.]+)mm" viewBox="(\S+) (\S+) (\S+) (\S+)"')


class Cut(NamedTuple):
    """Some of the systems of a picture.

    `lines` are those of its systems, in the user units of the whole picture; `left` and `upper` are the edges
    of the piece in these units, of which one has `unit_mm` millimetres.
    """

    svg: str
    width_mm: float
    height_mm: float
    lines: tuple[ScoreLine, ...]
    left: float
    upper: float
    unit_mm: float


def cut_out(drawing: Drawing, first: int, last: int) -> Cut:
    """Return the systems from `first` to `last` of a drawing, counted from 0, as a picture of their own."""
    box = _BOX.search(drawing.svg)
    if box is None:
        raise ValueError("the picture of a score has no box")
    _, _, left, upper, width, _ = (float(number) for number in box.groups())
    edges = (0.0, *drawing.cuts_mm, drawing.height_mm)
    unit_mm = drawing.width_mm / width
    top_mm, low_mm = edges[first], edges[last + 1]
    high = (low_mm - top_mm) / unit_mm
    opening = (
        f'width="{drawing.width_mm:.3f}mm" height="{low_mm - top_mm:.3f}mm" '
        f'viewBox="{left:.0f} {upper + top_mm / unit_mm:.1f} {width:.0f} {high:.1f}"'
    )
    return Cut(
        drawing.svg.replace(box[0], opening, 1),
        drawing.width_mm,
        low_mm - top_mm,
        drawing.lines[first : last + 1],
        left,
        upper + top_mm / unit_mm,
        unit_mm,
    )


def with_margin(drawing: Drawing, margin_mm: float) -> Drawing:
    """Return a drawing with white round it, for a picture that stands alone and not on a page."""
    box = _BOX.search(drawing.svg)
    if box is None:
        return drawing
    left, upper, width, height = (float(number) for number in box.groups()[2:])
    margin = round(margin_mm * width / drawing.width_mm)
    wide, high = drawing.width_mm + 2 * margin_mm, drawing.height_mm + 2 * margin_mm
    opening = (
        f'width="{wide:.3f}mm" height="{high:.3f}mm" viewBox="{left - margin:.0f} {upper - margin:.0f} '
        f'{width + 2 * margin:.0f} {height + 2 * margin:.0f}"'
    )
    svg = drawing.svg.replace(box[0], opening, 1)
    return Drawing(svg, wide, high, drawing.staff_top_mm + margin_mm)
