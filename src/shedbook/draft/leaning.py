"""The author's leanings as figures: the table, more or less of each as an order asks, a shape, a likeness."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from itertools import pairwise, product

import numpy as np

from shedbook.draft.figures import SHAPES, Figures, Floats, learnt_figures, no_figures
from shedbook.draft.moods import CLASSES, SIZE_OF, WIDEST, last_class
from shedbook.draft.tables.leanings import LEANINGS
from shedbook.errors import UnknownNameError, nearest

WEIGHTS = ("both", "learnt", "author")
"""The tables of weights that can be chosen."""

CONTOURS: Mapping[str, tuple[float, ...]] = {
    "arch": (-0.5, 0.1, 0.5, 0.2, -0.5),
    "bowl": (0.5, -0.1, -0.5, -0.2, 0.4),
    "rise": (-0.6, -0.3, 0.0, 0.3, 0.6),
    "fall": (0.6, 0.3, 0.0, -0.3, -0.6),
    "wave": (-0.3, 0.5, -0.3, 0.5, -0.3),
}
"""Shapes of a line as heights at even distances, in half ranges from the middle [the project's design]."""
_SHAPE_PULL = 5.0
"""How strongly a shape pulls, in natural logarithms at a half range from it [the project's design]."""
_LIKENESS = 0.9
"""What a pair of moves of the phrase that a draft shall be like is worth [the project's design]."""


def figures_of(weights: str, leans: Mapping[str, int], like: Sequence[Sequence[int]] = ()) -> Figures:
    """Return the figures of a table of weights, with what an order leans to besides.

    Args:
        weights: one of `WEIGHTS`.
        leans: by name of a leaning, hundredths of a logarithm to add to it.
        like: the pitches of phrases whose moves are liked.

    Raises:
        UnknownNameError: for a name that is none.
    """
    if weights not in WEIGHTS:
        raise UnknownNameError(
            f'There is no table of weights "{weights[:40]}".',
            hint=nearest(weights, WEIGHTS) or f"Write one of {', '.join(WEIGHTS)}.",
        )
    names = [row.name for row in LEANINGS]
    for name in leans:
        if name not in names:
            raise UnknownNameError(
                f'There is no leaning "{name[:40]}".',
                hint=nearest(name, names) or f"Write one of {', '.join(names)}.",
            )
    found = no_figures() if weights == "author" else learnt_figures()
    if weights != "learnt" or leans:
        found = found + _author(leans, table=weights != "learnt")
    for midi in like:
        found = found + _liking(midi)
    return found


def _author(leans: Mapping[str, int], *, table: bool) -> Figures:
    added = {name: np.zeros(shape) for name, shape in SHAPES.items()}
    for row in LEANINGS:
        weight = (row.weight if table else 0) + leans.get(row.name, 0)
        for entry in row.entries:
            for at in product(
                *[
                    range(size) if one == "*" else (int(one),)
                    for one, size in zip(entry, SHAPES[row.figure], strict=True)
                ]
            ):
                added[row.figure][at] += weight / 100
    return Figures(**added)


def _liking(midi: Sequence[int]) -> Figures:
    """Return figures that favour the pairs of moves of a phrase."""
    moves = np.zeros((CLASSES, 2 * WIDEST + 1))
    last = 0
    for before, after in pairwise(midi):
        move = after - before
        if abs(move) > WIDEST:
            last = 0
            continue
        moves[last, move + WIDEST] = _LIKENESS
        last = last_class((move > 0) - (move < 0), SIZE_OF[abs(move)])
    empty = no_figures()
    return Figures(**{name: moves if name == "moves" else getattr(empty, name) for name in SHAPES})


def shape_pull(shape: str, onsets: Sequence[int], low: int, high: int) -> Floats:
    """Return weights [note, pitch] that pull a line to a shape within a range.

    Raises:
        UnknownNameError: for a shape that is none of `CONTOURS`.
    """
    if shape not in CONTOURS:
        raise UnknownNameError(
            f'There is no shape "{shape[:40]}".',
            hint=nearest(shape, CONTOURS) or f"Write one of {', '.join(CONTOURS)}.",
        )
    heights = CONTOURS[shape]
    length = max(1, onsets[-1] - onsets[0])
    place = [(onset - onsets[0]) / length for onset in onsets]
    wanted = np.interp(place, np.linspace(0, 1, len(heights)), heights)
    middle, half = (low + high) / 2, max(1.0, (high - low) / 2)
    pitches = np.clip((np.arange(low - WIDEST, high + WIDEST + 1) - middle) / half, -1.5, 1.5)
    return np.asarray(-_SHAPE_PULL * (pitches[None, :] - wanted[:, None]) ** 2)
