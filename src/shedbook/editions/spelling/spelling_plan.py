"""What there is to decide about the names of a phrase: which notes need one, and which of them are compared.

All of it follows from sound and rhythm, so that one plan serves the phrase in every key.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from typing import TypeAlias

from shedbook.editions.cost_table import costs_by_name
from shedbook.editions.spelling.note_names import (
    KEY_NOTE,
    SCALE_TONE,
    TENSION,
    NoteNames,
    phrase_names,
)
from shedbook.editions.tables.spelling_costs import NOTE_COSTS
from shedbook.phrase.model import Phrase, Value

_COST = costs_by_name(NOTE_COSTS)

_ANTICIPATION = Fraction(1, 2)
"""A note at most this many quarters before a change is read by the next chord where it is a tone of that."""

SIDE = 30
"""What stands for a bar that inclines to sharps; -30 for flats. Both lie beyond every name on the line of
fifths."""

# A table of costs is read as table[earlier][later], both being names on the line of fifths; names below
# zero count from the end, as Python's indexes do.
_NAMES = (*range(32), *range(-32, 0))
Table: TypeAlias = tuple[tuple[int, ...], ...]
Join: TypeAlias = tuple[int, Table]
Row: TypeAlias = tuple[tuple[tuple[int, ...], int], ...]


def _table(cost: Callable[[int, int], int]) -> Table:
    return tuple(tuple(cost(earlier, later) for later in _NAMES) for earlier in _NAMES)


_BY_SIZE = tuple(
    0 if size <= 6 else _COST[{
        7: "chromatic half step", 8: "augmented or diminished", 9: "augmented or diminished",
        10: "diminished third", 11: "augmented third", 12: "one pitch two names",
    }.get(size, "beyond")]
    for size in range(len(_NAMES))
)  # fmt: skip
"""What an interval costs by its size in fifths."""


def _interval_cost(earlier: int, later: int) -> int:
    """Return what the written interval between two neighbours costs."""
    return _BY_SIZE[abs(later - earlier)]


def _wrapped_cost(earlier: int, later: int) -> int:
    """Return the same for two notes that enclose a goal, where any kind of second or third will do."""
    return _COST["one pitch two names"] if abs(later - earlier) == 12 else 0


def _again_cost(earlier: int, later: int) -> int:
    """Return what it costs when a pitch that comes again in its bar has another name."""
    return 0 if earlier == later else _COST["renamed in bar"]


def _side_cost(side: int, name: int) -> int:
    """Return what a name costs in a bar that inclines to sharps or to flats."""
    against = name < -1 if side > 0 else name > 5
    return _COST["mixed bar"] if against else 0


def _leaving(cost: int) -> Table:
    """Return the costs of a half step; `cost` is added where an altered note keeps its letter.

    A sharp or a flat should lead to the next letter: F# to G, and not G flat to G.
    """

    def both(earlier: int, later: int) -> int:
        keeps_letter = abs(later - earlier) == 7 and not -1 <= earlier <= 5
        return _interval_cost(earlier, later) + (cost if keeps_letter else 0)

    return _table(both)


_NEIGHBOURS = _table(_interval_cost)
_FROM_SCALE = _leaving(_COST["leaving scale"])
_HALF_STEP = (_NEIGHBOURS, _FROM_SCALE, _FROM_SCALE, _FROM_SCALE, _leaving(_COST["leaving outside"]))
"""The costs of a half step, by the standing of the first of its two notes."""
_WRAPPED = _table(_wrapped_cost)
_AGAIN = _table(_again_cost)
BAR_SIDE = _table(_side_cost)
"""The costs of a name in a bar, by the side to which the bar inclines."""


@dataclass(frozen=True, slots=True)
class Struck:
    """A note that needs a name: its MIDI number, the index of its chord, the index of its bar.

    `fifths` is the name by which the author wrote it, as its place on the line of fifths.
    """

    midi: int
    chord: int
    bar: int
    fifths: int


@dataclass(frozen=True, slots=True)
class Unknown:
    """One thing to decide: the name of a note (`struck` is its index), or the side of a bar (-1).

    `joins` are the earlier unknowns that it is weighed against: their place, and the table of costs.
    """

    struck: int
    joins: tuple[Join, ...]


@dataclass(frozen=True, slots=True)
class SpellingPlan:
    """What there is to decide in a phrase, whatever its key.

    Attributes:
        struck: the notes that need a name, grace notes included, in order.
        unknowns: the names of these notes and the sides of the bars, in the order in which they are decided.
        places: for each struck note, its index among the unknowns.
        events: for each event of each bar, the indexes of its grace notes and its own; -1 for a rest.
        roots: the roots of the chords as the author wrote them, as places on the line of fifths; None
            where no chord sounds. The author's tonic where the phrase has no changes.
        tonic: the author's tonic, as its place on the line of fifths.
    """

    struck: tuple[Struck, ...]
    unknowns: tuple[Unknown, ...]
    places: tuple[int, ...]
    events: tuple[Row, ...]
    roots: tuple[int | None, ...]
    tonic: int


@lru_cache(maxsize=4096)
def _quarters(values: tuple[Value, ...]) -> Fraction:
    return sum((value.quarters for value in values), Fraction(0))


@lru_cache(maxsize=16)
def plan_spelling(phrase: Phrase) -> SpellingPlan:
    """Return what there is to decide about the names of a phrase; results are kept for its other keys."""
    names = phrase_names(phrase)
    struck, events = _struck_notes(phrase, names)
    standing = [names[note.chord].standing[note.midi % 12] for note in struck]
    joined = _joined(struck, standing)
    unknowns, places = _unknowns(struck, joined)
    tonic = phrase.key.tonic.fifths
    roots = tuple(
        [None if change.chord.root is None else change.chord.root.fifths for change in phrase.changes]
    )
    return SpellingPlan(tuple(struck), unknowns, places, events, roots or (tonic,), tonic)


def _struck_notes(phrase: Phrase, names: list[NoteNames]) -> tuple[list[Struck], tuple[Row, ...]]:
    """Return the notes in order, each with its chord, and for every event the indexes of its notes."""
    starts = [phrase.change_start(change) for change in phrase.changes]
    struck: list[Struck] = []
    rows = []
    now, last = 0, -1
    for index, bar in enumerate(phrase.bars):
        place = phrase.bar_start(bar.number)
        row: list[tuple[tuple[int, ...], int]] = []
        for event in bar.events:
            if event.pitch is None:
                row.append(((), -1))
            else:
                tied = event.tie_in and last >= 0 and struck[last].midi == event.pitch.midi
                while now + 1 < len(starts) and starts[now + 1] <= place:
                    now += 1
                near = now + 1 < len(starts) and starts[now + 1] - place <= _ANTICIPATION
                first = len(struck)
                for pitch in event.grace if tied else (*event.grace, event.pitch):
                    chord = now + 1 if near and _anticipates(pitch.midi % 12, *names[now : now + 2]) else now
                    struck.append(Struck(pitch.midi, chord, index, 7 * pitch.midi - 12 * pitch.step))
                last = last if tied else len(struck) - 1
                row.append((tuple(range(first, first + len(event.grace))), last))
            place += _quarters(event.values)
        rows.append(tuple(row))
    return struck, tuple(rows)


def _anticipates(pitch_class: int, now: NoteNames, after: NoteNames) -> bool:
    """Say whether a note just before a change is not a tone of its own chord, but one of the next."""
    return now.standing[pitch_class] > TENSION and after.standing[pitch_class] <= TENSION


def _joined(struck: list[Struck], standing: list[int]) -> list[list[Join]]:
    """Return for each note the earlier notes with which it is compared, and the costs."""
    joined: list[list[Join]] = [[] for _ in struck]
    for index, note in enumerate(struck):
        if index:
            joined[index].append((index - 1, _neighbour_table(struck, standing, index - 1)))
        if index > 1 and _closes_in(struck, standing, index - 2):
            half_step = abs(struck[index - 2].midi - note.midi) == 1
            if half_step:
                joined[index].append((index - 2, _HALF_STEP[standing[index - 2]]))
        for earlier in range(index - 2, -1, -1):
            if struck[earlier].bar != note.bar:
                break
            if struck[earlier].midi % 12 == note.midi % 12:
                joined[index].append((earlier, _AGAIN))
                break
    return joined


def _neighbour_table(struck: list[Struck], standing: list[int], index: int) -> Table:
    """Return the costs between a note and the one after it."""
    if _closes_in(struck, standing, index):
        return _WRAPPED
    if abs(struck[index].midi - struck[index + 1].midi) == 1:
        return _HALF_STEP[standing[index]]
    return _NEIGHBOURS


def _closes_in(struck: list[Struck], standing: list[int], index: int) -> bool:
    """Say whether a note and the next enclose the one after, at least one of them being outside the scale."""
    if index + 2 >= len(struck):
        return False
    first, second, goal = (struck[index + offset].midi for offset in range(3))
    return (
        (first - goal) * (second - goal) < 0
        and abs(first - goal) <= 2
        and abs(second - goal) <= 2
        and max(standing[index : index + 2]) >= KEY_NOTE
        and standing[index + 2] <= SCALE_TONE
    )


def _unknowns(struck: list[Struck], joined: list[list[Join]]) -> tuple[tuple[Unknown, ...], tuple[int, ...]]:
    """Return the unknowns, notes and bars, in order, and the index among them of each note."""
    unknowns: list[Unknown] = []
    places: list[int] = []
    side = 0
    for index, note in enumerate(struck):
        if not index or struck[index - 1].bar != note.bar:
            side = len(unknowns)
            unknowns.append(Unknown(-1, ()))
        places.append(len(unknowns))
        joins = [(places[earlier], table) for earlier, table in joined[index]]
        unknowns.append(Unknown(index, ((side, BAR_SIDE), *joins)))
    return tuple(unknowns), tuple(places)
