"""When and how evenly each player plays, and how marks bend a note.

Rows of PLAYERS: player; milliseconds after the common beat; whether the player lays back as a soloist does;
most unevenness in microseconds and in velocity. All is far under the 19 ms of asynchrony that listeners
prefer (Hofmann et al. 2017, JNMR 46(4):329–341).
"""

from __future__ import annotations

from types import MappingProxyType
from typing import NamedTuple


class PlayerTiming(NamedTuple):
    """How one player stands in time."""

    player: str
    offset_ms: int
    lays_back: bool
    jitter_us: int
    jitter_velocity: int
    source: str


class BendRow(NamedTuple):
    """How a mark bends the pitch: over `ms`, through `path` in cents, at the note's start or end."""

    mark: str
    at_start: bool
    ms: int
    path: tuple[int, ...]
    source: str


PLAYERS: tuple[PlayerTiming, ...] = (
    PlayerTiming("line", 0, True, 4000, 4, "lag: see tables.swing"),
    PlayerTiming("bass", 0, False, 3000, 4, "common practice: the bass marks the beat"),
    PlayerTiming("comping", 4, False, 5000, 5, "common practice: hardly behind"),
    PlayerTiming("drums", 0, False, 2000, 4, "common practice: the ride is the common beat"),
)

AHEAD_MS = MappingProxyType({44: 4})
"""Drum keys played ahead of the beat: the foot hi-hat by 2 to 26 ms (Hofmann et al. 2017)."""

BENDS: tuple[BendRow, ...] = (
    BendRow("scoop", True, 90, (-120, -90, -50, -20, 0), "common practice"),
    BendRow("fall", False, 160, (0, -30, -80, -140, -200), "common practice"),
)
