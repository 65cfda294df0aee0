"""The geometry of SVG path data: how far a glyph reaches, points along a curve, short ends of slurs. Pure.

Ordinates (y) grow downwards in a picture and upwards in a glyph's outline.
"""

from __future__ import annotations

import math
import re
from functools import lru_cache

_COMMAND = re.compile(r"([a-zA-Z])([^a-zA-Z]*)")
_NUMBER = re.compile(r"-?[\d.]+")
_PLACES = {"m": 1, "l": 1, "s": 2, "c": 3}
"""How many points one step of a path command takes; the last of them is where the step ends."""


@lru_cache(maxsize=256)
def vertical_extent(data: str) -> tuple[float, float]:
    """Return the least and the greatest ordinate of a glyph's path data, control points of curves included.

    The commands m l s c h v z and their capitals are understood, which are those that music fonts use.
    """
    here = start = 0.0
    found = []
    for command, text in _COMMAND.findall(data):
        numbers = [float(number) for number in _NUMBER.findall(text)]
        kind = command.lower()
        if kind == "z":
            here = start
            continue
        if kind == "h":
            continue
        step = 1 if kind == "v" else 2 * _PLACES[kind]
        for first in range(0, len(numbers), step):
            base = here if command == kind else 0.0
            ordinates = numbers[first : first + step]
            places = [base + number for number in (ordinates if kind == "v" else ordinates[1::2])]
            found += places
            here = places[-1]
        start = here if kind == "m" else start
    return min(found, default=0.0), max(found, default=0.0)


def curve_points(data: str, steps: int = 24) -> list[tuple[float, float]]:
    """Return points (x, y) along the cubic curves of a slur's path data, "Mx,y Cx,y x,y x,y …".

    Each curve is divided into `steps` equal steps of its parameter.
    """
    numbers = [float(number) for number in _NUMBER.findall(data)]
    corners = list(zip(numbers[::2], numbers[1::2], strict=True))
    found = []
    for first in range(0, len(corners) - 3, 3):
        (ax, ay), (bx, by), (cx, cy), (dx, dy) = corners[first : first + 4]
        for step in range(steps + 1):
            t = step / steps
            a, b, c, d = (1 - t) ** 3, 3 * t * (1 - t) ** 2, 3 * t * t * (1 - t), t**3
            found.append((a * ax + b * bx + c * cx + d * dx, a * ay + b * by + c * cy + d * dy))
    return found


_SHORT = 900
"""The end of a slur that is shorter than this, five staff spaces, is drawn as an arc of its own."""
_STEEP, _BULGE, _THICK = 0.4, 0.3, 46


def short_slur_end(data: str) -> str:
    """Return the path of a slur's end on its second system; a short steep one is redrawn as a shallow arc.

    Left as it is, the short end of a steep slur looks like a comma before the note.
    """
    numbers = [float(number) for number in _NUMBER.findall(data)]
    (left, start, _, outer, _, outer_end, right, end, _, inner, _, inner_end, *_) = numbers
    wide = right - left
    if wide >= _SHORT or abs(start - end) <= _STEEP * wide:
        return data
    start = end + math.copysign(_STEEP * wide, start - end)
    way = -1 if outer + outer_end < inner + inner_end else 1
    a, b = left + wide / 4, right - wide / 4
    bulge, thick = way * _BULGE * wide, way * _THICK
    at_a, at_b = start + (end - start) / 4 + bulge, end - (end - start) / 4 + bulge
    return (
        f"M{left:.0f},{start:.0f} C{a:.0f},{at_a:.0f} {b:.0f},{at_b:.0f} {right:.0f},{end:.0f} "
        f"C{b:.0f},{at_b - thick:.0f} {a:.0f},{at_a - thick:.0f} {left:.0f},{start:.0f}"
    )
