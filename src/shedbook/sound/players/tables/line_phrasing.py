"""How the line is phrased: shares of the written length, velocities and what is added to them.

Source of all rows: common practice of jazz phrasing; the figures are our own.
"""

from __future__ import annotations

from fractions import Fraction
from types import MappingProxyType

LENGTHS = MappingProxyType({
    "staccato": Fraction(1, 2),
    "tenuto": Fraction(1),
    "slurred": Fraction(1),
    "end of run": Fraction(3, 5),
    "run": Fraction(19, 20),
    "long": Fraction(9, 10),
    "breath": Fraction(4, 5),
})  # fmt: skip
"""How much of its written length a note sounds."""

LOUDNESS = MappingProxyType({
    "plain": 82, "off-beat": 6, "peak": 7, "accent": 18, "ghost": 42, "grace": -18,
    "height": 16, "landing": 9, "passing": -9, "arch": 5,
})  # fmt: skip
"""The velocity of a plain note and of a ghost note; the others are added. `height` lies between the lowest
and the highest note of a breath, `arch` is how far its middle stands above, and its ends below, the rest."""

ARCH_AT = 0.6
"""Where in a breath its arch is highest, as a share of its notes."""

RUN_END_REST = Fraction(1, 2)
"""An eighth with at least this much silence after it (in quarters) ends a run and is played short."""
