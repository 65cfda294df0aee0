"""Every move between states of a pitch with a mood, whatever stands where, and which of them resolve."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from shedbook.draft.moods import CLASSES, RUNS, WIDEST, Habits, moods_of

MOVES = 2 * WIDEST + 1
"""How many moves there are, down and up."""


@dataclass(frozen=True)
class Arcs:
    """All moves between states, whatever stands where; arrays by arc, in the order of their sources.

    `step`, `habit`, `turn` and `shared` are places in tables laid out flat: [pitch before, move], [class of
    the last move, move], [moves one way, whether it goes on] and [pitch before, class of the last move, moves
    one way].
    """

    states: int
    source: NDArray[np.intp]
    target: NDArray[np.intp]
    move: NDArray[np.intp]
    pitch_from: NDArray[np.intp]
    pitch_to: NDArray[np.intp]
    pair: NDArray[np.intp]
    step: NDArray[np.intp]
    habit: NDArray[np.intp]
    turn: NDArray[np.intp]
    shared: NDArray[np.intp]
    closing: NDArray[np.bool_]
    opens: NDArray[np.bool_]
    resolving: NDArray[np.bool_]


@lru_cache(maxsize=32)
def arcs_of(habits: Habits, pitches: int) -> Arcs:
    """Return every move between the states of so many pitches, under some habits."""
    moods = moods_of(habits)
    pitch, mood, column = np.meshgrid(
        np.arange(pitches), np.arange(moods.count), np.arange(2 * WIDEST + 1), indexing="ij"
    )
    parts = []
    for table, opens in ((moods.plain, False), (moods.opening, True)):
        to, move = table[mood, column], column - WIDEST
        there = pitch + move
        kept = (to >= 0) & (there >= 0) & (there < pitches)
        source = (pitch * moods.count + mood)[kept]
        target = (there * moods.count + to)[kept]
        parts.append(
            (source, target, move[kept], pitch[kept], there[kept], mood[kept], np.full(len(source), opens))
        )
    source, target, move, came, went, mood_from, opens_all = (
        np.concatenate(one) for one in zip(*parts, strict=True)
    )
    order = np.argsort(source, kind="stable")
    move, mood_from = move[order], mood_from[order]
    same = (np.sign(move) == moods.sign[mood_from]) & (move != 0)
    steps_on = same & (moods.size[mood_from] <= 2) & (moods.size[mood_from] >= 1)
    last, run = moods.last[mood_from], np.minimum(moods.run[mood_from], RUNS - 1)
    return Arcs(
        pitches * moods.count,
        source[order],
        target[order],
        move,
        came[order],
        went[order],
        came[order] * pitches + went[order],
        came[order] * MOVES + move + WIDEST,
        last * MOVES + move + WIDEST,
        2 * run + same,
        (came[order] * CLASSES + last) * RUNS + run,
        moods.closing[mood_from],
        opens_all[order],
        (np.abs(move) == 1) | ((np.abs(move) == 2) & steps_on),
    )


def resolving(
    arcs: Arcs, index: NDArray[np.intp], outside_before: NDArray[np.bool_], outside: NDArray[np.bool_]
) -> NDArray[np.bool_]:
    """Return which of some arcs keep the rule that notes outside the scale resolve.

    Such a note goes on by half step, or by step the way that it was come to by step, to a note inside; or it
    is the first of an enclosure, whose second note lies beyond the note that both of them lead to.
    """
    from_outside, to_inside = outside_before[arcs.pitch_from[index]], ~outside[arcs.pitch_to[index]]
    closing = arcs.closing[index]
    resolved = to_inside & arcs.resolving[index]
    plain = np.where(closing, to_inside, ~from_outside | resolved)
    opened = from_outside & ~resolved & ~closing
    return np.asarray(np.where(arcs.opens[index], opened, plain))
