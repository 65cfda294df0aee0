"""Woodwinds: what fingers do between two notes, from the fingering chart of the instrument."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from functools import lru_cache
from types import MappingProxyType

from shedbook.editions.tables.awkward_moves import CHARTS, ChartRow
from shedbook.table_index import need
from shedbook.theory.pitch import Pitch

FILE = "src/shedbook/editions/tables/awkward_moves.py"
_UP = "."
_AT_ONCE = 4
"""How many fingers move at once with ease [the project's design]."""

Chart = Mapping[int, tuple[str, ...]]
"""The fingerings of each written MIDI number."""


@lru_cache(maxsize=1)
def charts() -> Mapping[str, Chart]:
    """Return the charts of the table by the names of instruments.

    Raises:
        TableError: as `joined_charts`.
    """
    return joined_charts(CHARTS)


def joined_charts(rows: Iterable[ChartRow]) -> Mapping[str, Chart]:
    """Return the charts of some rows by the names of instruments.

    Raises:
        TableError: if a line cannot be read, or has other fingers than the line before.
    """
    found: dict[str, Chart] = {}
    for row in rows:
        chart = MappingProxyType(_chart(row))
        for name in row.instruments:
            need(name not in found, f"The {name} has two charts.", f"Take it out of one of them in {FILE}.")
            found[name] = chart
    return MappingProxyType(found)


def _chart(row: ChartRow) -> dict[int, tuple[str, ...]]:
    found: dict[int, tuple[str, ...]] = {}
    fingers = 0
    for line in row.lines.split("\n"):
        name, *signs = line.split() or [""]
        if not name:
            continue
        held = "".join(signs)
        fingers = fingers or len(held)
        need(
            len(held) == fingers,
            f'"{line.strip()}" of the chart "{row.name}" has {len(held)} fingers, not {fingers}.',
            f"Write a sign for each finger in {FILE}.",
        )
        midi = Pitch.parse(name).midi
        found[midi] = (*found.get(midi, ()), held)
    for low, high, up, place, key in row.again:
        for midi in range(Pitch.parse(low).midi, Pitch.parse(high).midi + 1):
            higher = tuple(one[:place] + (key or one[place]) + one[place + 1 :] for one in found[midi])
            found[midi + up] = (*found.get(midi + up, ()), *higher)
    return found


def finger_points(chart: Chart, before: int, after: int, points: Mapping[str, int]) -> int:
    """Return the points between two written MIDI numbers by their easiest fingerings; 0 for what is no row.

    Args:
        chart: the chart of the instrument.
        before: the first note.
        after: the second.
        points: what each move costs, by name of `POINTS`.
    """
    ways = [_between(one, other, points) for one in chart.get(before, ()) for other in chart.get(after, ())]
    return min(ways, default=0)


def _between(one: str, other: str, points: Mapping[str, int]) -> int:
    pairs = [(here, there) for here, there in zip(one, other, strict=True) if here != there]
    down = sum(here == _UP for here, _ in pairs)
    lifted = sum(there == _UP for _, there in pairs)
    slid = len(pairs) - down - lifted
    return (
        points["key to key"] * slid
        + points["crossing"] * min(down, lifted)
        + points["many"] * max(0, len(pairs) - _AT_ONCE)
    )
