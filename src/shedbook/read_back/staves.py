"""The systems of a score: the ink of each staff, measured in staff spaces from its top line.

The ink of a system is drawn together and opens with its clef; so a clef opens a system. Within it, x counts
from the left end of the staff and y downwards from its top line, both in staff spaces.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass, field
from itertools import pairwise

from shedbook.read_back.ink import Arc, Area, Curve, Dot, Glyph, Ink, Mark, Stroke

CLEFS = {"E050": 32, "E052": 25, "E05C": 28, "E062": 24, "E064": 17}
"""The clefs by SMuFL code point: the diatonic step (C4 is 28) on the line on which each stands."""
_EM_SPACES = 250
"""How many thousandths of a music font's em one staff space is (SMuFL 1.4: four spaces make an em)."""
_LEAST_LINE = 4.0
"""The shortest staff line, in spaces; a leger line is shorter."""


@dataclass(slots=True)
class System:
    """One staff with its ink, in staff spaces; `width` is the length of its lines.

    `glyphs` holds those of main size and smaller ones alike; `Glyph.size` is in spaces a thousandth of an em.
    """

    width: float
    clef: Glyph
    glyphs: list[Glyph] = field(default_factory=list)
    strokes: list[Stroke] = field(default_factory=list)
    areas: list[Area] = field(default_factory=list)
    arcs: list[Arc] = field(default_factory=list)
    dots: list[Dot] = field(default_factory=list)
    curves: list[Curve] = field(default_factory=list)

    def step_at(self, y: float) -> float:
        """Return the diatonic step at a height, C4 being 28; whole numbers are lines and spaces."""
        return CLEFS[self.clef.name] + 2 * (self.clef.y - y)


class UnreadableError(Exception):
    """The ink makes no sense as a score; the text says why."""


def systems_of(ink: Ink) -> list[System]:
    """Return the systems of a score from the top down; none where no clef is drawn.

    Raises:
        UnreadableError: if a clef has no staff of five lines at even distances.
    """
    groups: list[list[Mark]] = []
    early: list[Mark] = []
    for mark in ink.marks:
        if isinstance(mark, Glyph) and mark.font == "music" and mark.name in CLEFS:
            groups.append([mark])
        elif groups:
            groups[-1].append(mark)
        else:
            early.append(mark)
    if groups:
        groups[0] += early
    return [_system(group) for group in groups]


def _system(marks: list[Mark]) -> System:
    clef = marks[0]
    if not isinstance(clef, Glyph):
        raise UnreadableError("a system does not begin with its clef")
    space = _EM_SPACES * clef.size
    left, right, top = _staff((mark for mark in marks if isinstance(mark, Stroke)), space)
    return _measured(marks, clef, space, (left, right, top))


def _measured(marks: list[Mark], clef: Glyph, space: float, staff: tuple[float, float, float]) -> System:
    """Return the ink of a system in staff spaces; the staff is given by its ends and its top line."""
    left, right, top = staff

    def x_of(x: float) -> float:
        return (x - left) / space

    def y_of(y: float) -> float:
        return (y - top) / space

    def glyph_of(mark: Glyph) -> Glyph:
        return Glyph(mark.font, mark.name, x_of(mark.x), y_of(mark.y), mark.size / space)

    found = System(x_of(right), glyph_of(clef))
    for mark in marks[1:]:
        if isinstance(mark, Glyph):
            found.glyphs.append(glyph_of(mark))
        elif isinstance(mark, Stroke):
            found.strokes.append(
                Stroke(x_of(mark.x1), y_of(mark.y1), x_of(mark.x2), y_of(mark.y2), mark.width / space)
            )
        elif isinstance(mark, Area):
            found.areas.append(Area(tuple((x_of(x), y_of(y)) for x, y in mark.points)))
        elif isinstance(mark, Dot):
            found.dots.append(Dot(x_of(mark.x), y_of(mark.y)))
        else:
            ends = (x_of(mark.x1), y_of(mark.y1), x_of(mark.x2), y_of(mark.y2))
            if isinstance(mark, Arc):
                found.arcs.append(Arc(*ends))
            else:
                found.curves.append(Curve(*ends))
    return found


def _staff(strokes: Iterable[Stroke], space: float) -> tuple[float, float, float]:
    """Return the left end, the right end and the top line of the staff, in units of the page."""
    lines: dict[tuple[int, int], list[float]] = defaultdict(list)
    ends: dict[tuple[int, int], tuple[float, float]] = {}
    for stroke in strokes:
        if abs(stroke.y1 - stroke.y2) < 0.02 * space and abs(stroke.x2 - stroke.x1) > _LEAST_LINE * space:
            left, right = sorted((stroke.x1, stroke.x2))
            key = (round(4 * left / space), round(4 * right / space))
            lines[key].append(stroke.y1)
            ends[key] = (left, right)
    for key, ys in lines.items():
        ys.sort()
        for first in range(len(ys) - 4):
            five = ys[first : first + 5]
            gaps = [low - high for high, low in pairwise(five)]
            if all(abs(gap - space) < 0.03 * space for gap in gaps):
                return (*ends[key], five[0])
    raise UnreadableError("no five staff lines at even distances belong to a clef")
