"""Voicings: which notes a pianist's hand plays of a chord, and the smoothest way from chord to chord.

A voicing is a rootless chord of three or four notes, low to high, as MIDI numbers: the chord's pair, what
the symbol insists on, and colours that the chord scale allows. `smoothest` is dynamic programming over a
row of chords: what each voicing costs by itself, and how far the voices move.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from functools import lru_cache
from itertools import combinations, pairwise

import numpy as np

from shedbook.dense_chains.least_cost import Costs, cheapest_pairs
from shedbook.sound.players.tables import voicings as table
from shedbook.sound.players.usable_notes import UsableNotes

Voicing = tuple[int, ...]


@lru_cache(maxsize=4096)
def voicings(over: UsableNotes) -> tuple[tuple[Voicing, int], ...]:
    """Return the voicings of a chord with their costs, the cheapest first; none over N.C.

    A voicing is MIDI keys from low to high; the costs stand in `tables.voicings`.
    """
    found: dict[Voicing, int] = {}
    for classes, cost in _note_sets(over):
        for voicing in _placed(classes):
            placed = _place_cost(voicing, over)
            if placed is not None:
                found[voicing] = cost + placed
    ordered = sorted(found.items(), key=lambda item: (item[1], item[0]))
    return tuple(ordered[: table.MOST])


def _note_sets(over: UsableNotes) -> Iterable[tuple[tuple[int, ...], int]]:
    """Return which notes may be played together, with their cost."""
    if len(over.pair) < 2:
        if over.root is not None:
            own = sorted({over.root, *over.pair, *(pc for pc, _ in over.colours)})
            yield from ((one, 0) for one in combinations(own, min(3, len(own))))
        return
    names = dict(over.colours)
    names.update({pitch_class: names.get(pitch_class, "") for pitch_class in over.needed})
    choices = sorted(names)
    most_needed = sorted(over.needed)[:2]
    for count in (1, 2):
        for added in combinations(choices, count):
            if not set(most_needed[:count]) <= set(added):
                continue
            cost = sum(table.DEGREES[names[one]] for one in added if one not in over.needed)
            cost += sum(
                table.BESIDE.get((names[one], names[two]), 0) + table.BESIDE.get((names[two], names[one]), 0)
                for one, two in combinations(added, 2)
            )
            yield (*over.pair, *added), cost + table.SIZES[2 + count]


def _placed(classes: tuple[int, ...]) -> Iterable[Voicing]:
    """Return every close position of these notes in the window, and those with the second voice dropped."""
    for bottom in range(table.LOWEST, table.HIGHEST - 5):
        if bottom % 12 not in classes:
            continue
        close = sorted(bottom + (pitch_class - bottom) % 12 for pitch_class in classes)
        yield tuple(close)
        if len(close) == 4 and close[2] - 12 >= table.LOWEST:
            yield tuple(sorted((close[0], close[1], close[2] - 12, close[3])))


def _place_cost(voicing: Voicing, over: UsableNotes) -> int | None:
    """Return what the spread and the place of a voicing cost; None if it is not used."""
    if voicing[0] < table.LOWEST or voicing[-1] > table.HIGHEST or len(set(voicing)) < len(voicing):
        return None
    gaps = [high - low for low, high in pairwise(voicing)]
    if max(gaps, default=0) > max(table.GAPS):
        return None
    cost = sum(table.GAPS[gap] for gap in gaps)
    cost += table.CLUSTER * sum(max(pair) <= 2 for pair in pairwise(gaps))
    cost += table.CLASH_ON_TOP if gaps and gaps[-1] == 1 else 0
    cost += table.FLAT_NINTH * sum(high - low == 13 for low, high in combinations(voicing, 2))
    cost += table.BOTTOM_IS_PAIR if voicing[0] % 12 in over.pair else table.BOTTOM_IS_OTHER
    cost += table.LOW_SECOND if gaps and gaps[0] <= 2 and voicing[0] < 60 else 0
    cost += table.HIGH_BOTTOM * max(0, voicing[0] - table.HOME_BOTTOM)
    beyond = max(0, table.HOME_LOWEST - voicing[0]) + max(0, voicing[-1] - table.HOME_HIGHEST)
    return cost + table.OUTSIDE_HOME * beyond


@lru_cache(maxsize=4096)
def shells(over: UsableNotes) -> tuple[Voicing, ...]:
    """Return every way to play a chord's pair alone inside the window, at most an octave apart."""
    if len(over.pair) < 2:
        return ()
    window = range(table.LOWEST, table.HIGHEST + 1)
    return tuple(
        (low, high)
        for low in window
        for high in range(low + 1, min(low + 12, table.HIGHEST) + 1)
        if {low % 12, high % 12} == set(over.pair)
    )


def movement(one: Voicing, two: Voicing) -> int:
    """Return by how many half steps voices move, from the bottom up; a spare note from its nearest."""
    if len(one) == len(two):
        return sum(abs(high - low) for low, high in zip(one, two, strict=True))
    few, many = sorted((one, two), key=len)
    return sum(min(abs(note - other) for other in few) for note in many)


def step_cost(one: Voicing, two: Voicing) -> int:
    """Return what going from one voicing to the next costs."""
    if one == two:
        return table.SAME_CHORD_MOVES
    top = max(0, abs(two[-1] - one[-1]) - table.EASY_TOP_MOVE)
    stays = table.TOP_STAYS if two[-1] == one[-1] else 0
    return table.MOVE * movement(one, two) + table.TOP_LEAP * top + stays


@lru_cache(maxsize=4096)
def steps(before: tuple[Voicing, ...], after: tuple[Voicing, ...]) -> Costs:
    """Return `step_cost` of every step between two rows of voicings, all at once."""
    top = np.abs(np.subtract.outer([one[-1] for one in before], [two[-1] for two in after]))
    moved = np.zeros(top.shape, dtype=np.int64)
    for size, rows in _by_size(before).items():
        for other, columns in _by_size(after).items():
            one = np.array([before[at] for at in rows])[:, None, :]
            two = np.array([after[at] for at in columns])[None, :, :]
            if size == other:
                block = np.abs(one - two).sum(axis=-1)
            else:
                apart = np.abs(one[..., :, None] - two[..., None, :])
                block = apart.min(axis=-1 if size > other else -2).sum(axis=-1)
            moved[np.ix_(rows, columns)] = block
    found = table.MOVE * moved + table.TOP_LEAP * np.maximum(0, top - table.EASY_TOP_MOVE)
    found += table.TOP_STAYS * (top == 0)
    same = np.array([[one == two for two in after] for one in before])
    costs: Costs = np.where(same, table.SAME_CHORD_MOVES, found)
    costs.flags.writeable = False
    return costs


def _by_size(row: Sequence[Voicing]) -> dict[int, list[int]]:
    found: dict[int, list[int]] = {}
    for at, voicing in enumerate(row):
        found.setdefault(len(voicing), []).append(at)
    return found


def smoothest(rows: Sequence[Sequence[tuple[Voicing, int]]]) -> tuple[Voicing, ...]:
    """Return one voicing of each row: the cheapest together, moves included."""
    if not rows:
        return ()
    single: list[Costs] = [np.array([cost for _, cost in row], dtype=np.int64) for row in rows]
    choices = [tuple(voicing for voicing, _ in row) for row in rows]
    pair = [steps(before, after) for before, after in pairwise(choices)]
    return tuple(row[at] for row, at in zip(choices, cheapest_pairs(single, pair), strict=True))
