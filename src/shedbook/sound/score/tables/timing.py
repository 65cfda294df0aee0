"""When and how evenly each player plays, and how marks bend a note.

Rows of PLAYERS: player; milliseconds after the common beat; whether the player lays back as a soloist does;
the spread of his slow drift in milliseconds; most unevenness of a single note in microseconds, and in
velocity. Milliseconds are those at 120 quarters a minute. Bass and drums stay together: what lies between
them is under the 19 ms of asynchrony that listeners prefer (Hofmann et al. 2017, JNMR 46(4):329–341,
abstract).
That drummers may be a little ahead and bassists behind, seldom by more than 30 ms: Prögler 1995,
Ethnomusicology 39(1):21–54; Butterfield 2010, Music Perception 27(3):157–176, both from memory.
"""

from __future__ import annotations

from types import MappingProxyType
from typing import NamedTuple


class PlayerTiming(NamedTuple):
    """How one player stands in time."""

    player: str
    offset_ms: int
    lays_back: bool
    drift_ms: float
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
    PlayerTiming("line", 0, True, 8, 3000, 4, "lag: see tables.swing; drift: common practice, from memory"),
    PlayerTiming("bass", 4, False, 4, 2000, 4, "common practice: behind the ride, and together with it"),
    PlayerTiming("comping", 6, False, 6, 4000, 6, "common practice: hardly behind"),
    PlayerTiming("drums", 0, False, 2.5, 2000, 7, "common practice: the ride is the common beat"),
)

SHARED_DRIFT_MS = 4.5
"""The drift that all players share: they follow one another."""

KEPT_A_BEAT = 0.9
"""How much of a drift is left after a beat."""

BY_TEMPO = (0.6, 1.25)
"""Between which bounds milliseconds go with the length of the beat."""

STROKE_CENTS = 12
"""By how many cents at most one stroke of a drum is higher or lower than its sample."""

STROKE_FILTER_CENTS = 500
"""By how many cents at most the filter of one stroke is lower than its sample's; the SoundFont's own unit."""

ALTERNATES = MappingProxyType({36: (35, 50, 0), 38: (40, 25, 9), 49: (57, 40, 2)})
"""Drum key to another that is struck for it in so many of a hundred strokes, so many steps of velocity
harder. In FluidR3 GM the two bass drums and the two snares of the standard kit are nearly alike (spectra of
one stroke: r = 0.999 and 0.97; the second snare is 2.8 dB softer), the crashes are two cymbals of one size;
ride and closed hat have no such neighbour. Measured in the font. Other kits keep their snare."""

AHEAD_MS = MappingProxyType({44: 4})
"""Drum keys played ahead of the beat: the foot hi-hat by 2 to 26 ms (Hofmann et al. 2017)."""

BENDS: tuple[BendRow, ...] = (
    BendRow("scoop", True, 90, (-120, -90, -50, -20, 0), "common practice"),
    BendRow("fall", False, 160, (0, -30, -80, -140, -200), "common practice"),
)
