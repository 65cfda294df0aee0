"""Paths as points, and which glyph an outline is.

A glyph keeps the whole numbers of its font wherever it is drawn, for only the transformation round it
differs. So the points of a path name its glyph.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence
from functools import lru_cache
from hashlib import blake2b
from itertools import pairwise
from typing import NamedTuple

from shedbook.read_back.ink import Arc, Area, Curve, Dot, Glyph, Mark, Stroke
from shedbook.read_back.tables.chord_signs import CHORD_SIGNS
from shedbook.read_back.tables.glyph_shapes import GLYPH_SHAPES

Point = tuple[float, float]
_COMMAND = re.compile(r"([mlhvcsazMLHVCSAZ])([^a-zA-Z]*)")
_NUMBER = re.compile(r"-?(?:\d+\.?\d*|\.\d+)")
_ROUND = 0.05
"""How much wider than high a closed curve may be, as a share, to be a circle."""


class Subpath(NamedTuple):
    """One run of a path: every point, control points of curves included; whether any of it is curved."""

    points: tuple[Point, ...]
    curved: bool
    closed: bool


class Placement(NamedTuple):
    """Where a path is drawn: factors for x and y, then the move."""

    scale_x: float
    scale_y: float
    x: float
    y: float

    def at(self, point: Point) -> Point:
        """Return a point of the path as a point of the page."""
        return (self.x + self.scale_x * point[0], self.y + self.scale_y * point[1])


def svg_subpaths(data: str) -> list[Subpath]:
    """Return the runs of SVG path data; the commands m l h v c s a z and their capitals are understood.

    Of an arc (a) only the end is kept, which is enough to name an outline.
    """
    steps: list[tuple[str, tuple[Point, ...]]] = []
    here = start = last = (0.0, 0.0)
    for letter, text in _COMMAND.findall(data):
        numbers = [float(number) for number in _NUMBER.findall(text)]
        kind = letter.lower()
        if kind == "z":
            steps.append(("z", ()))
            here = last = start
            continue
        for points in _steps(kind, numbers, here, last, relative=letter == kind):
            steps.append((kind if kind in "mc" else "c" if kind in "sa" else "l", points))
            last, here = (points[-2] if len(points) == 3 else points[-1]), points[-1]
            if kind == "m":
                start, kind = here, "l"
    return _runs(steps)


def _steps(
    kind: str, numbers: Sequence[float], here: Point, last: Point, *, relative: bool
) -> Iterator[tuple[Point, ...]]:
    """Yield the points of each step of one command, all absolute."""
    size = {"m": 2, "l": 2, "h": 1, "v": 1, "c": 6, "s": 4, "a": 7}[kind]
    for first in range(0, len(numbers) - size + 1, size):
        some = numbers[first : first + size]
        dx, dy = here if relative else (0.0, 0.0)
        if kind == "h":
            points: tuple[Point, ...] = ((some[0] + dx, here[1]),)
        elif kind == "v":
            points = ((here[0], some[0] + dy),)
        elif kind == "a":
            points = ((some[5] + dx, some[6] + dy),)
        else:
            points = tuple((x + dx, y + dy) for x, y in zip(some[::2], some[1::2], strict=True))
        if kind == "s":
            points = ((2 * here[0] - last[0], 2 * here[1] - last[1]), *points)
        yield points
        last, here = (points[-2] if len(points) == 3 else points[-1]), points[-1]


def pdf_subpaths(operators: str) -> list[Subpath]:
    """Return the runs of the path operators m l c h of a PDF's content stream."""
    steps: list[tuple[str, tuple[Point, ...]]] = []
    numbers: list[float] = []
    for word in operators.split():
        if word in _OPERATORS:
            steps.append((_OPERATORS[word], tuple(zip(numbers[::2], numbers[1::2], strict=True))))
            numbers = []
        else:
            numbers.append(float(word))
    return _runs(steps)


_OPERATORS = {"m": "m", "l": "l", "c": "c", "h": "z"}


def _runs(steps: Iterable[tuple[str, tuple[Point, ...]]]) -> list[Subpath]:
    found: list[Subpath] = []
    points: list[Point] = []
    curved = False
    for kind, more in steps:
        if kind == "z":
            if len(points) > 1 and points[-1] == points[0]:
                points.pop()
            found.append(Subpath(tuple(points), curved, True))
            points, curved = [], False
            continue
        if kind == "m":
            if len(points) > 1:
                found.append(Subpath(tuple(points), curved, False))
            points, curved = [], False
        points += more
        curved = curved or kind == "c"
    if len(points) > 1:
        found.append(Subpath(tuple(points), curved, False))
    return found


def shape_digest(runs: Iterable[Subpath]) -> str:
    """Return the name under which an outline stands in the table: a hash of its points as whole numbers."""
    text = ";".join(" ".join(f"{round(x)},{round(y)}" for x, y in run.points) for run in runs)
    return blake2b(text.encode(), digest_size=6).hexdigest()


def glyph_of(runs: Sequence[Subpath]) -> tuple[str, str] | None:
    """Return the font and the name of the glyph with this outline, or None."""
    digest = shape_digest(runs)
    sign = CHORD_SIGNS.get(digest)
    return ("sign", sign) if sign else GLYPH_SHAPES.get(digest)


@lru_cache(maxsize=1024)
def svg_glyph(data: str) -> tuple[str, str]:
    """Return the font and the name of the glyph with this SVG path data; "?" and its digest if unknown."""
    runs = svg_subpaths(data)
    return glyph_of(runs) or ("?", shape_digest(runs))


def marks_of(runs: Sequence[Subpath], place: Placement, *, filled: bool, pen: float) -> Iterator[Mark]:
    """Yield the marks of a path that is no glyph of the table.

    Args:
        runs: the runs of the path.
        place: where it is drawn.
        filled: whether its inside is inked.
        pen: the width of its stroke in its own units, 0 for none.
    """
    if filled and any(run.curved for run in runs) and (len(runs) > 1 or pen == 0) and not _is_round(runs[0]):
        x, y = place.at(runs[0].points[0])
        yield Glyph("?", shape_digest(runs), x, y, abs(place.scale_x))
        return
    for run in runs:
        points = [place.at(point) for point in run.points]
        if run.curved and filled:
            yield _curve(run, points)
        elif filled and len(points) > 2:
            yield Area(tuple(points))
        elif pen and run.curved:
            yield Curve(*points[0], *points[-1])
        elif pen:
            ends = points + points[:1] if run.closed else points
            for (x1, y1), (x2, y2) in pairwise(ends):
                yield Stroke(x1, y1, x2, y2, pen * abs(place.scale_x))


def _is_round(run: Subpath) -> bool:
    xs, ys = [x for x, _ in run.points], [y for _, y in run.points]
    wide, high = max(xs) - min(xs), max(ys) - min(ys)
    return wide > 0 and abs(wide - high) < _ROUND * wide and len(run.points) >= 12


def _curve(run: Subpath, points: list[Point]) -> Arc | Dot:
    if _is_round(run):
        xs, ys = [x for x, _ in points], [y for _, y in points]
        return Dot((min(xs) + max(xs)) / 2, (min(ys) + max(ys)) / 2)
    left, right = min(points), max(points)
    return Arc(*left, *right)
