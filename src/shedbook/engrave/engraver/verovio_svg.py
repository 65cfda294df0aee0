"""Reads the SVG that Verovio draws: divides it into scores and systems, and finds where our lettering goes.

The elements of the drawing are read once, from first to last. Wrappers, the style sheet, placeholders and
random ids are left out; every note stays a group with its name; the staff lines of a system become one path.
Ordinates count from the top line of the system's own staff, so that a score looks the same wherever it stood
on Verovio's page.
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import NamedTuple

from shedbook.engrave.engraver.svg_paths import curve_points, short_slur_end, vertical_extent
from shedbook.engrave.notation.score_notes import ScoreNote
from shedbook.engrave.notation.score_style import SPACE
from shedbook.errors import RenderError

MUSIC_SCALE = 0.72
"""Verovio's size of the music font: 1000 units of the font are 720 drawing units."""
HALF_HEAD = 113
"""Half the width of a note's head, in drawing units."""
_BRACKETS = ("E26A", "E26B")
"""The brackets round an accidental, by their SMuFL code points."""
_NUMBER_CLEAR = 50
"""The least white between the number of a tuplet and a staff."""
_TUPLET_BRACKET = 16
"""The stroke of a tuplet's bracket: a little thinner than Verovio draws it."""

_DEFINITION = re.compile(r'<g id="(E\w+)-\w+"><path transform="scale\(1,-1\)" d="([^"]*)"/></g>')
_PAGE = re.compile(r'class="definition-scale"[^>]*viewBox="0 0 (\d+) \d+"')
# The part of a slur or tie on a further system has a class, but no name.
_TOKEN = re.compile(
    r'<g (?:id="(?:k\d+-)?([^"]*)" )?class="'
    r"(mdiv|system|note|rest|mRest|beam|tuplet\w*|tie|slur|staff|barLine|harm|syl|accid)\b"
    r'|<use xlink:href="#(\w+)-\w+" transform="translate\((-?\d+), (-?\d+)\) scale\(([\d.]+),'
    r'|<path d="M(-?\d+) (-?\d+) L(-?\d+) (-?\d+)" stroke-width="(\d+)"'
    r'|<path d="([^"]*)" stroke-width="(\d+)"'
    r'|<poly(gon|line)[^>]* points="([^"]*)"'
    r'|<ellipse cx="(\d+)" cy="(-?\d+)" rx="(\d+)"'
    r'|<text x="(-?\d+)" y="(-?\d+)"'
)
_INSIDE_NOTE = frozenset(("accid", "syl"))


@dataclass(slots=True)
class DrawnSystem:
    """One system: its elements, how far its ink reaches, and where chord symbols and degrees belong.

    All numbers are drawing units. Abscissas count from the left end of the system.

    Attributes:
        parts: the SVG elements of the system.
        top: the ordinate of the top line of its staff on Verovio's page; all other ordinates count from it.
        upper: the highest ink.
        lower: the lowest ink.
        tuplet_floor: the base line of the lowest tuplet number; Verovio sets degrees too near to it.
        slurs: the path data of the slurs; Verovio draws them across chord symbols.
        symbols: for each chord symbol the index of its change, its x, its base line.
        degrees: for each degree the struck note, the x of its head, its base line.
        places: by struck note, the x of the head where it is struck.
        named: by name, the x of every head, those of grace notes and tied notes included.
        bar_lines: for each bar line its x and the width of its stroke.
    """

    parts: list[str] = field(default_factory=list)
    top: int = 0
    upper: float = 0
    lower: float = 4 * SPACE
    tuplet_floor: int = 0
    slurs: list[str] = field(default_factory=list)
    symbols: list[tuple[int, int, int]] = field(default_factory=list)
    degrees: list[tuple[int, int, int]] = field(default_factory=list)
    places: dict[int, int] = field(default_factory=dict)
    named: dict[str, int] = field(default_factory=dict)
    bar_lines: list[tuple[int, str]] = field(default_factory=list)


@dataclass(slots=True)
class DrawnScore:
    """One score of the drawing: its systems, the names of the notes drawn, the music glyphs used."""

    systems: list[DrawnSystem] = field(default_factory=list)
    drawn: set[str] = field(default_factory=set)
    music: set[str] = field(default_factory=set)


@dataclass(frozen=True, slots=True)
class DrawnPage:
    """What was read from a page: its scores, their width in drawing units, and the outlines of music glyphs.

    `outlines` holds path data by the SMuFL code point of the glyph, in units of the music font.
    """

    scores: tuple[DrawnScore, ...]
    width: int
    outlines: Mapping[str, str]


def read_verovio_svg(picture: str, notes: Sequence[Mapping[str, ScoreNote]], prefix: str) -> DrawnPage:
    """Read a page that Verovio has drawn.

    Args:
        picture: the SVG, as `verovio_door.svg` gives it.
        notes: for each score of the page, its score notes by their names.
        prefix: opens every id that is written.

    Raises:
        RenderError: if the drawing is not of the expected kind, or holds another number of scores.
    """
    head, mark, body = picture.partition('class="page-margin"')
    page = _PAGE.search(head)
    if not mark or page is None:
        raise RenderError("Verovio's drawing is not of the expected kind.")
    tracer = _Tracer(notes, dict(_DEFINITION.findall(head)), prefix)
    for token in _TOKEN.findall(body):
        tracer.take(token)
    tracer.end_system()
    if len(tracer.scores) != len(notes):
        raise RenderError(f"Verovio drew {len(tracer.scores)} scores instead of {len(notes)}.")
    return DrawnPage(tuple(tracer.scores), int(page[1]), tracer.outlines)


def _clear_of_staff(y: int, outline: str) -> int:
    """Return the base line of a tuplet's number, moved out of the staff where its lines would cross it."""
    below, above = vertical_extent(outline)
    top, low = y - MUSIC_SCALE * above, y - MUSIC_SCALE * below
    if low < -_NUMBER_CLEAR or top > 4 * SPACE + _NUMBER_CLEAR:
        return y
    if (top + low) / 2 > 2 * SPACE:
        return round(4 * SPACE + _NUMBER_CLEAR + MUSIC_SCALE * above)
    return round(MUSIC_SCALE * below - _NUMBER_CLEAR)


class _Polyline(NamedTuple):
    """One half of a tuplet's bracket: the end of its hook, its corner, and its end beside the number."""

    xs: tuple[str, ...]
    ys: tuple[int, ...]

    @property
    def points(self) -> str:
        return " ".join([f"{x},{y}" for x, y in zip(self.xs, self.ys, strict=True)])

    @property
    def svg(self) -> str:
        pen = f'fill="none" stroke="currentColor" stroke-width="{_TUPLET_BRACKET}"'
        return f'<polyline points="{self.points}" {pen}/>'

    def levelled(self, level: int) -> _Polyline:
        """Return this half of the bracket with its line moved to `level`; the hook keeps its length."""
        return _Polyline(self.xs, (level - self.ys[1] + self.ys[0], *[level for _ in self.ys[1:]]))


class _Tracer:
    """Reads the elements one by one; holds the open score, system and note, and the lines not yet joined."""

    def __init__(
        self, notes: Sequence[Mapping[str, ScoreNote]], outlines: Mapping[str, str], prefix: str
    ) -> None:
        self.scores: list[DrawnScore] = []
        self.outlines = outlines
        self._notes = notes
        self._prefix = prefix
        self._system: DrawnSystem | None = None
        self._out: list[str] = []
        self._kind = self._name = self._note = ""
        self._head_at: tuple[int, int] | None = None
        self._accidental_x: int | None = None
        self._half: tuple[int, _Polyline] | None = None
        self._number: tuple[int, str, str, int] | None = None
        self._staff_stroke = ""
        self._staff: dict[int, tuple[str, str]] = {}
        self._lines: dict[str, list[str]] = {}

    def take(self, token: tuple[str, ...]) -> None:
        """Take in one element."""
        (name, kind, code, x, y, scale, x1, y1, x2, y2, stroke,
         path, path_stroke, poly, points, cx, cy, radius, text_x, text_y) = token  # fmt: skip
        if kind:
            self._group(name, kind)
        elif self._system is None:
            return
        elif code:
            self._glyph(self._system, code, x, int(y) - self._system.top, scale)
        elif stroke:
            self._line(self._system, x1, int(y1), x2, int(y2), stroke)
        elif path:
            self._curve(self._system, path, path_stroke)
        elif poly:
            self._polygon(self._system, points, closed=poly == "gon")
        elif radius and (self._note or self._kind == "rest"):
            self._out.append(f'<circle cx="{cx}" cy="{int(cy) - self._system.top}" r="{radius}"/>')
        elif text_x:
            self._text(self._system, int(text_x), int(text_y) - self._system.top)

    def _group(self, name: str, kind: str) -> None:
        self._kind = kind
        if kind in _INSIDE_NOTE:
            return
        if self._note:
            self._end_note()
        if kind == "note":
            self._note = name
            self.scores[-1].drawn.add(name)
            self._out.append(f'<g id="{self._prefix}{name}">')
        elif kind == "system":
            self.end_system()
            self._system = DrawnSystem(self._out)
            self.scores[-1].systems.append(self._system)
        elif kind == "mdiv":
            self.end_system()
            self.scores.append(DrawnScore())
        else:
            self._name = name

    def _glyph(self, system: DrawnSystem, code: str, x: str, y: int, scale: str) -> None:
        if self._kind == "accid":  # the first of several is the bracket of a courtesy accidental
            self._accidental_x = int(x) if self._accidental_x is None else self._accidental_x
        elif self._note and self._head_at is None:
            self._head_at = (int(x), y)
        if code in _BRACKETS and self._kind != "accid":
            return  # the brackets of a ghost note are drawn at its end, round its accidental too
        if self._kind == "tupletNum":
            y = _clear_of_staff(y, self.outlines[code])
            system.tuplet_floor = max(system.tuplet_floor, y)
            self._number, self._half = (len(self._out), code, x, y), None
        place = f'x="{x}" y="{y}"'
        size = MUSIC_SCALE
        if scale != "0.72":
            size = float(scale)
            place = f'transform="translate({x} {y})scale({size / MUSIC_SCALE:.4g})"'
        self._use(system, code, place, y, size)

    def _use(self, system: DrawnSystem, code: str, place: str, y: int, size: float = MUSIC_SCALE) -> None:
        """Draw a music glyph."""
        self.scores[-1].music.add(code)
        below, above = vertical_extent(self.outlines[code])
        _stretch(system, y - size * above, y - size * below)
        self._out.append(f'<use href="#{self._prefix}{code}" {place}/>')

    def _line(self, system: DrawnSystem, x1: str, y1: int, x2: str, y2: int, stroke: str) -> None:
        if not self._staff_stroke:
            self._staff_stroke = stroke
        if not self._staff:
            system.top = y1  # a system opens with the top line of its staff
        y1, y2 = y1 - system.top, y2 - system.top
        if stroke == self._staff_stroke and y1 == y2:
            start = self._staff[y1][0] if y1 in self._staff else x1
            self._staff[y1] = (start, x2)
            return
        if self._kind == "barLine":
            system.bar_lines.append((int(x1), stroke))
        half = int(stroke) / 2
        _stretch(system, min(y1, y2) - half, max(y1, y2) + half)
        way = f"M{x1} {y1}V{y2}" if x1 == x2 else f"M{x1} {y1}H{x2}" if y1 == y2 else f"M{x1} {y1}L{x2} {y2}"
        if self._note:
            self._out.append(f'<path d="{way}" stroke="currentColor" stroke-width="{stroke}"/>')
        else:
            self._lines.setdefault(stroke, []).append(way)

    def _curve(self, system: DrawnSystem, path: str, stroke: str) -> None:
        """Draw a tie or a slur: "Mx,y Cx,y x,y x,y …"."""
        words = []
        for word in path.split():
            x, _, y = word.partition(",")
            words.append(f"{x},{round(float(y)) - system.top}")
        data = " ".join(words)
        if self._kind == "slur" and not self._name:
            data = short_slur_end(data)
        ys = [y for _, y in curve_points(data, steps=8)]
        _stretch(system, min(ys), max(ys))
        if self._kind == "slur":
            system.slurs.append(data)
        pen = f'stroke="currentColor" stroke-width="{stroke}" stroke-linejoin="round"'
        self._out.append(f'<path d="{data}" {pen}/>')

    def _polygon(self, system: DrawnSystem, points: str, *, closed: bool) -> None:
        """Draw a beam, or the bracket of a tuplet."""
        pairs = [point.split(",") for point in points.split()]
        ys = [int(y) - system.top for _, y in pairs]
        _stretch(system, min(ys), max(ys))
        half = _Polyline(tuple([x for x, _ in pairs]), tuple(ys))
        if closed:
            self._out.append(f'<polygon points="{half.points}"/>')
        elif self._kind == "tupletBracket":
            self._bracket(system, half)
        else:
            self._out.append(half.svg)

    def _bracket(self, system: DrawnSystem, half: _Polyline) -> None:
        """Draw one half of a tuplet's bracket, and with the second half make the whole bracket level.

        In players' parts a bracket does not follow the notes up or down (common practice). So both halves and
        the number between them are moved to the height of the end that lies farther from the staff.
        """
        self._out.append(half.svg)
        place = len(self._out) - 1
        if self._half is None or self._number is None:
            self._half = (place, half)
            return
        (before, first), (at, code, x, y) = self._half, self._number
        self._half = self._number = None
        ends = (first.ys[1], half.ys[1])
        if ends[0] == ends[1]:
            return
        below = first.ys[0] < first.ys[1]
        level = max(ends) if below else min(ends)
        self._out[before], self._out[place] = first.levelled(level).svg, half.levelled(level).svg
        y += level - round(sum(ends) / 2)
        self._out[at] = f'<use href="#{self._prefix}{code}" x="{x}" y="{y}"/>'
        low, high = vertical_extent(self.outlines[code])
        _stretch(system, y - MUSIC_SCALE * high, y - MUSIC_SCALE * low)
        system.tuplet_floor = max(system.tuplet_floor, y)

    def _text(self, system: DrawnSystem, x: int, y: int) -> None:
        if self._kind == "harm":
            system.symbols.append((int(self._name[1:]), x, y))
        elif self._kind == "syl" and self._head_at is not None:
            written = self._notes[len(self.scores) - 1][self._note]
            system.degrees.append((written.struck, self._head_at[0], y))

    def _end_note(self) -> None:
        written = self._notes[len(self.scores) - 1].get(self._note)
        if written is not None and written.marks and self._head_at is not None and self._system is not None:
            self._own_marks(self._system, written.marks, *self._head_at)
        if self._head_at is not None and self._system is not None:
            self._system.named[self._note] = self._head_at[0]
            if written is not None and written.part == 0:
                self._system.places[written.struck] = self._head_at[0]
        self._out.append("</g>")
        self._note, self._head_at, self._accidental_x = "", None, None

    def _own_marks(self, system: DrawnSystem, marks: tuple[str, ...], x: int, y: int) -> None:
        """Draw what Verovio has no sign for: falls, scoops, and brackets round a note with its accidental."""
        left = x if self._accidental_x is None else self._accidental_x
        if "ghost" in marks:
            self._use(system, "E26A", f'x="{left - 116}" y="{y}"', y)
            self._use(system, "E26B", f'x="{x + 2 * HALF_HEAD - 2}" y="{y}"', y)
        if "fall" in marks:
            self._stroke(f"M{x + 2 * HALF_HEAD + 30} {y}c70 6 120 80 130 230")
            _stretch(system, y, y + 242)
        if "scoop" in marks:
            self._stroke(f"M{left - 165} {y + 190}c6 -110 50 -170 130 -180")
            _stretch(system, y, y + 202)

    def _stroke(self, data: str) -> None:
        self._out.append(
            f'<path d="{data}" fill="none" stroke="currentColor" stroke-width="24" stroke-linecap="round"/>'
        )

    def end_system(self) -> None:
        """Write the lines of the system that ends here and begin a new list of elements."""
        if self._note:
            self._end_note()
        if self._system is not None:
            way = "".join(f"M{x1} {y}H{x2}" for y, (x1, x2) in self._staff.items())
            self._lines.setdefault(self._staff_stroke, []).insert(0, way)
            for stroke, ways in self._lines.items():
                self._out.append(f'<path d="{"".join(ways)}" stroke="currentColor" stroke-width="{stroke}"/>')
        self._system, self._out, self._staff, self._lines = None, [], {}, {}


def _stretch(system: DrawnSystem, upper: float, lower: float) -> None:
    """Let the ink of a system reach at least from `upper` down to `lower`."""
    if upper < system.upper:
        system.upper = upper
    if lower > system.lower:
        system.lower = lower
