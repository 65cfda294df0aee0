"""The notes of the bass: the cheapest line through the places where it plays.

A task becomes numbers, costs of each pitch, of each step and of three notes in a row, for `dense_chains`.
The costs stand in `tables.bass`. Pitches are MIDI numbers.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from shedbook.dense_chains.least_cost import Costs, cheapest_triples
from shedbook.sound.players.tables import bass as table
from shedbook.sound.players.usable_notes import UsableNotes

_REACH = 30
"""The widest interval that the cost tables reach, in half steps."""


@dataclass(frozen=True, slots=True)
class Slot:
    """A place where the bass plays: `place` is one of the places of the cost table, `wish` the pattern's."""

    start: Fraction
    quarters: Fraction
    over: UsableNotes
    place: str
    wish: str = ""
    bar: int = 0


@dataclass(frozen=True, slots=True)
class Task:
    """What a line is chosen for.

    `joining` is the first place of what follows. `before` is the note before the first place, `first`
    and `goal` the notes at the first place and at the joining one, all None where they are free. `avoided`
    are the notes of the time before, `last_bar` those of the bar before.
    """

    slots: tuple[Slot, ...]
    joining: Slot | None = None
    before: int | None = None
    first: int | None = None
    goal: int | None = None
    avoided: tuple[int, ...] = ()
    last_bar: tuple[int, ...] = ()


@dataclass(frozen=True, slots=True)
class Problem:
    """A task in numbers: the pitches to choose from at each place, and the costs of `cheapest_triples`."""

    pitches: tuple[NDArray[np.int64], ...]
    single: tuple[Costs, ...]
    pair: tuple[Costs, ...]
    triple: tuple[Costs, ...]


def choose(task: Task, extra: tuple[dict[int, int], ...] = ()) -> tuple[int, ...]:
    """Return the cheapest line as MIDI numbers, the joining note (if any) last.

    Args:
        task: what the line is chosen for.
        extra: for each place what each MIDI number costs on top.
    """
    problem = problem_of(task, extra)
    ways = cheapest_triples(problem.single, problem.pair, problem.triple)
    line = tuple(int(row[at]) for row, at in zip(problem.pitches, ways, strict=True))
    return line if task.before is None else line[1:]


def problem_of(task: Task, extra: tuple[dict[int, int], ...] = ()) -> Problem:
    """Return a task in numbers."""
    rows: list[Slot | None] = [*task.slots, *([] if task.joining is None else [task.joining])]
    choices = [_choices(slot, task, index) for index, slot in enumerate(rows) if slot is not None]
    for index, added in enumerate(extra):
        choices[index] = tuple((pitch, cost + added.get(pitch, 0)) for pitch, cost in choices[index])
    if task.before is not None:
        rows.insert(0, None)
        choices.insert(0, ((task.before, 0),))
    pitches = [np.array([pitch for pitch, _ in row], dtype=np.int64) for row in choices]
    single = [np.array([cost for _, cost in row], dtype=np.int64) for row in choices]
    pair = [_pair(pitches[at], pitches[at + 1], rows[at], rows[at + 1]) for at in range(len(rows) - 1)]
    triple = [_triple(*pitches[at : at + 3]) for at in range(len(rows) - 2)]
    return Problem(tuple(pitches), tuple(single), tuple(pair), tuple(triple))


@lru_cache(maxsize=4096)
def _costed(over: UsableNotes, place: str, wish: str) -> tuple[tuple[int, int], ...]:
    """Return every pitch that may stand at a place, with its cost."""
    row = table.NOTE_COSTS[place]
    found = []
    for pitch in range(table.LOWEST, table.HIGHEST + 1):
        cost = row[_kind(over, pitch % 12)]
        if pitch % 12 in over.shunned or cost >= 1000:
            continue
        wished = {"root": over.ground, "fifth": over.fifth}.get(wish)
        if wished is not None and pitch % 12 != wished:
            cost += table.WISH_COST
        beyond = max(table.EASY_LOWEST - pitch, pitch - table.EASY_HIGHEST, 0)
        found.append((pitch, cost + table.OUTSIDE_EASY * beyond))
    return tuple(found)


def _choices(slot: Slot, task: Task, index: int) -> tuple[tuple[int, int], ...]:
    fixed = task.first if index == 0 else task.goal if index == len(task.slots) else None
    return _costed(slot.over, slot.place, slot.wish) if fixed is None else ((fixed, 0),)


def _kind(over: UsableNotes, pitch_class: int) -> str:
    """Return what a note is over a chord, in the words of the cost table."""
    if pitch_class == over.ground:
        return "ground"
    if pitch_class == over.root:
        return "root"
    if pitch_class == over.pair[0]:
        return "third"
    if pitch_class == over.fifth:
        return "fifth"
    if pitch_class in over.sevenths:
        return "seventh"
    if pitch_class in over.tones:
        return "tone"
    return "scale" if pitch_class in over.walk else "chromatic"


def _pair(one: NDArray[np.int64], two: NDArray[np.int64], left: Slot | None, right: Slot | None) -> Costs:
    interval = two[None, :] - one[:, None]
    size = np.abs(interval)
    costs: Costs = _MOVES[size]
    if right is not None and right.wish in ("again", "ghost"):
        costs = np.where(size == 0, 0, costs + table.WISH_COST)
    if right is not None and right.wish == "drop":
        costs = np.where((interval < 0) & (size >= 3), 0, costs + table.WISH_COST)
    if right is not None and right.wish == "octave":
        costs = np.where(size == 12, 0, costs + table.WISH_COST)
    if left is None:
        return costs
    if left.place == "lead" and right is not None and right.place in ("arrive", "bar"):
        costs = costs + _LEADS[interval + _REACH]
    if right is not None:
        costs = costs + table.LEAP_TO_SCALE * (_between(right.over)[two % 12] & (size >= table.LEAP))
    outside = np.array([int(pitch) % 12 not in left.over.walk for pitch in one])
    astray: Costs = table.LEAVING_CHROMATIC * (outside[:, None] & (size != 1)).astype(np.int64)
    return costs + astray


@lru_cache(maxsize=4096)
def _between(over: UsableNotes) -> NDArray[np.bool_]:
    """Return for each pitch class whether it is only a note between chord tones."""
    return np.array([_kind(over, pitch_class) == "scale" for pitch_class in range(12)])


def _lead_row() -> NDArray[np.int64]:
    return np.array(
        [table.LEADS.get(interval, table.OTHER_LEAD) for interval in range(-_REACH, _REACH + 1)],
        dtype=np.int64,
    )


_LEADS = _lead_row()
_MOVES = np.array([*table.MOVES, *[table.TOO_FAR] * _REACH], dtype=np.int64)


def _triples() -> NDArray[np.int64]:
    """Return the costs of two intervals in a row, by both of them."""
    found = np.zeros((2 * _REACH + 1, 2 * _REACH + 1), dtype=np.int64)
    for one in range(-_REACH, _REACH + 1):
        for two in range(-_REACH, _REACH + 1):
            found[one + _REACH, two + _REACH] = _three(one, two)
    return found


def _three(one: int, two: int) -> int:
    """Return what two intervals in a row cost."""
    if one == 0 or two == 0:
        return 0
    if one + two == 0:
        return table.BACK_AGAIN[min(abs(one), 12)]
    if (one > 0) != (two > 0):
        return table.TURN_BY_STEP if max(abs(one), abs(two)) <= 2 else 0
    cost = table.WIDE if abs(one + two) > 12 else 0
    if min(abs(one), abs(two)) >= 5:
        return cost + table.ONE_WAY_LEAPS
    return cost + (table.LEAP_NOT_FILLED if abs(one) >= 7 else 0)


_TRIPLES = _triples()


def _triple(one: NDArray[np.int64], two: NDArray[np.int64], three: NDArray[np.int64]) -> Costs:
    first = two[None, :] - one[:, None]
    second = three[None, :] - two[:, None]
    found: Costs = _TRIPLES[first[:, :, None] + _REACH, second[None, :, :] + _REACH]
    return found
