"""Verovio's drawing made small and clean, and the places that our own lettering needs.

One pass over the elements of the drawing. Wrappers, style sheet, placeholders and random ids go; every
note stays a group with its name; staff lines become one path a system.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, field

from shedbook.engrave.heads import Head
from shedbook.errors import RenderError

MUSIC_SCALE = 0.72
"""Verovio's size of the music font: 1000 units of the font are 720 drawing units."""
_HEAD_WIDTH = 226
_BRACKETS = ("E26A", "E26B")

_DEFINITION = re.compile(r'<g id="(E\w+)-\w+"><path transform="scale\(1,-1\)" d="([^"]*)"/></g>')
_PAGE = re.compile(r'class="definition-scale"[^>]*viewBox="0 0 (\d+) (\d+)"')
_TOKEN = re.compile(
    r'<g id="([^"]*)" class="(system|note|rest|mRest|beam|tuplet\w*|tie|slur|staff|barLine|harm|syl|accid)\b'
    r'|<use xlink:href="#(\w+)-\w+" transform="translate\((-?\d+), (-?\d+)\) scale\(([\d.]+),'
    r'|<path d="M(-?\d+) (-?\d+) L(-?\d+) (-?\d+)" stroke-width="(\d+)"'
    r'|<path d="([^"]*)" stroke-width="(\d+)"'
    r'|<poly(gon|line)[^>]* points="([^"]*)"'
    r'|<ellipse cx="(\d+)" cy="(-?\d+)" rx="(\d+)"'
    r'|<text x="(-?\d+)" y="(-?\d+)"'
)
_INSIDE_NOTE = frozenset(("accid", "syl"))


@dataclass(slots=True)
class System:
    """One system: its elements, the top line of its staff, and where symbols and degrees belong.

    `symbols` are (change, x, base line), `degrees` (note, x of the head, base line), in drawing units;
    `slurs` are the path data of slurs, for Verovio draws them over symbols;
    `tuplet_floor` is the base line of the lowest tuplet number, for Verovio sets degrees too near to it.
    """

    parts: list[str] = field(default_factory=list)
    staff_top: int = 0
    tuplet_floor: int = 0
    slurs: list[str] = field(default_factory=list)
    symbols: list[tuple[int, int, int]] = field(default_factory=list)
    degrees: list[tuple[int, int, int]] = field(default_factory=list)


@dataclass(frozen=True, slots=True)
class Trace:
    """What was found: systems, size, the outlines of the music glyphs used, the names of the notes drawn."""

    systems: tuple[System, ...]
    width: int
    height: int
    music: Mapping[str, str]
    drawn: frozenset[str]


def trace(picture: str, heads: Mapping[str, Head], prefix: str) -> Trace:
    """Read Verovio's drawing of a score whose written heads are known by name.

    Raises:
        RenderError: if the drawing is not of the expected kind.
    """
    head, mark, body = picture.partition('class="page-margin"')
    page = _PAGE.search(head)
    if not mark or page is None:
        raise RenderError("Verovio's drawing is not of the expected kind.")
    tracer = _Tracer(heads, prefix)
    for token in _TOKEN.findall(body):
        tracer.take(token)
    tracer.end_system()
    return Trace(
        tuple(tracer.systems), int(page[1]), int(page[2]),
        dict(_DEFINITION.findall(head)), frozenset(tracer.drawn),
    )  # fmt: skip


def curve_points(data: str, steps: int = 24) -> list[tuple[float, float]]:
    """Return points along the cubic curves of a slur's path data ("Mx,y Cx,y x,y x,y …")."""
    numbers = [float(number) for number in re.findall(r"-?[\d.]+", data)]
    corners = list(zip(numbers[::2], numbers[1::2], strict=True))
    found = []
    for first in range(0, len(corners) - 3, 3):
        (ax, ay), (bx, by), (cx, cy), (dx, dy) = corners[first : first + 4]
        for step in range(steps + 1):
            t = step / steps
            a, b, c, d = (1 - t) ** 3, 3 * t * (1 - t) ** 2, 3 * t * t * (1 - t), t**3
            found.append((a * ax + b * bx + c * cx + d * dx, a * ay + b * by + c * cy + d * dy))
    return found


class _Tracer:
    """The state of the pass: the system and note that are open, and the lines still to be joined."""

    def __init__(self, heads: Mapping[str, Head], prefix: str) -> None:
        self.systems: list[System] = []
        self.drawn: list[str] = []
        self._heads = heads
        self._prefix = prefix
        self._out: list[str] = []
        self._kind = self._name = self._note = ""
        self._head_at: tuple[int, int] | None = None
        self._accidental_x: int | None = None
        self._staff_stroke = ""
        self._staff: dict[str, tuple[str, str]] = {}
        self._lines: dict[str, list[str]] = {}

    def take(self, token: tuple[str, ...]) -> None:
        """Take in one element."""
        (name, kind, code, x, y, scale, x1, y1, x2, y2, stroke,
         path, path_stroke, poly, points, cx, cy, radius, text_x, text_y) = token  # fmt: skip
        if kind:
            self._group(name, kind)
        elif code:
            self._glyph(code, x, y, scale)
        elif stroke:
            self._line(x1, y1, x2, y2, stroke)
        elif path:
            if self._kind == "slur":
                self.systems[-1].slurs.append(path)
            pen = f'stroke="currentColor" stroke-width="{path_stroke}" stroke-linejoin="round"'
            self._out.append(f'<path d="{path}" {pen}/>')
        elif poly == "gon":
            self._out.append(f'<polygon points="{points}"/>')
        elif poly:
            self._out.append(
                f'<polyline points="{points.strip()}" fill="none" stroke="currentColor" stroke-width="16"/>'
            )
        elif radius and self._note:
            self._out.append(f'<circle cx="{cx}" cy="{cy}" r="{radius}"/>')
        elif text_x:
            self._text(int(text_x), int(text_y))

    def _group(self, name: str, kind: str) -> None:
        self._kind = kind
        if kind in _INSIDE_NOTE:
            return
        if self._note:
            self._end_note()
        if kind == "note":
            self._note = name
            self.drawn.append(name)
            self._out.append(f'<g id="{self._prefix}{name}">')
        elif kind == "system":
            self.end_system()
            self.systems.append(System(self._out))
        else:
            self._name = name

    def _glyph(self, code: str, x: str, y: str, scale: str) -> None:
        if self._kind == "accid":
            self._accidental_x = int(x)
        elif self._note and self._head_at is None:
            self._head_at = (int(x), int(y))
        if code in _BRACKETS:
            return  # drawn at the end of the note, round its accidental too
        if self._kind == "tupletNum":
            self.systems[-1].tuplet_floor = max(self.systems[-1].tuplet_floor, int(y))
        place = f'x="{x}" y="{y}"'
        if scale != "0.72":
            place = f'transform="translate({x} {y})scale({float(scale) / MUSIC_SCALE:.4g})"'
        self._out.append(f'<use href="#{self._prefix}{code}" {place}/>')

    def _line(self, x1: str, y1: str, x2: str, y2: str, stroke: str) -> None:
        if not self._staff_stroke:
            self._staff_stroke = stroke
        if stroke == self._staff_stroke and y1 == y2:
            start = self._staff[y1][0] if y1 in self._staff else x1
            self._staff[y1] = (start, x2)
            return
        way = f"M{x1} {y1}V{y2}" if x1 == x2 else f"M{x1} {y1}H{x2}" if y1 == y2 else f"M{x1} {y1}L{x2} {y2}"
        if self._note:
            self._out.append(f'<path d="{way}" stroke="currentColor" stroke-width="{stroke}"/>')
        else:
            self._lines.setdefault(stroke, []).append(way)

    def _text(self, x: int, y: int) -> None:
        if self._kind == "harm":
            self.systems[-1].symbols.append((int(self._name[1:]), x, y))
        elif self._kind == "syl" and self._head_at is not None:
            self.systems[-1].degrees.append((self._heads[self._note].note, self._head_at[0], y))

    def _end_note(self) -> None:
        head = self._heads.get(self._note)
        if head is not None and head.marks and self._head_at is not None:
            self._own_marks(head.marks, *self._head_at)
        self._out.append("</g>")
        self._note, self._head_at, self._accidental_x = "", None, None

    def _own_marks(self, marks: tuple[str, ...], x: int, y: int) -> None:
        """Draw what Verovio has no sign for: a fall, a scoop, and brackets that take in the accidental."""
        left = x if self._accidental_x is None else self._accidental_x
        if "ghost" in marks:
            self._out.append(
                f'<use href="#{self._prefix}E26A" x="{left - 116}" y="{y}"/>'
                f'<use href="#{self._prefix}E26B" x="{x + _HEAD_WIDTH - 2}" y="{y}"/>'
            )
        if "fall" in marks:
            self._curve(f"M{x + _HEAD_WIDTH + 30} {y}c70 6 120 80 130 230")
        if "scoop" in marks:
            self._curve(f"M{left - 165} {y + 190}c6 -110 50 -170 130 -180")

    def _curve(self, data: str) -> None:
        self._out.append(
            f'<path d="{data}" fill="none" stroke="currentColor" stroke-width="24" stroke-linecap="round"/>'
        )

    def end_system(self) -> None:
        """Write the lines of the system that ends here and begin a new list of elements."""
        if self._note:
            self._end_note()
        if self.systems:
            self.systems[-1].staff_top = min((int(y) for y in self._staff), default=0)
            way = "".join(f"M{x1} {y}H{x2}" for y, (x1, x2) in self._staff.items())
            self._lines.setdefault(self._staff_stroke, []).insert(0, way)
            for stroke, ways in self._lines.items():
                self._out.append(f'<path d="{"".join(ways)}" stroke="currentColor" stroke-width="{stroke}"/>')
        self._out, self._staff, self._lines = [], {}, {}
