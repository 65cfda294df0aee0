"""Fingerboards of fretted instruments: what each open string sounds, and how many frets there are.

Row format: the instrument's name in its own table; the open strings as they sound, in the order in which
tablature draws them, from the lowest line up; frets; source. An instrument without frets has no row: a
double bass is stopped anywhere, so there is no fret to print.
"""

from __future__ import annotations

from typing import NamedTuple


class FingerboardRow(NamedTuple):
    """One fingerboard."""

    instrument: str
    strings: str
    frets: int
    source: str


FINGERBOARDS: tuple[FingerboardRow, ...] = (
    FingerboardRow("guitar", "E2 A2 D3 G3 B3 E4", 24,
                   "standard tuning, common practice; frets up to the full range of the instrument"),
    FingerboardRow("electric bass", "E1 A1 D2 G2", 24,
                   "standard tuning, common practice; frets up to the full range of the instrument"),
)  # fmt: skip
