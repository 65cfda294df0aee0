"""The notes and rests of one system as they are written: heads with their stems, beams, flags, dots, signs.

Nothing is known here of what the score should be. A head that is no note, such as a black one without a
stem, and a sign that belongs to nothing make a fault, which names the x and says what is wrong.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field

from shedbook.read_back.beams import FLAGS, Fault, Written, shorten
from shedbook.read_back.ink import Dot, Glyph, Stroke
from shedbook.read_back.staves import System

HEADS = {"E0A2": 1, "E0A3": 2, "E0A4": 4}
RESTS = {"E4E3": 1, "E4E4": 2, "E4E5": 4, "E4E6": 8, "E4E7": 16, "E4E8": 32}
SIGNS = {"E260": -1, "E261": 0, "E262": 1, "E263": 2, "E264": -2, "E265": 3, "E266": -3}
"""Glyphs of SMuFL: heads and rests by the part of a whole note, accidentals by half steps."""
HEAD_WIDTH = 1.2
"""The width of a black head in spaces."""
_SMALL = 0.9
"""Glyphs smaller than this share of the clef's size belong to grace notes."""
_STEM_LEAST = 1.8
_SIGN_REACH, _WIDE_SIGN_REACH = 2.1, 2.7
"""How far left of its head an accidental may stand, in spaces, brackets included; a wide one farther."""
_WIDE_SIGNS = ("E264", "E266")


@dataclass(slots=True)
class WrittenSystem:
    """What is written in one system, from left to right; `bar_lines` are abscissas."""

    notes: list[Written] = field(default_factory=list)
    bar_lines: list[float] = field(default_factory=list)
    signature: list[tuple[int, int]] = field(default_factory=list)
    metre: tuple[int, int] | None = None
    faults: list[Fault] = field(default_factory=list)


def written_system(system: System) -> WrittenSystem:
    """Return what is written in a system."""
    found = WrittenSystem()
    size = system.clef.size
    music = [glyph for glyph in system.glyphs if glyph.font == "music"]
    _heads_and_rests(system, music, size, found)
    verticals = [stroke for stroke in system.strokes if _is_vertical(stroke)]
    stems = _stems(found, verticals)
    _bar_lines(found, verticals, stems)
    found.faults += shorten(found.notes, system.areas, [glyph for glyph in music if glyph.name in FLAGS])
    _dots(found, system.dots)
    _signs(found, system, music, size)
    found.metre = _metre(music, found)
    found.notes.sort(key=lambda note: note.x)
    return found


def _heads_and_rests(system: System, music: Sequence[Glyph], size: float, found: WrittenSystem) -> None:
    for glyph in music:
        if glyph.name in HEADS:
            exact = system.step_at(glyph.y)
            step = round(exact)
            if abs(exact - step) > 0.2:
                found.faults.append(Fault(glyph.x, "a head stands neither on a line nor between two"))
            small = glyph.size < _SMALL * size
            found.notes.append(Written(glyph.x, glyph.y, HEADS[glyph.name], step, small))
        elif glyph.name in RESTS and glyph.size >= _SMALL * size:
            found.notes.append(Written(glyph.x, glyph.y, RESTS[glyph.name]))


def _is_vertical(stroke: Stroke) -> bool:
    return abs(stroke.x1 - stroke.x2) < 0.02 and abs(stroke.y1 - stroke.y2) > 0.5


def _stems(found: WrittenSystem, verticals: Sequence[Stroke]) -> set[int]:
    """Give each head its stem; return the indexes of the strokes that are stems."""
    used: set[int] = set()
    for note in found.notes:
        if note.step is None or note.part == 1:
            continue
        for index, stroke in enumerate(verticals):
            if abs(stroke.y1 - stroke.y2) < (_STEM_LEAST if not note.small else 1):
                continue
            width = HEAD_WIDTH if not note.small else stroke.x1 - note.x
            beside = abs(stroke.x1 - note.x - 0.05) < 0.15 or abs(stroke.x1 - note.x - width) < 0.2
            if not beside or (note.small and not 0 <= stroke.x1 - note.x < HEAD_WIDTH):
                continue
            near, far = sorted((stroke.y1, stroke.y2), key=lambda y: abs(y - note.y))
            if abs(near - note.y) < 0.45:
                note.stem, note.tip = stroke.x1, far
                used.add(index)
                break
        else:
            if not note.small:
                found.faults.append(Fault(note.x, "a head that needs a stem has none"))
    return used


def _bar_lines(found: WrittenSystem, verticals: Sequence[Stroke], stems: set[int]) -> None:
    """Find the bar lines; a thin and a thick one side by side are one."""
    places = []
    for index, stroke in enumerate(verticals):
        high, low = sorted((stroke.y1, stroke.y2))
        if index not in stems and abs(high) < 0.1 and abs(low - 4) < 0.1:
            places.append(stroke.x1)
        elif index not in stems and stroke.width < 0.12 and stroke.x1 > 1 and high < 6 and low - high > 1:
            found.faults.append(Fault(stroke.x1, "a stem belongs to no head"))
    for x in sorted(places):
        if not found.bar_lines or x - found.bar_lines[-1] > 1.2:
            found.bar_lines.append(x)


# Dots and accidentals.


def _dots(found: WrittenSystem, dots: Iterable[Dot]) -> None:
    """Give each dot to the note or rest at its left."""
    for dot in dots:
        near = [
            note
            for note in found.notes
            if 0.8 < dot.x - note.x < 3.4 and (note.step is None or abs(dot.y - note.y) < 0.7)
        ]
        if not near:
            found.faults.append(Fault(dot.x, "a dot belongs to no note"))
            continue
        max(near, key=lambda note: note.x).dots += 1


def _signs(found: WrittenSystem, system: System, music: Sequence[Glyph], size: float) -> None:
    """Give each accidental to the head at its right; those before any note are the key signature."""
    first = min((note.x for note in found.notes if not note.small), default=0.0)
    brackets = [glyph for glyph in music if glyph.name in ("E26A", "E0F5")]
    for sign in sorted((glyph for glyph in music if glyph.name in SIGNS), key=lambda glyph: glyph.x):
        small = sign.size < _SMALL * size
        reach = _WIDE_SIGN_REACH if sign.name in _WIDE_SIGNS else _SIGN_REACH
        heads = [
            note
            for note in found.notes
            if note.step is not None
            and abs(note.y - sign.y) < 0.2
            and 0.2 < note.x - sign.x < reach
            and note.small == small
        ]
        if heads:
            head = min(heads, key=lambda note: note.x)
            if head.sign is not None:
                found.faults.append(Fault(sign.x, "a note has two accidentals"))
            head.sign, head.sign_x = SIGNS[sign.name], sign.x
            head.bracketed = any(abs(one.y - sign.y) < 0.3 and 0 < sign.x - one.x < 1.2 for one in brackets)
        elif sign.x < first and not small:
            found.signature.append((round(system.step_at(sign.y)), SIGNS[sign.name]))
        else:
            found.faults.append(Fault(sign.x, "an accidental belongs to no note"))


def _metre(music: Sequence[Glyph], found: WrittenSystem) -> tuple[int, int] | None:
    """Return the metre that is written after the clef, if one is."""
    rows: list[list[Glyph]] = [[], []]
    for glyph in music:
        if "E080" <= glyph.name <= "E089":
            rows[glyph.y > 2].append(glyph)
    if not rows[0] or not rows[1]:
        return None
    above, below = (
        int("".join(glyph.name[-1] for glyph in sorted(row, key=lambda one: one.x))) for row in rows
    )
    return above, below
