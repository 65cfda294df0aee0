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
})  # fmt: skip
"""How much of its written length a note sounds."""

LOUDNESS = MappingProxyType({
    "plain": 86, "off-beat": 5, "peak": 5, "accent": 16, "ghost": 42, "grace": -18,
})  # fmt: skip
"""The velocity of a plain note and of a ghost note; the others are added."""

RUN_END_REST = Fraction(1, 2)
"""An eighth with at least this much silence after it (in quarters) ends a run and is played short."""
