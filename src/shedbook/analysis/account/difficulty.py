"""How hard a line is for the hand and the ear: what was counted, and a level from 1 to 5.

Conventions: intervals in semitones, rates in notes a second at the phrase's tempo.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise
from math import lcm

from shedbook.analysis.account.contour import Contour
from shedbook.analysis.account.note_account import NoteAccount
from shedbook.analysis.account.tables.difficulty_levels import LAST_GRADE, LEVELS, SCALE_GRADES, LevelRow
from shedbook.table_index import Rows
from shedbook.theory.metre import quarters, whole_ticks

HIGHEST_LEVEL = 5
"""Levels go from 1 to this."""

_MEASURES = (
    "range", "leaps", "widest leap", "chromatic density", "fastest rate", "steady rate", "chord rate",
    "scale grade",
)  # fmt: skip
"""What is measured; each measure has its limits in the table of levels."""

_LEVELS: Rows[LevelRow] = Rows(
    "levels of difficulty",
    "src/shedbook/analysis/account/tables/difficulty_levels.py",
    [(row.name, row) for row in LEVELS],
)
_LEVELS.must_be(_MEASURES, "it is measured in src/shedbook/analysis/account/difficulty.py")


@dataclass(frozen=True, slots=True)
class Difficulty:
    """What makes a line hard, and how hard it is: `level` goes from 1 (easy) to 5 (hard).

    `range` and `widest_leap` are in semitones, `leaps` is a number, `chromatic_density` the share of notes
    outside chord and scale, `fastest_rate` the most notes a second and `steady_rate` how many there are in a
    second from the first note to the last. `chord_rate` are chords a second, `scale_grade` says how late
    players learn the latest of the scales in mind: 0 for the modes of major, 1 for those of melodic minor, 2
    for the others.
    """

    range: int
    leaps: int
    widest_leap: int
    chromatic_density: Fraction
    fastest_rate: Fraction
    level: int
    steady_rate: Fraction = Fraction(0)
    chord_rate: Fraction = Fraction(0)
    scale_grade: int = 0


def difficulty(notes: tuple[NoteAccount, ...], shape: Contour, quarters_a_minute: Fraction) -> Difficulty:
    """Return how hard a line is at a tempo in quarters a minute; `shape` is the contour of the same notes.

    Every limit of the table of levels that is reached is a point: up to two make level 1, and each three
    more the next one. Speed has the most of them, then the changes, then the scales: what a hand and an ear
    that know the scales find hard in a line at its tempo.
    """
    if not notes:
        return Difficulty(0, 0, 0, Fraction(0), Fraction(0), 1)
    density = Fraction(sum(1 for note in notes if not note.inside), len(notes))
    rate = quarters_a_minute / 60 / _shortest(notes)
    widest = max((abs(leap.semitones) for leap in shape.leaps), default=0)
    steady, chords = _steady(notes) * quarters_a_minute / 60, _chords(notes) * quarters_a_minute / 60
    grade = max(
        (scale_grade(note.span.scale.name) for note in notes if note.span.scale is not None), default=0
    )
    measured: tuple[Fraction | int, ...] = (
        shape.range, len(shape.leaps), widest, density, rate, steady, chords, grade,
    )  # fmt: skip
    points = sum(
        sum(1 for limit in _LEVELS[name].limits if value >= limit)
        for name, value in zip(_MEASURES, measured, strict=True)
    )
    return Difficulty(
        shape.range,
        len(shape.leaps),
        widest,
        density,
        rate,
        min(HIGHEST_LEVEL, 1 + points // 3),
        steady,
        chords,
        grade,
    )


def scale_grade(name: str) -> int:
    """Return how late players learn a scale: 0, 1 or 2."""
    return next((grade for grade, names in SCALE_GRADES if name in names), LAST_GRADE)


def _steady(notes: tuple[NoteAccount, ...]) -> Fraction:
    """Return how many notes there are in a quarter from the first to the last; 0 for one note."""
    lasts = notes[-1].start - notes[0].start
    return Fraction(len(notes) - 1) / lasts if lasts > 0 else Fraction(0)


def _chords(notes: tuple[NoteAccount, ...]) -> Fraction:
    """Return how many chords there are in a quarter."""
    spans = {note.span.start: note.span for note in notes}.values()
    lasts = max(span.end for span in spans) - min(span.start for span in spans)
    return Fraction(len(spans)) / lasts if lasts > 0 else Fraction(0)


def _shortest(notes: tuple[NoteAccount, ...]) -> Fraction:
    """Return the shortest time between two notes in quarters; the length of a note that is alone."""
    grain = lcm(*{note.start.denominator for note in notes})
    starts = [whole_ticks(note.start, grain) for note in notes]
    waits = [after - before for before, after in pairwise(starts) if after > before]
    return quarters(min(waits), grain) if waits else notes[0].quarters
