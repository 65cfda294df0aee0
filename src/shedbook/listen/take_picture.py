"""A take as a picture: what is written as open boxes, what sounded as filled ones; time goes right."""

from __future__ import annotations

from collections.abc import Sequence
from html import escape

from shedbook.listen.lines import Line
from shedbook.listen.measures import Measures
from shedbook.listen.note_search import EXTRA, WRONG
from shedbook.listen.tables.picture import (
    BOTTOM,
    EDGE,
    FILL,
    LEAST_WIDTH,
    LEFT,
    PIXELS_A_SECOND,
    PIXELS_A_SEMITONE,
    RIGHT,
    TOP,
)
from shedbook.listen.take_reading import MISSING, TakeReading

_FONT = 'font-family="sans-serif"'


def take_picture(
    reading: TakeReading,
    line: Line,
    measures: Measures,
    *,
    title: str,
    names: Sequence[str],
    remarks: Sequence[str],
) -> str:
    """Return a take as an SVG document.

    Args:
        reading: the take.
        line: its phrase.
        measures: how it was played.
        title: stands above it.
        names: the name of each written note, in order.
        remarks: short lines for below.
    """
    draw = _Drawing(reading, line, measures)
    height = TOP + draw.height + BOTTOM + 16 * len(remarks)
    parts = [
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{draw.width:.0f}" height="{height:.0f}" '
        f'viewBox="0 0 {draw.width:.0f} {height:.0f}" role="img" aria-label="{escape(title, quote=True)}">',
        f'<rect width="100%" height="100%" fill="#ffffff"/>'
        f'<text x="{LEFT}" y="24" {_FONT} font-size="16" fill="#1a1a1a">{escape(title)}</text>',
        *draw.bars(),
        *draw.notes(names),
    ]
    below = TOP + draw.height + 40
    for number, remark in enumerate((_KEY_TO_SIGNS, *remarks)):
        parts.append(
            f'<text x="{LEFT}" y="{below + 16 * number:.0f}" {_FONT} font-size="12" fill="#1a1a1a">'
            f"{escape(remark)}</text>"
        )
    return "\n".join([*parts, "</svg>", ""])


_KEY_TO_SIGNS = "open: written · filled: as written · crossed: wrong · dashed: missing · diamond: extra"


class _Drawing:
    """Places of seconds and pitches in the picture."""

    def __init__(self, reading: TakeReading, line: Line, measures: Measures) -> None:
        self._reading, self._line, self._measures = reading, line, measures
        sounded = [note.midi for note in reading.played if note is not None]
        sounded += [slip.sounded for slip in reading.slips if slip.sounded is not None]
        written = [midi + reading.moved for midi in line.midi]
        self._top = max([*sounded, *written]) + 2
        self.height = (self._top - min([*sounded, *written]) + 3) * PIXELS_A_SEMITONE
        self._start = reading.start_s - 0.3
        seconds = reading.end_s - reading.start_s + 0.6
        self.width = max(LEAST_WIDTH, LEFT + RIGHT + seconds * PIXELS_A_SECOND)

    def _x(self, second: float) -> float:
        return LEFT + (second - self._start) * PIXELS_A_SECOND

    def _y(self, midi: float) -> float:
        return TOP + (self._top - midi) * PIXELS_A_SEMITONE

    def _second(self, index: int, *, end: bool = False) -> float:
        """Return when a written note is due, by the notes that were played around it."""
        note = self._line.notes[index]
        place = float(note.end if end else note.start)
        tempo = self._measures.tempo
        if tempo is None:
            return self._reading.start_s + place / 2
        return tempo.bar_1_s + place * 60 / tempo.qpm

    def bars(self) -> list[str]:
        """Return the bar lines with their numbers, where the tempo is known."""
        tempo = self._measures.tempo
        if tempo is None:
            return []
        found = []
        for bar in range(1, max(note.bar for note in self._line.notes) + 2):
            x = self._x(tempo.bar_1_s + (bar - 1) * float(self._line.bar_quarters) * 60 / tempo.qpm)
            if x > self.width - RIGHT / 2:
                break
            found.append(
                f'<line x1="{x:.1f}" x2="{x:.1f}" y1="{TOP}" y2="{TOP + self.height}" stroke="#8a8a8a"/>'
                f'<text x="{x + 3:.1f}" y="{TOP - 4}" {_FONT} font-size="12" fill="#4a4a4a">{bar}</text>'
            )
        return found

    def notes(self, names: Sequence[str]) -> list[str]:
        """Return all notes, written and sounded."""
        kinds = {slip.which: slip.kind for slip in self._reading.slips if slip.kind in (WRONG, MISSING)}
        found = []
        for index, note in enumerate(self._reading.played):
            midi, kind = self._line.notes[index].midi + self._reading.moved, kinds.get(index, "played")
            start, end = self._second(index), self._second(index, end=True)
            found.append(self._box("missing" if kind == MISSING else "written", start, end, midi))
            found.append(
                f'<text x="{self._x(start):.1f}" y="{self._y(midi) - PIXELS_A_SEMITONE:.1f}" {_FONT} '
                f'font-size="10" fill="#4a4a4a">{escape(names[index])}</text>'
            )
            if note is not None:
                found.append(self._box(kind, note.start_s, note.end_s, note.midi))
        found += [
            self._diamond(slip.at_s, slip.sounded)
            for slip in self._reading.slips
            if slip.kind == EXTRA and slip.at_s is not None and slip.sounded is not None
        ]
        return found

    def _box(self, kind: str, start: float, end: float, midi: int) -> str:
        x, y = self._x(start), self._y(midi + 0.5)
        width, height = max(3.0, (end - start) * PIXELS_A_SECOND), PIXELS_A_SEMITONE
        if kind not in ("written", "missing"):
            y, height = y + 2, height - 4
        dashes = ' stroke-dasharray="4 3" stroke-width="2"' if kind == MISSING else ""
        box = (
            f'<rect x="{x:.1f}" y="{y:.1f}" width="{width:.1f}" height="{height}" fill="{FILL[kind]}" '
            f'stroke="{EDGE[kind]}"{dashes}/>'
        )
        if kind == WRONG:
            box += (
                f'<path d="M{x:.1f} {y:.1f}l{width:.1f} {height}m0 -{height}l-{width:.1f} {height}" '
                f'stroke="#ffffff"/>'
            )
        return box

    def _diamond(self, second: float, midi: int) -> str:
        x, y, half = self._x(second) + 5, self._y(midi), 6
        path = f"M{x:.1f} {y - half:.1f}l{half} {half}l-{half} {half}l-{half} -{half}z"
        return f'<path d="{path}" fill="{FILL[EXTRA]}"/>'
