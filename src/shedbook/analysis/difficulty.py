"""How hard a line is for the hand and the ear: what was counted, and a level from 1 to 5.

Conventions: intervals in semitones, rates in notes a second at the phrase's tempo.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise

from shedbook.analysis.contour import Contour
from shedbook.analysis.notes import NoteAccount
from shedbook.analysis.tables.levels import LEVELS


@dataclass(frozen=True, slots=True)
class Difficulty:
    """What makes a line hard; `level` is 1 (easy) to 5 (hard)."""

    range: int
    leaps: int
    widest_leap: int
    chromatic_density: Fraction
    fastest_rate: Fraction
    level: int


def difficulty(notes: tuple[NoteAccount, ...], shape: Contour, quarters_a_minute: Fraction) -> Difficulty:
    """Return how hard a line is; the tempo in quarters a minute."""
    if not notes:
        return Difficulty(0, 0, 0, Fraction(0), Fraction(0), 1)
    outside = sum(1 for note in notes if not note.inside)
    shortest = min(
        (after.start - before.start for before, after in pairwise(notes) if after.start > before.start),
        default=notes[0].quarters,
    )
    rate = quarters_a_minute / 60 / shortest
    measured = {
        "range": Fraction(shape.range),
        "leaps": Fraction(len(shape.leaps)),
        "widest leap": Fraction(max((abs(leap.semitones) for leap in shape.leaps), default=0)),
        "chromatic density": Fraction(outside, len(notes)),
        "fastest rate": rate,
    }
    points = sum(sum(1 for limit in row.limits if measured[row.name] >= limit) for row in LEVELS)
    return Difficulty(
        shape.range,
        len(shape.leaps),
        int(measured["widest leap"]),
        measured["chromatic density"],
        rate,
        min(5, 1 + points // 2),
    )
