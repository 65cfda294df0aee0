"""How the energy of a track grows: over its rounds, within a round, and in the last one.

Energy is counted in hundredths; 50 is where a player plays as the tables of his feel say. Source of all rows:
common practice of accompanying (begin low, grow, keep the most for the last round); the figures are our own.
"""

from __future__ import annotations

from types import MappingProxyType

FIRST, LAST = 22, 78
"""Energy at the beginning of the first round and of the last one."""

ALONE = 50
"""Energy of a track of one round, and of a loop, whose end must be as loud as its beginning."""

WITHIN, TOP_AT = 14, 75
"""How much a round grows inside itself, and at how many hundredths of its length it is highest."""

RELAXED = 12
"""By how much empty bars between two rounds lie lower."""

VELOCITIES = MappingProxyType({"line": 12, "bass": 16, "comping": 22, "drums": 24})
"""Player to how many steps of velocity lie between no energy and all of it."""

LAST_ROUND_COURSE = 3
"""By how many half steps bass and piano go higher in the last round of a track of three rounds or more."""
LEAST_ROUNDS = 3
