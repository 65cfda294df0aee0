"""Which phrase of a book a row of notes is, and in which key: by pitches, then by rhythm."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from typing import NamedTuple

import numpy as np

from shedbook.listen.lines import Line, PlayedNote

_GAP, _OTHER = 1.0, 1.2
_TRANSPOSITIONS = 3
_NEAR = 0.3
_RHYTHM = 1.5
_AGAINST_THE_NAME = 1.3
"""By how much a phrase must be likelier than the one that was named to be taken in its place."""
LEAST_LIKENESS = 0.34
"""Under this share of common notes, a row of notes is none of the phrases."""


class Likely(NamedTuple):
    """A phrase that a row of notes may be.

    Attributes:
        which: which of the lines.
        moved: by how many half steps it sounds higher than its line.
        likeness: the share of notes in common, less what differs, at most 1.
        score: `likeness` times the number of notes, with what the rhythm adds: the greater the better.
    """

    which: int
    moved: int
    likeness: float
    score: float


def likely_phrases(notes: Sequence[PlayedNote], lines: Sequence[Line], most: int = 3) -> tuple[Likely, ...]:
    """Return the phrases that a row of notes may be, the likeliest first.

    Args:
        notes: what was heard.
        lines: the phrases in their own keys.
        most: how many are returned.
    """
    heard = np.array([note.midi for note in notes])
    starts = np.array([note.start_s for note in notes])
    found = []
    for index, line in enumerate(lines):
        ways = _alike(heard, starts, line, index, _transpositions(heard, line.midi))
        if ways:
            found.append(max(ways, key=lambda way: way.score))
    found.sort(key=lambda way: -way.score)
    return tuple(way for way in found[:most] if way.likeness >= LEAST_LIKENESS)


def likeliest(notes: Sequence[PlayedNote], lines: Sequence[Line], named: int | None = None) -> Likely | None:
    """Return the phrase that a row of notes is, None where it is like none.

    Args:
        notes: what was heard.
        lines: the phrases in their own keys.
        named: which of them it was said to be before it was played; a much likelier one is not kept out.
    """
    found = likely_phrases(notes, lines, len(lines))
    said = next((one for one in found if one.which == named), None)
    if said is not None and said.score * _AGAINST_THE_NAME >= found[0].score:
        return said
    return next(iter(found), None)


def _transpositions(heard: np.ndarray, written: Sequence[int]) -> list[int]:
    """Return the few transpositions under which most notes agree that lie in like places of both."""
    count, notes = len(heard), len(written)
    if not count or not notes or not 0.4 <= count / notes <= 2.5:
        return []
    line = np.array(written)
    away = np.abs(np.subtract.outer(np.arange(count) / count, np.arange(notes) / notes))
    moves = np.subtract.outer(heard, line)[away < _NEAR]
    common = Counter(moves.tolist()).most_common(_TRANSPOSITIONS)
    return [int(move) for move, votes in common if votes >= 0.3 * min(count, notes)]


def _alike(
    heard: np.ndarray, starts: np.ndarray, line: Line, index: int, moves: Sequence[int]
) -> list[Likely]:
    """Return how alike notes and a line are in some transpositions; nothing where they are so in none."""
    if not moves:
        return []
    same = _same(heard, np.array(line.midi)[None] + np.array(moves)[:, None])
    values = _aligned(same)
    longer = max(same.shape[1:])
    if values[:, -1, -1].max() / longer < LEAST_LIKENESS:
        return []
    places = np.array([float(note.start) for note in line.notes])
    found = []
    for moved, value, like in zip(moves, values, same, strict=True):
        score = float(value[-1, -1])
        rhythm = _rhythm(starts, places, _pairs(value, like))
        found.append(Likely(index, moved, score / longer, score + _RHYTHM * rhythm))
    return found


def _same(heard: np.ndarray, written: np.ndarray) -> np.ndarray:
    """Return transpositions by notes heard by notes written: whether they are alike, an octave away too."""
    away = heard[None, :, None] - written[:, None, :]
    return np.asarray((away % 12 == 0) & (np.abs(away) <= 12))


def _aligned(same: np.ndarray) -> np.ndarray:
    """Return the value of the best alignment up to each note of both: 1 a pair, less for the rest.

    Needleman and Wunsch 1970 (from memory), for each transposition.
    """
    gain = np.where(same, 1.0, -_OTHER)
    ways, rows, columns = gain.shape
    value = np.zeros((ways, rows + 1, columns + 1))
    value[:, :, 0] = -_GAP * np.arange(rows + 1)
    slope = _GAP * np.arange(columns + 1)
    value[:, 0] = -slope
    for row in range(1, rows + 1):
        best = value[:, row - 1] - _GAP
        best[:, 1:] = np.maximum(best[:, 1:], value[:, row - 1, :-1] + gain[:, row - 1])
        value[:, row] = np.maximum.accumulate(best + slope, axis=1) - slope
    return value


def _pairs(value: np.ndarray, same: np.ndarray) -> list[tuple[int, int]]:
    """Return the pairs of like notes of the best alignment."""
    pairs, (row, column) = [], same.shape
    while row and column:
        gain = 1.0 if same[row - 1, column - 1] else -_OTHER
        if abs(value[row, column] - value[row - 1, column - 1] - gain) < 1e-9:
            row, column = row - 1, column - 1
            if same[row, column]:
                pairs.append((row, column))
        elif abs(value[row, column] - value[row - 1, column] + _GAP) < 1e-9:
            row -= 1
        else:
            column -= 1
    return pairs[::-1]


def _rhythm(starts: np.ndarray, places: np.ndarray, pairs: Sequence[tuple[int, int]]) -> float:
    """Return how well the rhythm agrees, 0 to 1: how far distances follow one tempo."""
    if len(pairs) < 3:
        return 0.0
    at, place = (np.array(one) for one in zip(*pairs, strict=True))
    ratios = np.log(np.maximum(np.diff(starts[at]), 1e-3) / np.maximum(np.diff(places[place]), 1e-3))
    return float(np.exp(-np.median(np.abs(ratios - np.median(ratios)))))
