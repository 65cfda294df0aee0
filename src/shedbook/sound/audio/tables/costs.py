"""What tracks take on the disk and of the processor, by format, for an estimate before they are made.

Row format: ending of the file; kilobytes a second of sound; seconds of sound that one processor makes in a
second, the players rendered and mixed; the same where the players are rendered already and are mixed anew.
Source: measured with `benchmarks.sound_speed` on two cores of a server (a trio; loud and dense music takes
more).
"""

from __future__ import annotations

from typing import NamedTuple


class CostRow(NamedTuple):
    """What one format takes."""

    ending: str
    kilobytes: float
    first: float
    again: float


COSTS: tuple[CostRow, ...] = (
    CostRow(".mid", 0.4, 250, 250),
    CostRow(".wav", 192.0, 45, 85),
    CostRow(".flac", 90.0, 41, 75),
    CostRow(".mp3", 21.0, 18.5, 22),
    CostRow(".opus", 16.5, 18, 22),
)
