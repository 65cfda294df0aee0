"""Which of the project's own signs for chord symbols an outline is, by the digest of its points.

The outlines are drawn for this project and looked at by eye; a PDF has curves in place of an SVG's arcs, so a
ring has a digest in each.
"""

from collections.abc import Mapping
from types import MappingProxyType

CHORD_SIGNS: Mapping[str, str] = MappingProxyType(
    {
        "3251c93d8d6e": "°",
        "e68cccd7a56d": "ø",
        "b480c1e7212f": "°",
        "f5e999e7918d": "ø",
        "6f22dbee9f0d": "Δ",
    }
)
"""Source: the project's own drawings of a ring, a ring with a stroke, and a triangle."""
