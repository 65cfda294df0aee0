"""What a take in another key than the one asked for may come of: a part read on the wrong instrument.

Row format: how many half steps higher than asked for (0 to 11), that distance as it is said, and a guess. The
transpositions of instruments: common practice. A part in C read on an instrument in B flat sounds a whole
step too low, the part for B flat read on one in C a whole step too high.
"""

from __future__ import annotations

from typing import NamedTuple


class ReadingSlip(NamedTuple):
    """One distance."""

    semitones: int
    distance: str
    guess: str


READING_SLIPS: tuple[ReadingSlip, ...] = (
    ReadingSlip(0, "as asked for", ""),
    ReadingSlip(1, "a half step too high", ""),
    ReadingSlip(2, "a whole step too high", "was the part for B flat read on an instrument in C?"),
    ReadingSlip(3, "a minor third too high", "was the part in C read on an instrument in E flat?"),
    ReadingSlip(4, "a major third too high", ""),
    ReadingSlip(5, "a fourth too high, or a fifth too low",
                "was the part in C read on an instrument in F, or the "
                "part for B flat on one in E flat?"),
    ReadingSlip(6, "a tritone off", ""),
    ReadingSlip(7, "a fifth too high, or a fourth too low",
                "was the part for F read on an instrument in C, or the "
                "part for E flat on one in B flat?"),
    ReadingSlip(8, "a major third too low", ""),
    ReadingSlip(9, "a minor third too low", "was the part for E flat read on an instrument in C?"),
    ReadingSlip(10, "a whole step too low",
                "was the part in C read as the B flat part, on an instrument in B flat?"),
    ReadingSlip(11, "a half step too low", ""),
)  # fmt: skip
