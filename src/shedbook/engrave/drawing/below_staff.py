"""What stands below a staff: degrees under notes, a wedge under each landing, a bracket for each link. Pure.

Landings and links are told apart by their shapes, not by a colour. Sizes are in drawing units (180 to a staff
space), and ordinates count downwards from the top line of the system's staff.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from shedbook.engrave.drawing.outlined_words import PlacedWord, degree_word
from shedbook.engrave.engraver.verovio_svg import HALF_HEAD, DrawnSystem
from shedbook.engrave.notation.score_style import DEGREE_EM
from shedbook.engrave.notation.study_marks import StudyMarks

DEGREE_FALL = 60
"""How far a degree reaches below its base line."""
_DEGREE_CLEARANCE = 340
"""The least distance from the base line of a tuplet's number down to the base line of the degrees."""
_DEGREE_GAP = 45
"""The least white between two degrees."""

_GAP = 70
"""The white over the row of wedges and brackets."""
_WEDGE_HALF, _WEDGE_HIGH = 62, 92
_HOOK, _PEN = 85, 20
_ROW = 130
"""The height of the row of wedges and brackets."""
_APART = 95
"""How far a bracket's ends stay away from the middle of the heads, so that wedge and hook do not touch."""


def degree_drop(system: DrawnSystem) -> int:
    """Return how far the degrees must go down from where Verovio put them, to clear the tuplet numbers."""
    if not system.degrees:
        return 0
    return max(0, system.tuplet_floor + _DEGREE_CLEARANCE - max(y for _, _, y in system.degrees))


def degrees_floor(system: DrawnSystem, drop: int) -> float:
    """Return the lowest ink of a system with its degrees, which stand `drop` lower than Verovio put them."""
    if not system.degrees:
        return system.lower
    return max(system.lower, max(y for _, _, y in system.degrees) + drop + DEGREE_FALL)


def degrees_below(marks: StudyMarks, seen: StudyMarks, system: DrawnSystem, drop: int) -> list[PlacedWord]:
    """Return the degrees that are `seen`, each centred under its head, all on one base line.

    Two neighbours that stand too near to each other are moved apart, each by half of what is missing.
    """
    base = max((y for _, _, y in system.degrees), default=0) + drop
    placed: list[PlacedWord] = []
    for note, x, _ in system.degrees:
        word = degree_word(marks.under[note], "sans", DEGREE_EM)
        left = x + HALF_HEAD - word.width / 2
        if placed:
            before = placed[-1]
            missing = before.x + before.word.width + _DEGREE_GAP - left
            if missing > 0:
                placed[-1] = PlacedWord(before.word, before.x - missing / 2, before.y)
                left += missing / 2
        placed.append(PlacedWord(word, left, base))
    if seen is marks:
        return placed
    notes = [note for note, _, _ in system.degrees]
    return [word for word, note in zip(placed, notes, strict=True) if note in seen.under]


def marks_below(
    marks: StudyMarks, places: Mapping[int, int], floor: float, width: float
) -> tuple[tuple[str, ...], int]:
    """Return the wedges and brackets under one system as SVG elements, and how far they reach below `floor`.

    Args:
        marks: the landings and links of the whole phrase.
        places: the left edges of the heads in this system, by struck note.
        floor: the lowest ink of the system.
        width: the length of the system. A link that leads to the next system runs to its end, and goes on
            there from the beginning.
    """
    top = round(floor) + _GAP
    drawn = [*_wedges(marks, places, top), *_brackets(marks, places, top, width)]
    return tuple(drawn), _GAP + _ROW if drawn else 0


def _wedges(marks: StudyMarks, places: Mapping[int, int], top: int) -> Iterable[str]:
    """Yield a wedge for each landing in the system."""
    for note in sorted(marks.landings & places.keys()):
        x = places[note] + HALF_HEAD
        yield f'<path d="M{x} {top}l{_WEDGE_HALF} {_WEDGE_HIGH}h{-2 * _WEDGE_HALF}z"/>'


def _brackets(marks: StudyMarks, places: Mapping[int, int], top: int, width: float) -> Iterable[str]:
    """Yield a bracket for each link of which at least one end stands in the system."""
    low = top + _HOOK
    for before, after in marks.links:
        start, end = places.get(before), places.get(after)
        if start is None and end is None:
            continue
        way = ""
        if start is not None:
            way = f"M{start + HALF_HEAD + (_APART if before in marks.landings else 0)} {top}V{low}"
        else:
            way = f"M0 {low}"
        if end is not None:
            way += f"H{end + HALF_HEAD - _APART}V{top}"
        else:
            way += f"H{round(width)}"
        yield f'<path d="{way}" fill="none" stroke="currentColor" stroke-width="{_PEN}"/>'
