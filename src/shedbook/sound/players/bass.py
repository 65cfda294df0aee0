"""The bass: a line through the changes, chosen as a whole.

First the rhythm of each bar is drawn from the feel, then the notes are chosen by dynamic
programming over the whole passage, into the first note of what follows: cost of each note over its chord,
of each step, of three notes in a row (`bass_notes`). The costs stand in
`tables.bass`.
"""

from __future__ import annotations

import random
from collections.abc import Mapping, Sequence
from fractions import Fraction

from shedbook.sound.feels.feel import Feel
from shedbook.sound.feels.patterns import BassWay
from shedbook.sound.players.band_chart import ENDING, Chart, Passage, Stretch, cell_lengths
from shedbook.sound.players.bass_notes import Slot, Task, choose
from shedbook.sound.players.tables import bass as table
from shedbook.sound.players.usable_notes import UsableNotes, usable_notes
from shedbook.sound.score.seeded_dice import seeded
from shedbook.sound.score.written_score import PartNote

_LOUD, _ACCENT = 84, 6
_FULL, _SPRING = Fraction(19, 20), Fraction(9, 10)
_TRIES = 4

BassWays = Mapping[Fraction, tuple[BassWay, ...]]
"""The rhythms of the bass, by the length of a cell in quarters."""


def bass(chart: Chart, *, seed: int, feel: Feel | None = None) -> tuple[PartNote, ...]:
    """Return the bass part of a chart.

    Args:
        chart: what is played.
        seed: another seed gives another line.
        feel: the feel whose bass is played, None for the chart's own.
    """
    ways = (feel or chart.feel).bass.ways
    rows = [slots(chart, passage, ways, seed) for passage in chart.passages]
    found: list[PartNote] = []
    course = seeded(seed, "bass", "course", chart.name)
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
        pitches = _fresh(task, course, loop=chart.loop and opening is None)
        own = pitches[: len(row)]
        if own:
            opening = own[0] if opening is None else opening
            before, last[passage.kind] = own[-1], own
            last_bar = tuple(pitch for slot, pitch in zip(row, own, strict=True) if slot.bar == row[-1].bar)
            first = pitches[len(row)] if joining is not None else None
        found += _notes(row, own, chart, passage)
    return tuple(found)


# Where the bass plays.


def slots(chart: Chart, passage: Passage, ways: BassWays, seed: int) -> tuple[Slot, ...]:
    """Return the places where the bass plays in a passage; over N.C. it rests.

    `ways` are the rhythms to draw from, by the length of a cell in quarters.
    """
    if passage.kind == ENDING:
        first = passage.stretches[0]
        length = first.end - first.start if passage.held else Fraction(1, 2)
        over = usable_notes(first.chord, first.scale)
        return () if over.root is None else (Slot(first.start, length, over, "arrive", "root"),)
    dice = seeded(seed, "bass", "rhythm", chart.name, passage.number)
    raw = _rhythm(chart, passage, ways, dice)
    return _placed(_at_changes(raw, passage.stretches), chart, passage)


def _rhythm(
    chart: Chart, passage: Passage, ways: BassWays, dice: random.Random
) -> list[tuple[Fraction, Fraction, str]]:
    lengths = cell_lengths(chart.metre, frozenset(ways))
    found: list[tuple[Fraction, Fraction, str]] = []
    for bar in range(passage.bars):
        at = passage.start + bar * chart.metre.bar_quarters
        for length in lengths:
            choices = ways[length]
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
        over = usable_notes(stretch.chord, stretch.scale)
        if over.root is None:
            continue
        is_last = index + 1 == len(raw)
        if start in arriving:
            place = "arrive"
        elif inside == 0:
            place = "bar"
        elif end in arriving or (is_last and following is not None):
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
    before: UsableNotes | None = None
    for passage in passages:
        for stretch in passage.stretches:
            over = usable_notes(stretch.chord, stretch.scale)
            if before is None or (over.root, over.ground, over.pair) != (
                before.root,
                before.ground,
                before.pair,
            ):
                found.add(stretch.start)
            before = over
    return frozenset(found)


def _stretch_at(stretches: Sequence[Stretch], place: Fraction) -> Stretch:
    found = stretches[0]
    for stretch in stretches:
        if stretch.start <= place:
            found = stretch
    return found


# What it plays: chance, and what is stale.


def _fresh(task: Task, dice: random.Random, *, loop: bool) -> tuple[int, ...]:
    """Return a line that is not the one of the time before and in which no bar repeats the bar before it.

    `loop` says that it opens one.
    """
    if not task.slots:
        return ()
    extra = _chance(task, dice)
    if loop:
        for pitch in extra[0]:
            extra[0][pitch] += table.LOOP_OPENING_OFF * max(0, pitch - table.LOOP_OPENING)
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
        if len(bar) > 2 and _alike(bar, last):
            found += places[1:]
        last = bar
    return found


def _alike(bar: tuple[int, ...], last: tuple[int, ...]) -> bool:
    """Whether a bar is as good as the one before it."""
    if len(bar) != len(last):
        return False
    return sum(one != two for one, two in zip(bar, last, strict=True)) <= table.ALIKE


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
