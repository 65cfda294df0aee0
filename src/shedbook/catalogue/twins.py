"""Near-duplicates in a catalogue: lines that are the same but for transposition, shift and small edits.

Two lines are compared after the transposition that suits them best, so that key, octave and place in the bar
do not matter. How alike they are is the share of the notes of the longer one that an alignment leaves in
place: 1 less the edit distance (Levenshtein 1966) by the longer length.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator, Sequence
from fractions import Fraction
from itertools import pairwise
from typing import NamedTuple

from shedbook.catalogue.index_file import IndexFile
from shedbook.catalogue.tune import lines_in

LEAST = Fraction(3, 4)
"""Lines that are alike by so much are twins: in a bar of eight notes two may differ."""

_CELL = 4
"""So many steps in a row both lines must share for them to be compared at all."""

_COMMON = 400
"""A cell that stands in more phrases than this tells nothing: a run up a scale."""


class Twins(NamedTuple):
    """Two phrases by their numbers in the index, and how alike they are, 0 to 1."""

    one: int
    other: int
    alike: Fraction


def twins(index: IndexFile, *, least: Fraction = LEAST) -> tuple[Twins, ...]:
    """Return all pairs of phrases that are alike by at least so much, the most alike first."""
    lines = _lines(index)
    found = []
    for one, other in sorted(_candidates(lines)):
        alike = likeness(lines[one], lines[other], least)
        if alike >= least:
            found.append(Twins(one, other, alike))
    return tuple(sorted(found, key=lambda pair: (-pair.alike, pair.one, pair.other)))


def _lines(index: IndexFile) -> dict[int, tuple[int, ...]]:
    """Return the pitches of all phrases by their numbers in the index."""
    numbers: dict[tuple[object, object], int] = {
        (book, ordinal): int(str(phrase))
        for phrase, book, ordinal in index.rows("SELECT phrase, book, ordinal FROM phrase")
    }
    return {
        numbers[book, ordinal]: pitches
        for book, texts in index.tunes()
        for ordinal, pitches in enumerate(lines_in(texts))
    }


def _candidates(lines: dict[int, tuple[int, ...]]) -> set[tuple[int, int]]:
    """Return the pairs of lines that share a cell which is no common run, and are about as long."""
    homes: defaultdict[tuple[int, ...], list[int]] = defaultdict(list)
    for number, pitches in lines.items():
        for cell in set(_cells(pitches)):
            homes[cell].append(number)
    return {
        (one, other)
        for phrases in homes.values()
        if 1 < len(phrases) <= _COMMON
        for place, one in enumerate(phrases)
        for other in phrases[place + 1 :]
        if 2 * min(len(lines[one]), len(lines[other])) >= max(len(lines[one]), len(lines[other]))
    }


def _cells(pitches: Sequence[int]) -> Iterable[tuple[int, ...]]:
    steps = [after - before for before, after in pairwise(pitches)]
    return (tuple(steps[start : start + _CELL]) for start in range(len(steps) - _CELL + 1))


def likeness(one: Sequence[int], other: Sequence[int], least: Fraction = Fraction(0)) -> Fraction:
    """Return how alike two lines are, 0 to 1, up to the transposition that suits them best.

    Args:
        one: MIDI numbers.
        other: those of the other line.
        least: what is surely less is given back as 0, without being worked out.
    """
    longer = max(len(one), len(other))
    if not longer:
        return Fraction(1)
    allowed = int(longer * (1 - least))
    best = min(
        (_distance(one, [pitch + move for pitch in other], allowed) for move in _moves(one, other)),
        default=longer,
    )
    return Fraction(longer - best, longer) if best <= allowed else Fraction(0)


def _moves(one: Sequence[int], other: Sequence[int]) -> Iterator[int]:
    """Yield the transpositions that most pairs of notes at like places agree on, three at most."""
    votes: defaultdict[int, int] = defaultdict(int)
    for place, pitch in enumerate(one):
        for near in other[max(0, place - 2) : place + 3]:
            votes[pitch - near] += 1
    yield from sorted(votes, key=lambda move: (-votes[move], abs(move)))[:3]


def _distance(one: Sequence[int], other: Sequence[int], allowed: int) -> int:
    """Return how few notes must be put in, left out or changed; what is above `allowed` is not worked out."""
    if abs(len(one) - len(other)) > allowed:
        return allowed + 1
    row = list(range(len(other) + 1))
    for place, pitch in enumerate(one, 1):
        before, row[0] = row[0], place
        for column, note in enumerate(other, 1):
            before, row[column] = (
                row[column],
                min(row[column] + 1, row[column - 1] + 1, before + (pitch != note)),
            )
        if min(row) > allowed:
            return allowed + 1
    return row[-1]
