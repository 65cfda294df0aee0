"""What is seen only of a line as a whole, weighed on top of its notes.

The lattice looks back one move; that a line brings cells back, spans a tenth or ends low it cannot see. A few
features of whole lines are weighed by the ratio of their likelihoods in real lines and in lines that the
lattice draws (from memory: Rosenfeld, Chen and Zhu 2001, whole-sentence exponential language models). A line
is then drawn in two steps: several from the lattice, one of them in proportion to that ratio, which comes
near to a draw from both together the more are drawn.
"""

from __future__ import annotations

from collections.abc import Mapping
from functools import lru_cache
from random import Random
from types import MappingProxyType

import numpy as np
from numpy.typing import NDArray

from shedbook.draft.lines import Lines

NAMES = (
    "cells of three again", "cells of four again", "pitches", "span", "deviation", "back again",
    "longest run", "turns", "end height", "start height", "wide moves", "repeated notes", "half steps",
    "thirds", "tritones",
)  # fmt: skip
_DRAWN = 200


def features(lines: NDArray[np.intp]) -> NDArray[np.float64]:
    """Return the features of lines [line, note] as a table [line, feature], in the order of `NAMES`."""
    return np.array([_of_line(line) for line in np.asarray(lines)])


def _of_line(line: NDArray[np.intp]) -> list[float]:
    moves = np.diff(line)
    notes, mean = len(line), float(line.mean())
    signs = np.sign(moves)
    runs = np.split(signs, np.flatnonzero(np.diff(signs)) + 1)
    return [
        _again(moves, 2),
        _again(moves, 3),
        len(set(line.tolist())) / notes,
        float(np.ptp(line)) / 12,
        float(line.std()) / 6,
        float(np.mean(line[2:] == line[:-2])) if notes > 2 else 0.0,
        max(len(run) for run in runs) / 4,
        float(np.mean(signs[1:] * signs[:-1] < 0)) if notes > 2 else 0.0,
        (float(line[-1]) - mean) / 6,
        (float(line[0]) - mean) / 6,
        float(np.mean(np.abs(moves) > 4)),
        float(np.mean(moves == 0)),
        float(np.mean(np.abs(moves) == 1)),
        float(np.mean((np.abs(moves) == 3) | (np.abs(moves) == 4))),
        float(np.mean(np.abs(moves) == 6)),
    ]


def _again(moves: NDArray[np.intp], size: int) -> float:
    """Return the share of cells of so many moves that were there before in the line."""
    cells = [tuple(moves[at : at + size].tolist()) for at in range(len(moves) - size + 1)]
    return 1 - len(set(cells)) / max(1, len(cells))


@lru_cache(maxsize=1)
def whole_figures() -> Mapping[str, float]:
    """Return what each feature is worth, in natural logarithms for a unit of it (`tables.line_figures`)."""
    from shedbook.draft.tables.line_figures import WHOLE_FIGURES  # noqa: PLC0415 - read only where it is asked for

    return MappingProxyType(WHOLE_FIGURES)


def drawn_by_whole(lines: Lines, dice: Random, many: int = _DRAWN) -> tuple[int, ...]:
    """Return a line drawn in proportion to its weight by notes and as a whole, of `many` drawn by notes."""
    drawn = lines.drawn(many, dice)
    worth = features(drawn) @ np.array([whole_figures()[name] for name in NAMES])
    shares = np.exp(worth - worth.max()).cumsum()
    at = int(np.searchsorted(shares, dice.random() * shares[-1]))
    return tuple(drawn[min(at, len(drawn) - 1)].tolist())
