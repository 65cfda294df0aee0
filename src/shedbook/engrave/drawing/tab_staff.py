"""Tablature under a staff: a line for each string, and the fret of each note under its head. Pure geometry.

The rhythm stands in the staff above and is not repeated. A line is interrupted where a figure stands on it,
so that the figure can be read on any background. A tied note has no figure, except where it opens a bar:
there its fret stands in brackets. Sizes are in drawing units (180 to a staff space).
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from shedbook.editions.fingering.tab import Stop, Tab
from shedbook.engrave.drawing.outlined_words import OutlinedWord, PlacedWord, text_word
from shedbook.engrave.engraver.verovio_svg import HALF_HEAD, DrawnSystem
from shedbook.engrave.notation.score_notes import ScoreNote
from shedbook.engrave.notation.score_style import SPACE

LINE_GAP = round(1.5 * SPACE)
"""The distance of two lines: one and a half times that of a staff's lines (Gould 2011, from memory)."""
_FIGURE_EM = 1.75 * SPACE
_GRACE_EM = 1.3 * SPACE
_FIGURE_RISE = 0.33
"""How far the middle of a figure lies above its base line, in em: half of its height."""
_CLEAR = 26
"""The white on either side of a figure, in which its line is interrupted."""
_APART = 44
"""The least white between two figures."""
_HALF_GRACE = 85
"""Half the width of the head of a grace note, in drawing units."""
_ABOVE = 150
"""The least white between the top line and the lowest ink above it."""
_BELOW = 115
"""How far a figure reaches below the lowest line."""
_FROM_STAFF = 6 * SPACE
"""The least distance from the top line of the staff down to the top line of the tablature."""
_PEN, _EDGE_PEN = 27, 45
_SIGN_FILLS, _SIGN_LEFT = 1.15, 70
"""The em of the letters T, A, B in thirds of the height of the lines, which they fill; where they begin."""
_FONT = "sans-semibold"


@dataclass(frozen=True, slots=True)
class TabStaff:
    """The tablature of one system: SVG elements, words, and how far it reaches below the ink above it."""

    parts: tuple[str, ...]
    words: tuple[PlacedWord, ...]
    depth: float


@dataclass(frozen=True, slots=True)
class _Figure:
    """A fret to be drawn: its word, the x where it begins, its line counted from 0 at the top, its em."""

    word: OutlinedWord
    x: float
    line: int
    em: float

    @property
    def end(self) -> float:
        return self.x + self.word.width


def tab_staff(tab: Tab, system: DrawnSystem, notes: Mapping[str, ScoreNote], floor: int) -> TabStaff:
    """Return the tablature of a system.

    Args:
        tab: the strings and frets of the whole phrase.
        system: the system; its heads and bar lines say where figures and lines stand.
        notes: the score notes of the phrase by their names.
        floor: the ordinate of the lowest ink above the tablature.
    """
    top = max(floor + _ABOVE, _FROM_STAFF)
    height = LINE_GAP * (tab.strings - 1)
    figures = _apart(sorted(_figures(tab, system, notes), key=lambda one: one.x))
    right = max((x + int(stroke) / 2 for x, stroke in system.bar_lines), default=0)
    parts = [
        _path("".join(_lines(tab.strings, figures, top, round(right))), _PEN),
        *_bar_lines(system, top + height),
    ]
    words = [
        PlacedWord(one.word, one.x, top + LINE_GAP * one.line + _FIGURE_RISE * one.em) for one in figures
    ]
    return TabStaff(tuple(parts), (*_sign(top, height), *words), top + height + _BELOW - floor)


def _figures(tab: Tab, system: DrawnSystem, notes: Mapping[str, ScoreNote]) -> Iterator[_Figure]:
    """Yield the figures of a system, each centred under its head."""
    for name, x in system.named.items():
        own, mark, place = name.partition("g")
        note = notes.get(own)
        if note is None:
            continue
        if mark:
            stop, em, middle = tab.graces[note.struck][int(place)], _GRACE_EM, x + _HALF_GRACE
        elif note.part and not note.over_bar:
            continue
        else:
            stop, em, middle = tab.notes[note.struck], _FIGURE_EM, x + HALF_HEAD
        if stop is not None:
            word = _fret(stop, em, tied=note.part > 0)
            yield _Figure(word, middle - word.width / 2, stop.string - 1, em)


def _fret(stop: Stop, em: float, *, tied: bool) -> OutlinedWord:
    return text_word(f"({stop.fret})" if tied else str(stop.fret), _FONT, em)


def _apart(figures: list[_Figure]) -> list[_Figure]:
    """Return the figures, moved to the left where one would touch the next, as those of grace notes do.

    They are gone through from the last to the first.
    """
    found: list[_Figure] = []
    for one in reversed(figures):
        limit = found[-1].x - _APART if found else one.end
        found.append(_Figure(one.word, min(one.x, limit - one.word.width), one.line, one.em))
    return found[::-1]


def _lines(count: int, figures: list[_Figure], top: int, right: int) -> Iterator[str]:
    """Yield the lines as path data, in pieces between the figures that stand on them."""
    for line in range(count):
        y, start = top + LINE_GAP * line, 0
        for one in figures:
            if one.line == line:
                yield f"M{start} {y}H{max(start, round(one.x - _CLEAR))}"
                start = round(one.end + _CLEAR)
        yield f"M{start} {y}H{right}"


def _bar_lines(system: DrawnSystem, bottom: int) -> Iterator[str]:
    """Yield the bar lines, from the staff down through the tablature, and the line at the left of both."""
    half = _PEN / 2
    strokes: dict[str, list[int]] = {}
    for x, stroke in system.bar_lines:
        strokes.setdefault(stroke, []).append(x)
    for stroke, places in strokes.items():
        ways = "".join(f"M{x} {4 * SPACE}V{bottom + half:g}" for x in dict.fromkeys(places))
        yield _path(ways, int(stroke))
    yield _path(f"M{_EDGE_PEN / 2:g} {-half:g}V{bottom + half:g}", _EDGE_PEN)


def _sign(top: int, height: int) -> Iterable[PlacedWord]:
    """Yield the letters T, A, B, one below the other at the beginning, where a clef would stand."""
    step = height / 3
    em = _SIGN_FILLS * step
    first = top + height / 2 - step + _FIGURE_RISE * em
    widest = max(text_word(letter, _FONT, em).width for letter in "TAB")
    for place, letter in enumerate("TAB"):
        word = text_word(letter, _FONT, em)
        yield PlacedWord(word, _SIGN_LEFT + (widest - word.width) / 2, first + place * step)


def _path(way: str, stroke: int) -> str:
    return f'<path d="{way}" fill="none" stroke="currentColor" stroke-width="{stroke}"/>'
