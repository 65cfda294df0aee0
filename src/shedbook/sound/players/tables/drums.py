"""How the drums vary and fill, and how they count in.

Source of all rows: common practice of jazz drumming; the figures are our own.
"""

from __future__ import annotations

from types import MappingProxyType

from shedbook.sound.tables import drum_keys as keys

TRIES = 40
"""How often a round is drawn again when it is the one before, or ends as that did."""

FREE_BAR = 12
"""How often of a hundred a two-bar pattern is varied in the last bar of a passage."""

FILL_APART = 4
"""How many bars lie between one fill and the next at least, where the form leaves it open."""

FILL_EVERY = (4, 8)
"""A fill ends each of so many bars of a passage; which of the two is drawn for a track."""

ANSWERS, ALONE = 6, 3
"""A stroke that comps: by how much it is likelier where another player has an accent, and less likely where
nobody has one."""

ARC_AT = 64
"""The velocity of a stroke to which the arc adds its full measure; softer ones get less of it."""

LAST_ROUND_CRASH = 58
"""The crash on the first beat of the last round, in feels that end with one."""

SILENT_IN_FILLS = frozenset((keys.SNARE, keys.RIM, keys.KICK, keys.SWIRL))
"""Voices that give way to the fill."""

COUNT_KEY, COUNT_VELOCITY, COUNT_ACCENT = keys.RIM, 84, 96
CLICK_KEY, CLICK_VELOCITY, CLICK_ACCENT = keys.RIM, 70, 92

THINS_AFTER = 4
"""After how many bars a click that thins out leaves beats away, and at last begins anew."""

TOUCHES = MappingProxyType({
    "TimGM6mb": MappingProxyType({
        (keys.STANDARD_KIT, keys.RIDE): 135, (keys.STANDARD_KIT, keys.BELL): 135,
        (keys.STANDARD_KIT, keys.SNARE): 80,
        (keys.STANDARD_KIT, keys.KICK): 76, (keys.STANDARD_KIT, keys.FOOT): 94,
        (keys.BRUSH_KIT, keys.SWIRL): 66, (keys.BRUSH_KIT, keys.TAP): 80, (keys.BRUSH_KIT, keys.FOOT): 66,
        (keys.BRUSH_KIT, keys.KICK): 90,
    }),
})  # fmt: skip
"""Font to (kit, drum key) to percent of the written velocity; the patterns are written for FluidR3 GM.
Measured with both fonts, each drum by itself against the bass."""
