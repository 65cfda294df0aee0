"""Phrases for the tests of the engraver, built from text, and a measure of the ink in a picture."""

from __future__ import annotations

import re
import xml.etree.ElementTree as ET
from collections.abc import Callable
from fractions import Fraction
from pathlib import Path
from typing import NamedTuple

import pytest
import verovio

from shedbook.phrase.changes_text import parse_changes
from shedbook.phrase.line_text import parse_line
from shedbook.phrase.model import Phrase
from shedbook.theory.key import Key
from shedbook.theory.metre import Metre

SVG = "{http://www.w3.org/2000/svg}"


def build(line: str, changes: str, metre: str = "4/4", pickup: str = "0", key: str = "C major") -> Phrase:
    """Read a phrase; `pickup` is in quarters."""
    read = Metre.parse(metre)
    bars = parse_line(line, read, Fraction(pickup))
    found = parse_changes(changes, read).changes
    return Phrase("test", Key.parse(key), read, bars, found, (None,) * len(found), 132, "swing")


@pytest.fixture(scope="session")
def make() -> Callable[..., Phrase]:
    return build


class Box(NamedTuple):
    """The ink of one thing in drawing units; `kind` is "music", "line", "beam", "curve" or "word"."""

    kind: str
    left: float
    top: float
    right: float
    bottom: float
    outline: tuple[tuple[float, float], ...] = ()

    def overlaps(self, other: Box, gap: float = 0) -> bool:
        """Say whether two boxes come nearer to one another than the gap."""
        return (
            self.left < other.right + gap
            and other.left < self.right + gap
            and self.top < other.bottom + gap
            and other.top < self.bottom + gap
        )


class Ink:
    """Measures a score's picture; sizes of music glyphs are Leipzig's own table, shipped with Verovio."""

    def __init__(self) -> None:
        table = Path(verovio.__file__).parent / "data" / "Leipzig.xml"
        self.glyphs = {
            str(row.get("c")): tuple(float(row.get(key, "0")) for key in "xywh")
            for row in ET.parse(table).getroot()
        }

    def boxes(self, svg: str) -> list[Box]:
        """Return everything that is drawn, words joined."""
        root = ET.fromstring(svg)
        paths = {str(path.get("id")): path for path in root.iterfind(f"{SVG}defs/{SVG}path")}
        return [box for group in root.iterfind(f"{SVG}g") for box in self._group(group, paths, 0, 0, 1)]

    def _group(
        self, group: ET.Element, paths: dict[str, ET.Element], x: float, y: float, scale: float
    ) -> list[Box]:
        dx, dy, factor = _moved(group.get("transform", ""))
        x, y, scale = x + dx * scale, y + dy * scale, scale * factor
        found: list[Box] = []
        for item in group:
            tag = item.tag.removeprefix(SVG)
            if tag == "g":
                inner = self._group(item, paths, x, y, scale)
                found += [_joined(inner)] if item.get("transform") and inner else inner
            elif tag == "use":
                found.append(self._use(item, paths, x, y))
            elif tag in ("polygon", "polyline"):
                numbers = [float(n) for n in re.findall(r"-?[\d.]+", item.get("points", ""))]
                points = tuple((x + a, y + b) for a, b in zip(numbers[::2], numbers[1::2], strict=True))
                found.append(_round("beam" if tag == "polygon" else "line", points))
            elif tag == "path":
                found += _lines(item, x, y)
        return found

    def _use(self, item: ET.Element, paths: dict[str, ET.Element], x: float, y: float) -> Box:
        name = str(item.get("href"))[1:]
        dx, dy, factor = _moved(item.get("transform", ""))
        x, y = x + dx + float(item.get("x", "0")), y + dy + float(item.get("y", "0"))
        code = re.search(r"E[0-9A-F]{3}$", name)
        if code:
            left, bottom, width, height = (0.72 * factor * value for value in self.glyphs[code[0]])
            return Box("music", x + left, y - bottom - height, x + left + width, y - bottom)
        points = tuple((x + factor * a, y + factor * b) for a, b in _points(str(paths[name].get("d"))))
        return _round("word", points)


def _moved(transform: str) -> tuple[float, float, float]:
    place = re.search(r"translate\((-?[\d.]+) (-?[\d.]+)\)", transform)
    size = re.search(r"scale\(([\d.]+)", transform)
    return (
        float(place[1]) if place else 0,
        float(place[2]) if place else 0,
        float(size[1]) if size else 1,
    )


def _round(kind: str, points: tuple[tuple[float, float], ...]) -> Box:
    xs, ys = [x for x, _ in points], [y for _, y in points]
    return Box(kind, min(xs), min(ys), max(xs), max(ys), points)


def _joined(boxes: list[Box]) -> Box:
    return Box(
        "word", min(b.left for b in boxes), min(b.top for b in boxes),
        max(b.right for b in boxes), max(b.bottom for b in boxes),
    )  # fmt: skip


def _lines(path: ET.Element, x: float, y: float) -> list[Box]:
    data, half = str(path.get("d")), float(path.get("stroke-width", "0")) / 2
    straight = re.findall(r"M(-?\d+) (-?\d+)(?:H(-?\d+)|V(-?\d+)|L(-?\d+) (-?\d+))", data)
    if "C" in data or "c" in data or not straight:
        return [_round("curve", tuple((x + a, y + b) for a, b in _points(data)))]
    found = []
    for x1, y1, across, down, x2, y2 in straight:
        ends = (float(x1), float(y1)), (float(across or x2 or x1), float(down or y2 or y1))
        grow = ((-half, -half), (half, half))
        found.append(_round("line", tuple((x + a + g, y + b + h) for (a, b) in ends for g, h in grow)))
    return found


def _points(data: str) -> list[tuple[float, float]]:
    """Follow path data (m l c h v s z and their capitals; an arc counts by its end) and return its points."""
    here, start, found = (0.0, 0.0), (0.0, 0.0), []
    for command, text in re.findall(r"([a-zA-Z])([^a-zA-Z]*)", data):
        numbers = [float(number) for number in re.findall(r"-?[\d.]+", text)]
        base = here if command.islower() else (0.0, 0.0)
        if command in "zZ":
            here = start
            continue
        if command in "hHvV":
            pairs = [(base[0] + n, here[1]) if command in "hH" else (here[0], base[1] + n) for n in numbers]
        elif command in "aA":
            pairs = [(base[0] + numbers[5], base[1] + numbers[6])]
        else:
            step = {"c": 3, "s": 2}.get(command.lower(), 1)
            pairs = []
            flat = list(zip(numbers[::2], numbers[1::2], strict=True))
            for first in range(0, len(flat), step):
                pairs += [(base[0] + a, base[1] + b) for a, b in flat[first : first + step]]
                base = pairs[-1] if command.islower() else base
        found += pairs
        here = pairs[-1]
        start = pairs[0] if command in "mM" else start
    return found


@pytest.fixture(scope="session")
def ink() -> Ink:
    return Ink()
