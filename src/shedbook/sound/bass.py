"""The bass: a line through the changes, chosen as a whole.

First the rhythm of each bar is drawn from the feel's table, then the notes are chosen by dynamic
programming over the whole passage, into the first note of what follows: cost of each note over its chord,
of each step, of three notes in a row. Costs and rhythms stand in `tables.bass`.
"""

from __future__ import annotations

import random
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from shedbook.sound.chart import ENDING, Chart, Passage, Stretch, cell_lengths
from shedbook.sound.cheapest import Costs, cheapest_triples
from shedbook.sound.palette import Palette, palette
from shedbook.sound.parts import PartNote
from shedbook.sound.seeds import seeded
from shedbook.sound.tables import bass as table

_LOUD, _ACCENT = 84, 6
_FULL, _SPRING = Fraction(19, 20), Fraction(9, 10)
_REACH = 30
_TRIES = 4


@dataclass(frozen=True, slots=True)
class Slot:
    """A place where the bass plays: `place` is one of the places of the cost table, `wish` the pattern's."""

    start: Fraction
    quarters: Fraction
    palette: Palette
    place: str
    wish: str = ""
    bar: int = 0


def bass(chart: Chart, *, seed: int, style: str = "") -> tuple[PartNote, ...]:
    """Return the bass part of a chart.

    Args:
        chart: what is played.
        seed: another seed gives another line.
        style: one of the styles of `tables.bass`; "" goes by the feel.
    """
    chosen = style or table.FEEL_STYLES.get(chart.feel, "walking")
    rows = [slots(chart, passage, chosen, seed) for passage in chart.passages]
    found: list[PartNote] = []
    course = seeded(seed, "bass", "course")
    first: int | None = None
    opening: int | None = None
    before: int | None = None
    last: dict[str, tuple[int, ...]] = {}
    last_bar: tuple[int, ...] = ()
    for index, (passage, row) in enumerate(zip(chart.passages, rows, strict=True)):
        after = rows[index + 1] if index + 1 < len(rows) else rows[0] if chart.loop else ()
        joining = after[0] if after else None
        goal = opening if chart.loop and index + 1 == len(rows) else None
        task = Task(row, joining, before, first, goal, last.get(passage.kind, ()), last_bar)
        pitches = _fresh(task, course)
        own = pitches[: len(row)]
        if own:
            opening = own[0] if opening is None else opening
            before, last[passage.kind] = own[-1], own
            last_bar = tuple(pitch for slot, pitch in zip(row, own, strict=True) if slot.bar == row[-1].bar)
            first = pitches[len(row)] if joining is not None else None
        found += _notes(row, own, chart, passage)
    return tuple(found)


# Where the bass plays.


def slots(chart: Chart, passage: Passage, style: str, seed: int) -> tuple[Slot, ...]:
    """Return the places where the bass plays in a passage; over N.C. it rests."""
    if passage.kind == ENDING:
        first = passage.stretches[0]
        length = first.end - first.start if passage.held else Fraction(1, 2)
        over = palette(first.chord, first.scale)
        return () if over.root is None else (Slot(first.start, length, over, "arrive", "root"),)
    dice = seeded(seed, "bass", "rhythm", passage.number)
    raw = _rhythm(chart, passage, style, dice)
    return _placed(_at_changes(raw, passage.stretches), chart, passage)


def _rhythm(
    chart: Chart, passage: Passage, style: str, dice: random.Random
) -> list[tuple[Fraction, Fraction, str]]:
    ways = table.STYLES[style]
    lengths = cell_lengths(chart.metre, frozenset(ways))
    found: list[tuple[Fraction, Fraction, str]] = []
    for bar in range(passage.bars):
        at = passage.start + bar * chart.metre.bar_quarters
        for length in lengths:
            choices = ways.get(length) or (table.Way(1, ((Fraction(0), length, ""),)),)
            way = dice.choices(choices, [one.weight for one in choices])[0]
            found += [(at + offset, quarters, wish) for offset, quarters, wish in way.notes]
            at += length
    return found


def _at_changes(
    raw: list[tuple[Fraction, Fraction, str]], stretches: Sequence[Stretch]
) -> list[tuple[Fraction, Fraction, str]]:
    """Return a rhythm in which every chord has a note where it starts, and no note lasts into one."""
    found = list(raw)
    for stretch in stretches:
        for index, (start, quarters, wish) in enumerate(found):
            if start < stretch.start < start + quarters:
                found[index] = (start, stretch.start - start, wish)
                found.insert(index + 1, (stretch.start, start + quarters - stretch.start, "root"))
                break
    return found


def _placed(raw: list[tuple[Fraction, Fraction, str]], chart: Chart, passage: Passage) -> tuple[Slot, ...]:
    """Give each note its chord and say where it stands."""
    metre = chart.metre
    strong = {(beat - 1) * metre.beat_quarters for beat in metre.strong_beats}
    following = chart.after(passage)
    arriving = _arrivals(passage.stretches, chart.passages)
    found: list[Slot] = []
    for index, (start, quarters, wish) in enumerate(raw):
        stretch = _stretch_at(passage.stretches, start)
        end = start + quarters
        inside = (start - passage.start) % metre.bar_quarters
        over = palette(stretch.chord, stretch.scale)
        if over.root is None:
            continue
        is_last = index + 1 == len(raw)
        if start in arriving:
            place = "arrive"
        elif inside == 0:
            place = "bar"
        elif end in arriving or (is_last and following is not None and end not in _same(passage, following)):
            place = "lead"
        else:
            place = "strong" if inside in strong else "weak"
        if place == "arrive":
            wish = ""
        bar = int((start - passage.start) // metre.bar_quarters)
        found.append(Slot(start, quarters, over, place, wish, bar))
    return tuple(found)


def _arrivals(stretches: Sequence[Stretch], passages: Sequence[Passage]) -> frozenset[Fraction]:
    """Return the places of the track where a new chord begins; the first of all is one."""
    found: set[Fraction] = set()
    before: Palette | None = None
    for passage in passages:
        for stretch in passage.stretches:
            over = palette(stretch.chord, stretch.scale)
            if before is None or (over.root, over.ground, over.pair) != (
                before.root,
                before.ground,
                before.pair,
            ):
                found.add(stretch.start)
            before = over
    return frozenset(found)


def _same(passage: Passage, following: Passage) -> frozenset[Fraction]:
    """Return the end of a passage when the same chord goes on after it."""
    here, there = passage.stretches[-1], following.stretches[0]
    mine, theirs = palette(here.chord, here.scale), palette(there.chord, there.scale)
    return frozenset({here.end} if mine == theirs else ())


def _stretch_at(stretches: Sequence[Stretch], place: Fraction) -> Stretch:
    found = stretches[0]
    for stretch in stretches:
        if stretch.start <= place:
            found = stretch
    return found


# Which notes it plays.


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


def _fresh(task: Task, dice: random.Random) -> tuple[int, ...]:
    """Return a line that is not the one of the time before and in which no bar repeats the bar before it."""
    if not task.slots:
        return ()
    extra = _chance(task, dice)
    for costs, pitch in zip(extra, task.avoided, strict=False):
        costs[pitch] += table.AS_BEFORE
    found: tuple[int, ...] = ()
    for _ in range(_TRIES):
        found = choose(task, tuple(extra))
        stale = _stale(task, found)
        if not stale:
            break
        for index in stale:
            extra[index][found[index]] += table.AS_BEFORE
    return found


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
def _costed(over: Palette, place: str, wish: str) -> tuple[tuple[int, int], ...]:
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
    return _costed(slot.palette, slot.place, slot.wish) if fixed is None else ((fixed, 0),)


def _kind(over: Palette, pitch_class: int) -> str:
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
    if right is not None and right.wish == "again":
        costs = np.where(size == 0, 0, costs + table.WISH_COST)
    if left is None:
        return costs
    if left.place == "lead" and right is not None and right.place == "arrive":
        costs = costs + _LEADS[interval + _REACH]
    outside = np.array([int(pitch) % 12 not in left.palette.walk for pitch in one])
    astray: Costs = table.LEAVING_CHROMATIC * (outside[:, None] & (size != 1)).astype(np.int64)
    return costs + astray


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


# Chance, and what is stale.


def _chance(task: Task, dice: random.Random) -> list[dict[int, int]]:
    """Draw a course for the line to follow, and a little chance for every note."""
    found = []
    at, goal, left = dice.choice(table.COURSE), dice.choice(table.COURSE), table.COURSE_NOTES
    for _ in task.slots:
        if not left:
            at, goal, left = goal, dice.choice(table.COURSE), table.COURSE_NOTES
        height = goal + (at - goal) * left // table.COURSE_NOTES
        left -= 1
        pitches = range(table.LOWEST, table.HIGHEST + 1)
        found.append({
            pitch: table.OFF_COURSE * abs(pitch - height) + chance % (table.NOISE + 1)
            for pitch, chance in zip(pitches, dice.randbytes(len(pitches)), strict=True)
        })  # fmt: skip
    return found


def _stale(task: Task, line: tuple[int, ...]) -> list[int]:
    """Return the places to change: all when the line is the one before, else bars like their neighbours."""
    own = line[: len(task.slots)]
    if len(own) > 1 and own == task.avoided:
        return list(range(len(own)))
    bars: dict[int, list[int]] = {}
    for index, slot in enumerate(task.slots):
        bars.setdefault(slot.bar, []).append(index)
    found: list[int] = []
    last = task.last_bar
    for places in bars.values():
        bar = tuple(own[at] for at in places)
        if len(bar) > 2 and bar == last:
            found += places
        last = bar
    return found


def _notes(row: Sequence[Slot], line: Sequence[int], chart: Chart, passage: Passage) -> list[PartNote]:
    """Return the notes: full length, the first of a bar a little louder, short notes soft."""
    found = []
    for slot, pitch in zip(row, line, strict=True):
        inside = (slot.start - passage.start) % chart.metre.bar_quarters
        loud = _LOUD + (_ACCENT if inside == 0 else 0) - (12 if slot.quarters < 1 and inside % 1 else 0)
        share = _FULL if slot.quarters >= 1 else _SPRING
        if passage.kind == ENDING and passage.held:
            share = Fraction(1)
        found.append(PartNote(slot.start, slot.quarters * share, pitch, loud))
    return found
