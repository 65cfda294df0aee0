"""How the comping goes with the line: how likely a rhythm is, and how loud a chord.

Source of all rows: common practice of comping; the weights are our own.
"""

from __future__ import annotations

from types import MappingProxyType

BUSY_HIT = 4
"""By how much a hit divides its cell's weight where the line moves in eighths at that moment."""

GAP_HIT = 3
"""How many halves of its cell's weight a hit makes where the line rests or holds: the piano answers."""

SELDOM_SILENT = 8
"""Where the line is silent a cell is likelier the more hits it has; an empty one this much less likely."""

TOO_MANY = 2
"""Behind the line, by how much each hit after the first divides its cell's weight."""

LOUD = MappingProxyType({"behind": 58, "alone": 66, "ahead": 4, "off": 4, "soft": -12, "ending": 70})
"""Velocities: behind the line, without it, of the last chord; what is added for a hit ahead of its beat,
off the beat, and for one that is there for its chord alone."""
