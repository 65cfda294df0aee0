"""What is seen only of a line as a whole, weighed on top of its notes.

The lattice looks back one move; that a line brings cells back, spans a tenth or ends low it cannot see. Some
features of whole lines, and their squares, which hold how far they scatter, are weighed on top of the
lattice: a line is as likely as its notes make it, times the exponential of these (from memory: Rosenfeld,
Chen and Zhu 2001, whole-sentence exponential language models). A line is then drawn in two steps: several
from the lattice, one of them in proportion to that factor, which comes near to a draw from both together the
more are drawn.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from functools import lru_cache
from random import Random
from types import MappingProxyType

import numpy as np
from numpy.typing import NDArray

from shedbook.draft.lines import Lines
from shedbook.draft.moods import LEAP, SIZE_OF
from shedbook.draft.places import Place, mask_of

Floats = NDArray[np.float64]
Flags = NDArray[np.bool_]

SIZES: Mapping[str, tuple[int, int]] = MappingProxyType(
    {
        "repeated notes": (0, 0), "half steps": (1, 1), "whole steps": (2, 2), "minor thirds": (3, 3),
        "major thirds": (4, 4), "fourths": (5, 5), "tritones": (6, 6), "fifths": (7, 7),
        "sixths": (8, 9), "sevenths": (10, 11),
        "octaves": (12, 12),
    }
)  # fmt: skip
"""Sizes of moves whose shares are features, in half steps."""
_NONE = ("cells of three again", "cells of four again", "repeated notes", "outside strong", "half steps")
"""Features of which it counts by itself whether a line has any."""
_ONCE = ("last in chord", "last root")
"""Features that are 0 or 1, so that their squares say nothing more."""
_NOTES = 20
"""The notes of a line for which features count as they are."""
_DRAWN = 200
"""How many lines one is chosen of."""


def features(lines: NDArray[np.intp], places: Sequence[Place]) -> dict[str, Floats]:
    """Return the features of lines [line, note] by name, each an array by line.

    They count in proportion to the notes of the line: a share among twenty notes tells twice what it tells
    among ten.
    """
    lines = np.asarray(lines, dtype=np.intp)
    found = _contour(lines) | _moves(lines) | _harmony(lines, places)
    none = {f"no {name}": (found[name] == 0).astype(float) for name in _NONE}
    squares = {f"{name} squared": one**2 for name, one in found.items() if name not in _ONCE}
    told = lines.shape[1] / _NOTES
    return {name: told * one for name, one in (found | none | squares).items()}


def _contour(lines: NDArray[np.intp]) -> dict[str, Floats]:
    """Return where lines lie, how they turn and what comes back in them."""
    notes, mean = lines.shape[1], lines.mean(axis=1)
    moves = np.diff(lines, axis=1)
    turns = _turns(moves)
    longest, runs = _runs(np.sign(moves))
    return {
        "cells of three again": _again(moves, 2),
        "cells of four again": _again(moves, 3),
        "pitches": _different(lines) / notes,
        "span": np.ptp(lines, axis=1) / 12,
        "deviation": lines.std(axis=1) / 6,
        "back again": _share(lines[:, 2:] == lines[:, :-2], np.array(True), 0.0),
        "longest run": longest / 4,
        "mean run": (notes - 1) / runs / 2,
        "turns": _share(turns, np.array(True), 0.0),
        "end height": (lines[:, -1] - mean) / 6,
        "start height": (lines[:, 0] - mean) / 6,
        "peak": lines.argmax(axis=1) / notes,
        "up": (moves > 0).mean(axis=1),
    }


def _moves(lines: NDArray[np.intp]) -> dict[str, Floats]:
    """Return the shares of moves by size, and what follows leaps."""
    moves = np.diff(lines, axis=1)
    size = np.abs(moves)
    leaps = size[:, :-1] >= SIZE_OF.index(LEAP)
    found = {name: ((size >= least) & (size <= most)).mean(axis=1) for name, (least, most) in SIZES.items()}
    found["leaps turned back"] = _share(_turns(moves), leaps, 0.5)
    found["leaps to a step"] = _share(size[:, 1:] <= 2, leaps, 0.5)
    return found


def _harmony(lines: NDArray[np.intp], places: Sequence[Place]) -> dict[str, Floats]:
    """Return how lines stand over their chords, beat by beat, at changes and at the end."""
    size = np.abs(np.diff(lines, axis=1))
    chord = _standing(lines, places, lambda place: place.chord.span.chord_classes)
    inside = _standing(lines, places, lambda place: place.chord.inside)
    guides = _standing(lines, places, lambda place: place.chord.guides)
    strong = np.array([place.strong for place in places])
    on_beat = np.array([place.on_beat for place in places])
    enters = np.array([place.enters for place in places])[1:]
    found: dict[str, Floats] = {}
    for name, here in (("strong", strong), ("on the beat", on_beat & ~strong), ("off the beat", ~on_beat)):
        found[f"chord {name}"] = _share(chord, here, 0.5)
        found[f"outside {name}"] = _share(~inside, here, 0.2)
    found["outside by half step"] = _share(size == 1, ~inside[:, :-1], 0.5)
    found["outside twice"] = _share(~inside[:, 1:], ~inside[:, :-1], 0.2)
    found["links"] = (size * enters).sum(axis=1) / max(1, enters.sum()) / 4
    found["links by step"] = _share(size <= 2, enters, 0.5)
    found["guides at links"] = _share(guides[:, 1:], enters, 0.3)
    found["last in chord"] = chord[:, -1].astype(float)
    found["last root"] = (lines[:, -1] % 12 == places[-1].chord.root).astype(float)
    return found


def _standing(
    lines: NDArray[np.intp], places: Sequence[Place], classes: Callable[[Place], frozenset[int]]
) -> Flags:
    columns = [mask_of(classes(place))[lines[:, at] % 12] for at, place in enumerate(places)]
    return np.stack(columns, axis=1)


def _share(what: Flags, where: Flags, otherwise: float) -> Floats:
    """Return for each line the share of places, of those in question, where something is so."""
    here = np.broadcast_to(where, what.shape)
    count = here.sum(axis=1)
    return np.asarray(
        np.where(count > 0, (what & here).sum(axis=1) / np.maximum(1, count), otherwise), dtype=np.float64
    )


def _turns(moves: NDArray[np.intp]) -> Flags:
    return np.sign(moves[:, 1:]) * np.sign(moves[:, :-1]) < 0


def _runs(signs: NDArray[np.intp]) -> tuple[NDArray[np.intp], NDArray[np.intp]]:
    """Return for each line how many moves its longest run one way has, and how many runs there are."""
    run = longest = runs = np.ones(len(signs), dtype=np.intp)
    for at in range(1, signs.shape[1]):
        goes_on = signs[:, at] == signs[:, at - 1]
        run, runs = np.where(goes_on, run + 1, 1), runs + ~goes_on
        longest = np.maximum(longest, run)
    return longest, runs


def _again(moves: NDArray[np.intp], size: int) -> Floats:
    """Return the share of cells of so many moves that were there before in the line."""
    many = moves.shape[1] - size + 1
    if many < 1:
        return np.zeros(len(moves))
    base = 2 * int(np.abs(moves).max(initial=0)) + 1
    cells = np.zeros((len(moves), many), dtype=np.intp)
    for at in range(size):
        cells = cells * base + moves[:, at : at + many]
    return np.asarray(1 - _different(cells) / many, dtype=np.float64)


def _different(rows: NDArray[np.intp]) -> NDArray[np.intp]:
    """Return how many different numbers each row holds."""
    return np.asarray(1 + (np.diff(np.sort(rows, axis=1), axis=1) != 0).sum(axis=1))


@lru_cache(maxsize=1)
def whole_figures() -> Mapping[str, float]:
    """Return what each feature is worth, in natural logarithms for a unit of it (`tables.line_figures`)."""
    from shedbook.draft.tables.line_figures import WHOLE_FIGURES  # noqa: PLC0415 - read only where it is asked for

    return MappingProxyType(WHOLE_FIGURES)


def whole_worth(lines: NDArray[np.intp], places: Sequence[Place]) -> Floats:
    """Return what lines [line, note] are worth as wholes, in natural logarithms."""
    found = features(lines, places)
    return np.asarray(np.sum([weight * found[name] for name, weight in whole_figures().items()], axis=0))


def drawn_by_whole(lines: Lines, dice: Random, many: int = _DRAWN) -> tuple[int, ...]:
    """Return a line drawn in proportion to its weight by notes and as a whole, of `many` drawn by notes."""
    drawn = lines.drawn(many, dice)
    worth = whole_worth(drawn, lines.places)
    shares = np.exp(worth - worth.max()).cumsum()
    at = int(np.searchsorted(shares, dice.random() * shares[-1]))
    return tuple(drawn[min(at, len(drawn) - 1)].tolist())
