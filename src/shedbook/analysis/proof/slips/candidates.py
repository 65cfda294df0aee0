"""What an author may have meant instead of what is written: one slip each, without a judgement."""

from __future__ import annotations

import itertools
from collections.abc import Iterator
from typing import NamedTuple

from shedbook.analysis.proof.slips.note_features import Feature
from shedbook.analysis.proof.slips.tables.chord_kinds import ROWS
from shedbook.analysis.proof.slips.typed_line import LANDING, MEMBERSHIP, OUTSIDE, TypedLine

OCTAVE, ACCIDENTAL, STRAY, LETTER, DOUBLED = "octave", "accidental", "stray", "letter", "doubled"
"""The kinds of slip in a line, the keys of `tables.slip_kinds`.

An `accidental` slip stands on a landing and leads away from a guide tone of the chord, a `stray` one anywhere
else and leads outside.
"""

_OCTAVE = 12
_LEAP = 6
"""From how many half steps an interval may be the edge of notes in the wrong octave."""

_MOST_IN_OCTAVE = 24
"""How many notes in a row may be in the wrong octave: longer stretches are the line's own register."""


class Meant(NamedTuple):
    """A slip that may have been made: the notes `first` to `last` were meant `shift` half steps away."""

    kind: str
    first: int
    last: int
    shift: int


def notes_meant(line: TypedLine, at: int) -> Iterator[Meant]:
    """Yield what may have been meant in place of one note, but for its octave."""
    midi, kind, root = line.midi, line.kind[at], line.root[at]
    written = midi[at]
    lost = MEMBERSHIP[kind][(written - root) % 12] == OUTSIDE
    beside = {midi[place] for place in (at - 1, at + 1) if 0 <= place < len(midi)}
    if beside == {written}:  # a note that is struck again and again is a pedal
        return
    for shift in (-2, -1, 1, 2):
        pitch = written + shift
        if pitch in beside:
            continue
        degree = (pitch - root) % 12
        guide = line.stress[at] == LANDING and degree in ROWS[kind].guides
        if abs(shift) == 1:
            if guide:
                yield Meant(ACCIDENTAL, at, at, shift)
            elif lost and MEMBERSHIP[kind][degree] != OUTSIDE:
                yield Meant(STRAY, at, at, shift)
        elif guide and lost:
            yield Meant(LETTER, at, at, shift)
    if at and midi[at - 1] == written and not line.parted[at - 1]:
        yield from _typed_twice(line, at, beside)


def _typed_twice(line: TypedLine, at: int, beside: set[int]) -> Iterator[Meant]:
    """Yield what may have been meant by a note that repeats the one before."""
    for shift in (-4, -3, -2, -1, 1, 2, 3, 4):
        pitch = line.midi[at] + shift
        member = MEMBERSHIP[line.kind[at]][(pitch - line.root[at]) % 12]
        if member != OUTSIDE and pitch not in beside:
            yield Meant(DOUBLED, at, at, shift)


def octaves_meant(line: TypedLine) -> Iterator[Meant]:
    """Yield the notes and stretches of notes that may have been meant in another octave.

    Such a stretch begins and ends at a leap, at a rest or at an end of the line, and the leaps at its edges
    are smaller, taken together, when it is moved.
    """
    midi, many = line.midi, len(line.midi)
    leaps = [after - before for before, after in itertools.pairwise(midi)]
    edges = [
        0, *(at + 1 for at, leap in enumerate(leaps) if abs(leap) >= _LEAP or line.parted[at]), many,
    ]  # fmt: skip
    for place, first in enumerate(edges):
        for end in edges[place + 1 :]:
            if end - first > min(_MOST_IN_OCTAVE, many - 1):
                break
            come = leaps[first - 1] if first else 0
            go = leaps[end - 1] if end < many else 0
            for shift in (-_OCTAVE, _OCTAVE):
                moved = (abs(come + shift) if first else 0) + (abs(go - shift) if end < many else 0)
                if moved < abs(come) + abs(go):
                    yield Meant(OCTAVE, first, end - 1, shift)


def intervals_moved(intervals: list[int], meant: Meant) -> list[int]:
    """Return the intervals of a line whose notes `first` to `last` are moved by the shift."""
    moved = intervals.copy()
    if meant.first:
        moved[meant.first - 1] += meant.shift
    if meant.last < len(intervals):
        moved[meant.last] -= meant.shift
    return moved


def stretch_feature(line: TypedLine, meant: Meant) -> Feature:
    """Return how long a stretch in another octave is, and whether a forgotten octave number would make it.

    That is so where its first note has the octave number of the note before: the number is then left out.
    """
    first = meant.first
    forgotten = first > 0 and line.midi[first] // _OCTAVE == line.midi[first - 1] // _OCTAVE
    return "stretch", (min(meant.last - first + 1, 5), forgotten)
