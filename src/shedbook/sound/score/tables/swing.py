"""How swing depends on the tempo. How much of it a feel has, the feel says (`sound.feels`).

Rows of CURVE: tempo in quarters a minute; the ride cymbal's ratio of long to short eighth; by how many
milliseconds a soloist lays back on the beat. Between rows the line is straight, beyond them level.

Sources. Ratio: Friberg & Sundström 2002, Swing ratios and ensemble timing in jazz performance, Music
Perception 19(3):333–349, and their report of 1997 (TMH-QPSR 4), after the abstracts: the ratio falls about
linearly with the tempo, from up to 3.5:1 near 120 to even eighths when fast, and the short note stays near
100 ms at medium and fast tempos (read: both abstracts). The single figures are from memory, laid so that
the short note is 100 ms from 200 on. Below 120 the line goes on rising, up to the 3.5 of the abstract, and
then stays (computed; no figure was read there).

Lag: Nelias et al. 2022, Communications Physics 5 (read): of the order of 30 ms, 85 of 960 ticks near 150
quarters a minute, falling almost linearly with the tempo where it is counted in ticks. The line is laid
through that and through the median of 6 ms, 28 ticks, at 260 to 320 (computed from the Weimar Jazz
Database). So it gives 50 ms at 120, where the same solos have 50 at 100 to 140, and 21 at 200, where they
have 26 at 180 to 220. Below 120 it stays (common practice), and even eighths leave no room for it.
"""

from __future__ import annotations

from fractions import Fraction
from typing import NamedTuple


class CurveRow(NamedTuple):
    """One tempo of the curve."""

    tempo_qpm: int
    ratio: Fraction
    lag_ms: int
    source: str


_FRIBERG = "Friberg & Sundström 2002, figure from memory"

_COMPUTED = "; the lag: Nelias et al. 2022, and computed"

CURVE: tuple[CurveRow, ...] = (
    CurveRow(80, Fraction(7, 2), 50, "computed; the lag: common practice"),
    CurveRow(120, Fraction(3), 50, _FRIBERG + _COMPUTED),
    CurveRow(160, Fraction(5, 2), 32, _FRIBERG + _COMPUTED),
    CurveRow(200, Fraction(2), 21, _FRIBERG + _COMPUTED),
    CurveRow(240, Fraction(3, 2), 13, _FRIBERG + _COMPUTED),
    CurveRow(300, Fraction(1), 0, _FRIBERG),
)
