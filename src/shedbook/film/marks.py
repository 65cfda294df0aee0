"""What is painted over a still page while a note sounds: the note in a colour, on a tinted ground.

A page is drawn three times: all in black, then with every second note in the colour, then with the others.
What differs from the black page between two heads is the note between them; so a mark is cut out without
drawing a page for every note.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from shedbook.film.card import Box, ScorePicture, SystemPlace

Picture = NDArray[np.uint8]
"""Height by width by 3: red, green, blue."""

COLOUR = "#b3261e"
"""The ink of a sounding note: 6.5 to 1 against white (WCAG 2.2, computed)."""
_TINT = np.array((255, 226, 140), np.float32) / 255
_RISE, _SIDE = 0.3, 0.16
"""How far the ground reaches over and under the staff, and beside the note, in the height of the staff."""


@dataclass(frozen=True, slots=True)
class Mark:
    """A piece of a picture at a place: `x` and `y` are even, as are its height and width."""

    x: int
    y: int
    pixels: Picture


def coloured(svg: str, parity: int, prefix: str = "s") -> str:
    """Return a score with every second struck note in the colour, from the first on or from the second."""

    def in_colour(found: re.Match[str]) -> str:
        odd = int(found[2]) % 2
        return f'<g id="{found[1]}" fill="{COLOUR}" color="{COLOUR}">' if odd == parity else found[0]

    return re.sub(rf'<g id="({prefix}n(\d+)(?:t\d+)?)">', in_colour, svg)


def marks_of(
    page: Picture, drawn: tuple[Picture, Picture], score: ScorePicture, place: Box
) -> Mapping[int, tuple[Mark, ...]]:
    """Return the marks of a page by struck note.

    Args:
        page: the page in black.
        drawn: the same with every second note in the colour, and with the others.
        score: what stands on it, with the places of its notes.
        place: where on the page the score stands.
    """
    changed = [(one != page).any(axis=2) for one in drawn]
    found: dict[int, list[Mark]] = {}
    before = None
    for index, system in enumerate(score.systems):
        order = sorted(system.heads.items(), key=lambda head: head[1])
        rows = _rows(score, index, place, page.shape[0])
        edges = [x for _, x in order[1:]] + [score.width + place.x]
        if before is not None and order:
            # What is tied over from the last note of the system before stands before the first head.
            mark = _mark(
                page, drawn[before % 2], changed[before % 2], rows, (0.0, order[0][1]), system, place
            )
            found.setdefault(before, []).extend([mark] if mark else [])
        for at, (note, x) in enumerate(order):
            left = order[at - 1][1] if at else 0.0
            sides = (left, edges[at])
            mark = _mark(page, drawn[note % 2], changed[note % 2], rows, sides, system, place, x)
            found.setdefault(note, []).extend([mark] if mark else [])
        before = order[-1][0] if order else before
    return {note: tuple(marks) for note, marks in found.items()}


def _rows(score: ScorePicture, index: int, place: Box, height: int) -> tuple[int, int]:
    """Return the rows of the page that belong to a system: half of the white on either side."""
    systems = score.systems
    top = 0.0 if not index else (systems[index - 1].top + systems[index - 1].staff + systems[index].top) / 2
    last = index + 1 == len(systems)
    low = score.height if last else (systems[index].top + systems[index].staff + systems[index + 1].top) / 2
    return max(0, round(place.y + top)), min(height, round(place.y + low))


def _mark(
    page: Picture,
    drawn: Picture,
    changed: NDArray[np.bool_],
    rows: tuple[int, int],
    sides: tuple[float, float],
    system: SystemPlace,
    place: Box,
    head: float | None = None,
) -> Mark | None:
    """Return the mark of a note that lies between two abscissas of a system; None where nothing differs.

    A note of the same colour lies two heads away, so everything between the heads about it is its own.
    """
    left = max(0, round(place.x + sides[0] + 1))
    right = min(page.shape[1], round(place.x + sides[1] - 1))
    own = changed[rows[0] : rows[1], left:right]
    ys, xs = np.nonzero(own)
    if not len(ys):
        return None
    side, rise = system.staff * _SIDE, system.staff * _RISE
    first = left + int(xs.min()) - side
    last = left + int(xs.max()) + side
    high = min(rows[0] + int(ys.min()) - side, place.y + system.top - rise)
    low = max(rows[0] + int(ys.max()) + side, place.y + system.top + system.staff + rise)
    x, y = _even(max(first, 0)), _even(max(high, 0))
    width = min(_even(last) + 2, page.shape[1]) - x
    tall = min(_even(low) + 2, page.shape[0]) - y
    piece = np.array(page[y : y + tall, x : x + width])
    inner = np.zeros((tall, width), bool)
    inner[max(0, rows[0] - y) : rows[1] - y, max(0, left - x) : right - x] = True
    seen = inner & changed[y : y + tall, x : x + width]
    piece[seen] = drawn[y : y + tall, x : x + width][seen]
    return Mark(x, y, np.asarray(np.rint(piece * _TINT), np.uint8))


def _even(number: float) -> int:
    return int(number) // 2 * 2
