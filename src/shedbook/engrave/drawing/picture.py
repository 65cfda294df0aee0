"""A score as a picture: a self-contained SVG put together of systems, lettering and definitions."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import NamedTuple

from shedbook.engrave.drawing.outlined_words import GlyphKey, PlacedWord, glyph_definition
from shedbook.engrave.engraver.verovio_svg import MUSIC_SCALE
from shedbook.engrave.notation.score_style import ScoreStyle

PADDING = 12
"""The white at the right and at the bottom of a picture, in drawing units, which a stroke may reach into."""


@dataclass(frozen=True, slots=True)
class Drawing:
    """A score as SVG with its size, and where its first staff begins under the upper edge.

    `cuts_mm` are the heights under the upper edge at which the picture may be cut between systems;
    `crowded` says that the notes stand closer than they should, for a bar is too long for the line.
    """

    svg: str
    width_mm: float
    height_mm: float
    staff_top_mm: float
    cuts_mm: tuple[float, ...] = ()
    crowded: bool = False


class PictureSize(NamedTuple):
    """The edges of a picture, counted from the beginning of the first staff's top line."""

    right: int
    upper: int
    lower: int


class LetteredSystem(NamedTuple):
    """A system with its words; `down` is how far its staff lies under the first one's.

    `white` are the ends of the white over it, counted as `down` is; (0, 0) for the first.
    """

    parts: Sequence[str]
    words: list[PlacedWord]
    down: int
    white: tuple[float, float] = (0, 0)


def assembled(
    systems: Sequence[LetteredSystem], music: Mapping[str, str], size: PictureSize, style: ScoreStyle
) -> Drawing:
    """Put definitions, systems and lettering together."""
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


def with_margin(drawing: Drawing, margin_mm: float) -> Drawing:
    """Return a picture with white round it, as one that stands alone needs; pages have their own margins."""
    box = re.search(r'width="([\d.]+)mm" height="([\d.]+)mm" viewBox="(\S+) (\S+) (\S+) (\S+)"', drawing.svg)
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
