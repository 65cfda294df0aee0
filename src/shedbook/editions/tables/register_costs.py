"""What a register costs the player: whole numbers, the least total over all keys of a phrase wins.

Row format: name; policy that it belongs to; cost; per what; why; source. The policy "reader" serves a book
for given players. The policy "author" keeps the author's register: a key is never farther than `NEAR` from
it, and other wishes decide only between a fourth one way and a fifth the other, or a tritone both ways.
"""

from __future__ import annotations

from typing import NamedTuple


class RegisterRow(NamedTuple):
    """One cost."""

    name: str
    policy: str
    cost: int
    per: str
    why: str
    source: str


_BANDS = "ranges in three bands: Adler, The Study of Orchestration, from memory"
_PRACTICE = "common practice"
_DESIGN = "the project's design"

NEAR = 7
"""How many half steps a key may lie from the author's register where that is to be kept: a fifth."""
LIES_WELL = (55, 88)
"""G3 to E6, as MIDI numbers: three ledger lines about the treble staff, which the concert edition has."""

REGISTER_COSTS: tuple[RegisterRow, ...] = (
    RegisterRow("outside comfortable", "reader", 4, "note and half step", "it lies badly", _BANDS),
    RegisterRow("outside full", "reader", 100, "note and half step", "many players do not have it", _BANDS),
    RegisterRow("outside extreme", "reader", 1000, "note and half step", "nobody has it", _BANDS),
    RegisterRow("jump", "reader", 2, "half step between one key and the next",
                "a hand that stays where it is reads the next key sooner", _PRACTICE),
    RegisterRow("distance", "reader", 1, "half step from where the author wrote it",
                "the author chose a register for its sound", _DESIGN),
    RegisterRow("staff middle", "reader", 0, "half step of lowest and highest note from the staff's middle",
                "the comfortable band says it already", _DESIGN),
    RegisterRow("upward", "reader", 0, "way that goes up", "no difference", _DESIGN),
    RegisterRow("outside comfortable", "author", 300, "note and half step",
                "a forest of ledger lines is worse than the other way round", _PRACTICE),
    RegisterRow("outside full", "author", 0, "note and half step", "not asked", _DESIGN),
    RegisterRow("outside extreme", "author", 0, "note and half step", "A0 to C8 are a limit", _DESIGN),
    RegisterRow("jump", "author", 0, "half step between one key and the next", "not asked", _DESIGN),
    RegisterRow("distance", "author", 2000, "half step from where the author wrote it",
                "the author chose a register for its sound", _DESIGN),
    RegisterRow("staff middle", "author", 2, "half step of lowest and highest note from the staff's middle",
                "of two ways equally far, the one with fewer ledger lines", _PRACTICE),
    RegisterRow("upward", "author", 1, "way that goes up", "if still equal, the lower", _DESIGN),
)  # fmt: skip

FOLD_COSTS: tuple[RegisterRow, ...] = (
    RegisterRow("fold", "reader", 40, "fold", "one octave for all is the better reading", _DESIGN),
    RegisterRow("away from a rest", "reader", 40, "fold where no rest divides the line",
                "a rest is where a player breathes and moves; the widest leap bears turning into its "
                "inversion", _PRACTICE),
    RegisterRow("inside a slur", "reader", 60, "fold under a slur", "a slur is one breath or bow", _PRACTICE),
    RegisterRow("leap made", "reader", 6, "half step beyond a sixth of the new interval",
                "the fold shall not make a leap harder than it removes", _PRACTICE),
)  # fmt: skip
