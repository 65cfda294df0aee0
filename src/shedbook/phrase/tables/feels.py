"""The feels that a phrase can have: the names by which it may write them, and what notation says of them.

Row format: name as the manuscript writes it and the page prints it; aliases; what the player does; the long
and the short eighth as a program that plays notation is told, (1, 1) for even ones; whether there is a steady
beat, and so a tempo; source.

What the band plays in a feel stands in a module of the same name in `sound/feels/rows/`. The sound floor
refuses to be imported while a feel stands in one of the two places only.
"""

from __future__ import annotations

from typing import NamedTuple


class FeelRow(NamedTuple):
    """One feel."""

    name: str
    aliases: tuple[str, ...]
    meaning: str
    eighths: tuple[int, int]
    steady: bool
    source: str


_EVEN = (1, 1)

FEELS: tuple[FeelRow, ...] = (
    FeelRow(
        "swing", ("medium swing", "swung"), "long and short eighths, walking bass", (2, 1), True,
        "common practice",
    ),
    FeelRow(
        "fast swing", ("up", "up swing", "up-tempo"), "eighths nearly even", (4, 3), True, "common practice"
    ),
    FeelRow(
        "shuffle", ("blues shuffle",), "triplet eighths, every beat marked", (2, 1), True, "common practice"
    ),
    FeelRow(
        "straight", ("even eighths", "straight eighths", "even"), "even eighths", _EVEN, True,
        "common practice",
    ),
    FeelRow(
        "ballad", ("slow ballad",), "slow, soft, triplet eighths", (2, 1), True, "common practice"
    ),
    FeelRow("bossa", ("bossa nova",), "even eighths, bass on 1 and 3", _EVEN, True, "common practice"),
    FeelRow("samba", (), "even sixteenths, in two", _EVEN, True, "common practice"),
    FeelRow("latin", ("afro-cuban", "mambo"), "even eighths over a clave", _EVEN, True, "common practice"),
    FeelRow("waltz", ("jazz waltz",), "three in a bar, swung", (2, 1), True, "common practice"),
    FeelRow("funk", (), "even sixteenths", _EVEN, True, "common practice"),
    FeelRow("free", ("rubato", "out of time"), "no steady beat", _EVEN, False, "common practice"),
)  # fmt: skip
