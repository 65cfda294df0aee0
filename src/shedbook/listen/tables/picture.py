"""How the picture of a take looks: sizes in pixels, colours with enough contrast on white.

Kinds of notes differ in shape too, not in colour alone (WCAG 2.2, 1.4.1). Source of the sizes: by eye.
"""

from __future__ import annotations

from types import MappingProxyType

PIXELS_A_SECOND, PIXELS_A_SEMITONE = 150, 12
LEFT, RIGHT, TOP, BOTTOM = 54, 20, 46, 56
LEAST_WIDTH = 560
FILL = MappingProxyType(
    {"written": "none", "played": "#2b5c8a", "wrong": "#b3261e", "extra": "#8a4b00", "missing": "none"}
)
EDGE = MappingProxyType(
    {"written": "#6b6b6b", "played": "#2b5c8a", "wrong": "#b3261e", "extra": "#8a4b00", "missing": "#b3261e"}
)
