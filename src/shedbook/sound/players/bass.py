"""The bass: a line through the changes, chosen as a whole.

First the rhythm of each bar is drawn from the feel, then the notes are chosen by dynamic
programming over the whole passage, into the first note of what follows: cost of each note over its chord,
of each step, of three notes in a row (`bass_notes`). The costs stand in
`tables.bass`.
"""

from __future__ import annotations

import random
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from shedbook.sound.feels.feel import Feel, FeelBass
from shedbook.sound.feels.patterns import BassWay
from shedbook.sound.feels.shared_patterns import PEDAL_BASS, TWO_IN_A_BAR_BASS
from shedbook.sound.players.band_chart import (
    ANSWER,
    ENDING,
    ROUND,
    SPACE,
    Chart,
    Passage,
    Stretch,
    cell_lengths,
    clave_halves,
)
from shedbook.sound.players.bass_notes import Slot, Task, choose
from shedbook.sound.players.energy import Arc, arc_of, last_round
from shedbook.sound.players.tables import bass as table
from shedbook.sound.players.tables.energy import LAST_ROUND_COURSE
from shedbook.sound.players.usable_notes import UsableNotes, usable_notes
from shedbook.sound.score.seeded_dice import seeded
from shedbook.sound.score.written_score import BASS, PartNote

_FULL, _SPRING = Fraction(19, 20), Fraction(9, 10)
_TRIES = 4
AHEAD, GHOST, DROP = "ahead", "ghost", "drop"
"""Wishes of a pattern that say more than which note it is."""

BassWays = Mapping[Fraction, tuple[BassWay, ...]]
"""The rhythms of the bass, by the length of a cell in quarters."""


@dataclass(frozen=True, slots=True)
class Raw:
    """A note of a rhythm: place, length, wish; `target` is the place whose chord a note ahead takes."""

    start: Fraction
    quarters: Fraction
    wish: str
    target: Fraction | None = None

    @property
    def end(self) -> Fraction:
        """Where the note stops."""
        return self.start + self.quarters


def bass(chart: Chart, *, seed: int, feel: Feel | None = None) -> tuple[PartNote, ...]:
    """Return the bass part of a chart.

    Args:
        chart: what is played.
        seed: another seed gives another line.
        feel: the feel whose bass is played, None for the chart's own.
    """
    own = (feel or chart.feel).bass
    rows = [slots(chart, passage, own, seed) for passage in chart.passages]
    found: list[PartNote] = []
    course = seeded(seed, "bass", "course", chart.name)
    high, arc = last_round(chart), arc_of(chart)
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
        higher = LAST_ROUND_COURSE if passage == high else 0
        pitches = _fresh(task, course, loop=chart.loop and opening is None, higher=higher)
        line = pitches[: len(row)]
        if line:
            opening = line[0] if opening is None else opening
            before, last[passage.kind] = line[-1], line
            last_bar = tuple(
                pitch
                for slot, pitch in zip(row, line, strict=True)
                if slot.bar == row[-1].bar and slot.wish not in (GHOST, DROP)
            )
            first = pitches[len(row)] if joining is not None else None
        found += _notes(row, line, chart, passage, arc)
    return tuple(found)


# Where the bass plays.


def slots(chart: Chart, passage: Passage, own: FeelBass, seed: int) -> tuple[Slot, ...]:
    """Return the places where the bass plays in a passage; over N.C. it rests.

    `own` are the rhythms to draw from. A new chord has a note where it begins, unless one that was struck
    ahead of it already sounds.
    """
    if passage.kind == ENDING:
        first = passage.stretches[0]
        length = first.end - first.start if passage.held else Fraction(1, 2)
        over = usable_notes(first.chord, first.scale)
        return () if over.root is None else (Slot(first.start, length, over, "arrive", "root"),)
    dice = seeded(seed, "bass", "rhythm", chart.name, passage.number)
    raw = _rhythm(chart, passage, own, seed, dice)
    arriving = arrivals(passage.stretches, chart.passages)
    return _placed(
        _at_changes(raw, passage, arriving, _led_into(chart, passage, own)), chart, passage, arriving
    )


def _rhythm(chart: Chart, passage: Passage, own: FeelBass, seed: int, dice: random.Random) -> list[Raw]:
    """Return the rhythm of a passage, drawn bar by bar."""
    ways, half = _ways_of(chart, passage, own, seed), clave_halves(chart, seed)[passage.number]
    lengths = cell_lengths(chart.metre, frozenset(ways))
    found: list[Raw] = []
    at = passage.start
    for bar in range(passage.bars):
        for length in lengths:
            sides = own.two_bars.get(length)
            choices = ways[length] if sides is None else sides[(half + bar) % 2]
            inside = at - passage.start - bar * chart.metre.bar_quarters
            way = _way(chart, own, choices, seed, (bar % 2, inside), dice)
            for offset, quarters, wish in way.notes:
                target = at + length if wish == AHEAD else None
                found.append(Raw(at + offset, quarters, "" if wish == AHEAD else wish, target))
            at += length
    if found and found[0].start > passage.start and passage == chart.passages[0]:
        found.insert(0, Raw(passage.start, found[0].start - passage.start, "root"))
    return found


def _way(
    chart: Chart,
    own: FeelBass,
    choices: Sequence[BassWay],
    seed: int,
    place: tuple[int, Fraction],
    dice: random.Random,
) -> BassWay:
    """Draw the way to play a cell; a feel with a groove mostly has one for each place of two bars."""
    keeps = own.groove_percent and dice.randrange(100) < own.groove_percent
    drawn = seeded(seed, "bass", "groove", chart.name, *place) if keeps else dice
    return drawn.choices(choices, [one.weight for one in choices])[0]


def _ways_of(chart: Chart, passage: Passage, own: FeelBass, seed: int) -> BassWays:
    """Return the ways of a passage: the first round of some tracks is in two, some empty bars on a pedal."""
    if passage.kind == SPACE:
        pedal = seeded(seed, "bass", "pedal", chart.name, passage.number).randrange(100) < own.pedal_percent
        return PEDAL_BASS if pedal else own.ways
    rounds = [one for one in chart.passages if one.kind in (ROUND, ANSWER)]
    in_two = seeded(seed, "bass", "two", chart.name).randrange(100) < own.in_two_percent
    if in_two and len(rounds) > 2 and passage == rounds[0] and not chart.loop:
        return TWO_IN_A_BAR_BASS
    return own.ways


def _led_into(chart: Chart, passage: Passage, own: FeelBass) -> bool:
    """Whether the passage before ends with a note that belongs to this one's first chord."""
    if passage == chart.passages[0]:
        return False
    ways = own.two_bars.get(chart.metre.bar_quarters, ()) or (own.ways.get(chart.metre.bar_quarters, ()),)
    return all(way.notes[-1][2] == AHEAD for side in ways for way in side)


def _at_changes(
    raw: Sequence[Raw], passage: Passage, arriving: frozenset[Fraction], led: bool
) -> tuple[Raw, ...]:
    """Return a rhythm in which every chord has a note where it starts, and no note lasts into one.

    A note that is struck ahead for a chord is that chord's; `led` says that the passage before ends with one.
    """
    found = [one for note in raw for one in _late_chords(note, passage, arriving)]
    targets = {note.target for note in found} | ({passage.start} if led else set())
    for stretch in passage.stretches:
        at = stretch.start
        over = next((index for index, note in enumerate(found) if note.start < at < note.end), None)
        if any(note.start == at for note in found) or at in targets:
            continue
        if over is not None and found[over].target is None:
            found[over] = replace(found[over], quarters=at - found[over].start)
        elif at not in arriving:
            continue
        coming = min((note.start for note in found if note.start > at), default=stretch.end)
        found.append(Raw(at, min(coming, stretch.end) - at, "root"))
        found.sort(key=lambda note: note.start)
    return tuple(found)


def _late_chords(note: Raw, passage: Passage, arriving: frozenset[Fraction]) -> tuple[Raw, ...]:
    """Return a note that is struck ahead of its chord, or one that waits where another chord comes first.

    Then what stands here is a plain note, and the other chord gets its own.
    """
    if note.target is None:
        return (note,)
    target = note.target
    between = [one.start for one in passage.stretches if note.start <= one.start < target]
    if not any(place in arriving for place in between):
        return (note,)
    return (Raw(note.start, target - note.start, ""), Raw(target, note.quarters / 2, "root", target))


def _placed(
    raw: Sequence[Raw], chart: Chart, passage: Passage, arriving: frozenset[Fraction]
) -> tuple[Slot, ...]:
    """Give each note its chord and say where it stands."""
    metre = chart.metre
    strong = {(beat - 1) * metre.beat_quarters for beat in metre.strong_beats}
    following = chart.after(passage)
    coming = () if following is None else _moved(following.stretches, chart.end_of(passage))
    found: list[Slot] = []
    for index, note in enumerate(raw):
        at = note.start if note.target is None else note.target
        stretch = _stretch_at((*passage.stretches, *coming), at)
        inside = (at - passage.start) % metre.bar_quarters
        over = usable_notes(stretch.chord, stretch.scale)
        if over.root is None:
            continue
        end = raw[index + 1].target or raw[index + 1].start if index + 1 < len(raw) else note.end
        is_last = index + 1 == len(raw)
        if at in arriving:
            place = "arrive"
        elif inside == 0:
            place = "bar"
        elif end in arriving or (is_last and following is not None):
            place = "lead"
        else:
            place = "strong" if inside in strong else "weak"
        wish = "" if place == "arrive" else note.wish
        bar = int((note.start - passage.start) // metre.bar_quarters)
        found.append(Slot(note.start, note.quarters, over, place, wish, bar))
    return tuple(found)


def _moved(stretches: Sequence[Stretch], to: Fraction) -> tuple[Stretch, ...]:
    """Return stretches as if the first of them began at a place."""
    by = to - stretches[0].start
    return tuple(replace(one, start=one.start + by, end=one.end + by) for one in stretches)


def arrivals(stretches: Sequence[Stretch], passages: Sequence[Passage]) -> frozenset[Fraction]:
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


def _fresh(task: Task, dice: random.Random, *, loop: bool, higher: int = 0) -> tuple[int, ...]:
    """Return a line that is not the one of the time before and in which no bar repeats the bar before it.

    `loop` says that it opens one; `higher` is by how many half steps its course lies higher than usual.
    """
    if not task.slots:
        return ()
    extra = _chance(task, dice, higher)
    if loop:
        for pitch in extra[0]:
            extra[0][pitch] += table.LOOP_OPENING_OFF * max(0, pitch - table.LOOP_OPENING)
    for slot, costs, pitch in zip(task.slots, extra, task.avoided, strict=False):
        costs[pitch] += 0 if slot.place == "arrive" else table.AS_BEFORE
    found: tuple[int, ...] = ()
    for _ in range(_TRIES):
        found = choose(task, tuple(extra))
        stale = [index for index in _stale(task, found) if task.slots[index].place != "arrive"]
        if not stale:
            break
        for index in stale:
            extra[index][found[index]] += table.AS_BEFORE
    return found


def _chance(task: Task, dice: random.Random, higher: int) -> list[dict[int, int]]:
    """Draw a course for the line to follow, and a little chance for every note."""
    found = []
    at, goal, left = dice.choice(table.COURSE), dice.choice(table.COURSE), table.COURSE_NOTES
    for _ in task.slots:
        if not left:
            at, goal, left = goal, dice.choice(table.COURSE), table.COURSE_NOTES
        height = higher + goal + (at - goal) * left // table.COURSE_NOTES
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
        if slot.wish not in (GHOST, DROP):
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


def _notes(
    row: Sequence[Slot], line: Sequence[int], chart: Chart, passage: Passage, arc: Arc
) -> list[PartNote]:
    """Return the notes with their lengths and weights: none lasts into the next, ghosts are dead and soft."""
    found: list[PartNote] = []
    for index, (slot, pitch) in enumerate(zip(row, line, strict=True)):
        inside = (slot.start - passage.start) % chart.metre.bar_quarters
        share = _FULL if slot.quarters >= 1 else _SPRING
        if passage.kind == ENDING and passage.held:
            share = Fraction(1)
        share = table.GHOST_SHARE if slot.wish in (GHOST, DROP) else share
        quarters = slot.quarters * share
        if index + 1 < len(row):
            quarters = min(quarters, row[index + 1].start - slot.start)
        loud = _weight(slot, inside) + arc.louder(BASS, slot.start)
        found.append(PartNote(slot.start, quarters, pitch, min(127, loud)))
    return found


def _weight(slot: Slot, inside: Fraction) -> int:
    """Return the velocity of a note by where it stands: `inside` is its distance from the bar line."""
    if slot.wish in (GHOST, DROP):
        return table.LOUD[slot.wish]
    loud = table.LOUD["arrive" if slot.place == "arrive" else "bar" if inside == 0 else "plain"]
    if slot.place not in ("arrive", "bar") and inside % 2 == 1:
        loud += table.LOUD["back"]
    return loud + (table.LOUD["off"] if inside % 1 and slot.place != "arrive" else 0)
