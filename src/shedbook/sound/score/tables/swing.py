"""How swing depends on the tempo. How much of it a feel has, the feel says (`sound.feels`).

Rows of CURVE: tempo in quarters a minute; the ride cymbal's ratio of long to short eighth; by how many
milliseconds a soloist lays back on the beat. Between rows the line is straight, beyond them level.

Sources. Ratio: Friberg & Sundström 2002, Swing ratios and ensemble timing in jazz performance, Music
Perception 19(3):333–349, and their report of 1997 (TMH-QPSR 4), after the abstracts: the ratio falls about
linearly with the tempo, from up to 3.5:1 near 120 to even eighths when fast, and the short note stays near
100 ms at medium and fast tempos (read: both abstracts). The single figures are from memory, laid so that
the short note is 100 ms from 200 on. Below 120 the line goes on rising, up to the 3.5 of the abstract, and
then stays (computed; no figure was read there). Lag: Nelias et al. 2022, Communications Physics: down-beats
about 30 ms late with off-beats in time are heard as more swinging; that the lag dies out towards 300 is
computed from the Weimar Jazz Database (medians of 50 ms at 100–140, 26 ms at 180–220, 6 ms at 260–320). The
lag below 120 is common practice.
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

CURVE: tuple[CurveRow, ...] = (
    CurveRow(80, Fraction(7, 2), 30, "computed; the lag: common practice"),
    CurveRow(120, Fraction(3), 30, _FRIBERG),
    CurveRow(160, Fraction(5, 2), 28, _FRIBERG),
    CurveRow(200, Fraction(2), 22, _FRIBERG),
    CurveRow(240, Fraction(3, 2), 12, _FRIBERG),
    CurveRow(300, Fraction(1), 0, _FRIBERG),
)
