"""The ink of a score from its SVG.

What is understood is what a picture of outlines may hold: definitions of paths, groups that move, uses,
paths, polygons, polylines and circles. Ids are only followed, never believed: its outline names a glyph.
"""

from __future__ import annotations

import re

from shedbook.errors import RenderError
from shedbook.read_back.ink import Dot, Glyph, Ink
from shedbook.read_back.outlines import (
    Placement,
    Subpath,
    marks_of,
    svg_glyph,
    svg_subpaths,
)

_ELEMENT = re.compile(r"<(/?)(\w+)([^>]*)>")
_USE = re.compile(
    r' href="#([^"]+)" (?:x="(-?[\d.]+)" y="(-?[\d.]+)"'
    r'|transform="translate\((-?[\d.]+) (-?[\d.]+)\)(?:scale\((-?[\d.]+)\))?")/'
)
_ATTRIBUTE = re.compile(r'([\w-]+)="([^"]*)"')
_MOVE = re.compile(r"translate\((-?[\d.]+)[ ,]+(-?[\d.]+)\)")
_SCALE = re.compile(r"scale\((-?[\d.]+)")
_POINT = re.compile(r"(-?[\d.]+),(-?[\d.]+)")


def ink_of_svg(picture: str) -> Ink:
    """Return the ink of a picture in its user units.

    Raises:
        RenderError: if it uses a glyph that it does not define, or places one in a way not understood.
    """
    return _Reader().read(picture)


class _Reader:
    """Goes through the elements; holds the definitions, and the moves of the groups that are open."""

    def __init__(self) -> None:
        self._ink = Ink()
        self._defined: dict[str, tuple[str, str, float]] = {}
        self._moves: list[tuple[float, float]] = [(0.0, 0.0)]
        self._defining = False

    def read(self, picture: str) -> Ink:
        for closing, kind, text in _ELEMENT.findall(picture):
            if kind == "g":
                self._group(closing, text)
            elif kind == "defs":
                self._defining = not closing
            elif kind == "use":
                self._use(text)
            elif not closing and kind in ("path", "polygon", "polyline", "circle", "ellipse"):
                self._element(kind, dict(_ATTRIBUTE.findall(text)))
        return self._ink

    def _group(self, closing: str, text: str) -> None:
        if closing:
            self._moves.pop()
            return
        x, y = self._moves[-1]
        move = _MOVE.search(text)
        self._moves.append((x + float(move[1]), y + float(move[2])) if move else (x, y))

    def _element(self, kind: str, given: dict[str, str]) -> None:
        if self._defining:
            scale = _SCALE.search(given.get("transform", ""))
            self._defined[given["id"]] = (*svg_glyph(given["d"]), float(scale[1]) if scale else 1.0)
        elif kind in ("circle", "ellipse"):
            x, y = self._moves[-1]
            self._ink.marks.append(Dot(x + float(given["cx"]), y + float(given["cy"])))
        elif kind == "path":
            self._paint(svg_subpaths(given["d"]), given)
        else:
            points = tuple((float(x), float(y)) for x, y in _POINT.findall(given["points"]))
            self._paint([Subpath(points, False, kind == "polygon")], given)

    def _use(self, text: str) -> None:
        given = _USE.fullmatch(text)
        if given is None:
            raise RenderError(f"A glyph of the picture is placed in a way that is not understood: {text}")
        name = given[1]
        if name not in self._defined:
            raise RenderError(f'The picture uses "{name}", which it does not define.')
        font, glyph, size = self._defined[name]
        x, y = self._moves[-1]
        scale = float(given[6] or 1)
        place = (x + float(given[2] or given[4]), y + float(given[3] or given[5]))
        self._ink.marks.append(Glyph(font, glyph, *place, size * scale))

    def _paint(self, runs: list[Subpath], given: dict[str, str]) -> None:
        x, y = self._moves[-1]
        pen = float(given.get("stroke-width", "0")) if "stroke" in given else 0.0
        filled = given.get("fill") != "none"
        self._ink.marks += marks_of(runs, Placement(1, 1, x, y), filled=filled, pen=pen)
