"""What a fingering costs the left hand: whole numbers, the least total over a phrase wins.

Row format: name; cost; per what; why; source. A hand lies at the fret of its first finger and covers four
frets, one a finger; the first and the fourth finger reach one fret further.
"""

from __future__ import annotations

from typing import NamedTuple


class FingeringRow(NamedTuple):
    """One cost."""

    name: str
    cost: int
    per: str
    why: str
    source: str


_PRACTICE = "common practice"

FINGERING_COSTS: tuple[FingeringRow, ...] = (
    FingeringRow("shift", 6, "move of the hand along the neck", "a hand that stays plays in time", _PRACTICE),
    FingeringRow("shift with time", 2, "move after a rest, a half note or an open string, in place of 6",
                 "then nothing is heard of it", _PRACTICE),
    FingeringRow("slide", 3, "move of one or two frets in which a finger stays on its string, in place of 6",
                 "the finger leads the hand", _PRACTICE),
    FingeringRow("way", 1, "fret that the hand moves", "a long way is easily missed", _PRACTICE),
    FingeringRow("stretch", 5, "note one fret outside the four under the hand",
                 "it opens the hand, in low positions most", _PRACTICE),
    FingeringRow("skip", 2, "string passed over between two notes", "the right hand may miss it", _PRACTICE),
    FingeringRow("roll", 1, "note at the fret of the note before, on another string",
                 "one finger must lie down for both", _PRACTICE),
    FingeringRow("open", 3, "open string", "it rings on, and in another key it is not there", _PRACTICE),
    FingeringRow("high", 1, "note and fret over the twelfth", "the frets are narrow, the body is in the way",
                 _PRACTICE),
    FingeringRow("ornament", 3, "note on another string than the grace note before it",
                 "a grace note is slurred into its note", _PRACTICE),
)  # fmt: skip
