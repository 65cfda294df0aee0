"""The feels that a phrase can have.

Row format: name as the manuscript writes it and the page prints it; aliases; what the player does;
source.
"""

from __future__ import annotations

from typing import NamedTuple


class FeelRow(NamedTuple):
    """One feel."""

    name: str
    aliases: tuple[str, ...]
    meaning: str
    source: str


FEELS: tuple[FeelRow, ...] = (
    FeelRow("swing", ("medium swing", "swung"), "long and short eighths, walking bass", "common practice"),
    FeelRow("fast swing", ("up", "up swing", "up-tempo"), "eighths nearly even", "common practice"),
    FeelRow("shuffle", ("blues shuffle",), "triplet eighths, every beat marked", "common practice"),
    FeelRow("straight", ("even eighths", "straight eighths", "even"), "even eighths", "common practice"),
    FeelRow("ballad", ("slow ballad",), "slow, soft, eighths lightly swung", "common practice"),
    FeelRow("bossa", ("bossa nova",), "even eighths, bass on 1 and 3", "common practice"),
    FeelRow("samba", (), "even sixteenths, in two", "common practice"),
    FeelRow("latin", ("afro-cuban", "mambo"), "even eighths over a clave", "common practice"),
    FeelRow("waltz", ("jazz waltz",), "three in a bar, swung", "common practice"),
    FeelRow("funk", (), "even sixteenths", "common practice"),
    FeelRow("free", ("rubato", "out of time"), "no steady beat", "common practice"),
)
