"""How far an outline reaches up and down: the ink of music glyphs and of curves. Pure geometry.

Ordinates of a picture grow downwards, those of a glyph's outline upwards.
"""

from __future__ import annotations

import re
from functools import lru_cache

_COMMAND = re.compile(r"([a-zA-Z])([^a-zA-Z]*)")
_NUMBER = re.compile(r"-?[\d.]+")
_PLACES = {"m": 1, "l": 1, "s": 2, "c": 3}
"""Points that one step of a command takes; its end is the last."""


@lru_cache(maxsize=256)
def reach(data: str) -> tuple[float, float]:
    """Return the least and the greatest ordinate of a glyph's path data, control points included.

    The commands of music fonts are known: m l s c h v z and their capitals.
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
    """Return points along the cubic curves of a slur's path data ("Mx,y Cx,y x,y x,y …")."""
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
