"""What the explanation says of the whole line: guide tones, cells, frames, what stays and what returns."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from shedbook.analysis.account import Account
from shedbook.analysis.devices.everything import Devices
from shedbook.analysis.devices.guide_lines import GuideFall
from shedbook.analysis.devices.motifs import CellInSequence
from shedbook.analysis.telling.remark import Remark
from shedbook.analysis.telling.slots import (
    BarNumber,
    Count,
    Degree,
    Degrees,
    Meanings,
    Moves,
    Note,
    Notes,
    Of,
    Over,
    Size,
    Slot,
    Way,
)

CELL_TOPIC = "cells"

_MOST_PAIRS = 4


def about_lines(account: Account, seen: Devices) -> Iterator[Remark]:
    """Yield the remarks on what holds the line together."""
    yield from _guides(account, seen)
    yield from _cells(account, seen)
    yield from _staying(seen)
    yield from _echoes(account, seen)
    yield from _frames(account, seen)
    yield from _arpeggios(account, seen)
    yield from _fourths(account, seen)
    yield from _triads(account, seen)


def _guides(account: Account, seen: Devices) -> Iterator[Remark]:
    falls = seen.guide_falls
    about = [frozenset((fall.guide, fall.goal)) for fall in falls]
    sevenths = [fall for fall in falls if account.notes[fall.guide].degree != "4"]
    if len(sevenths) > 1:
        yield _falls(account, sevenths)
    for fall, both in zip(falls, about, strict=True):
        yield _fall(account, fall, both)
    line = seen.guide_line
    if line:
        ends = (account.notes[line[0]].span.index, account.notes[line[-1]].span.index)
        slots: dict[str, Slot] = {
            "notes": Notes(line, once=False), "first": Over(ends[0]), "last": Over(ends[1]),
        }  # fmt: skip
        whole = ends == (0, len(account.spans) - 1)
        yield Remark(
            "guide line.whole" if whole else "guide line.part",
            93,
            line[0],
            slots,
            frozenset(line),
            "guides",
            leads=True,
        )


def _falls(account: Account, falls: list[GuideFall]) -> Remark:
    """Tell several sevenths that fall to thirds, at every change or at some, four of them at the most."""
    pairs = tuple((fall.guide, fall.goal) for fall in falls)
    changes = len(account.spans) - 1
    kind = "falls.each" if len(falls) == changes else "falls.some"
    if len(falls) == 2:
        kind = "falls.both" if len(falls) == changes else "falls.twice"
    if len(falls) > _MOST_PAIRS:
        kind, pairs = "falls.many", pairs[:_MOST_PAIRS]
    slots: dict[str, Slot] = {"pairs": Moves(pairs), "times": Count(len(falls))}
    every = frozenset(note for fall in falls for note in (fall.guide, fall.goal))
    return Remark(kind, 88 + 2 * len(pairs), falls[0].guide, slots, every, "guides", leads=True)


def _fall(account: Account, fall: GuideFall, both: frozenset[int]) -> Remark:
    slots: dict[str, Slot] = {
        "guide": Note(fall.guide), "of": Of(fall.guide), "goal": Note(fall.goal), "goal_of": Of(fall.goal),
        "between": Note(fall.goal - 1),
    }  # fmt: skip
    guide, before, goal = (account.notes[at].midi for at in (fall.guide, fall.goal - 1, fall.goal))
    kind = "fall.half" if guide - goal == 1 else "fall.whole"
    if fall.late:
        kind = "fall.through" if goal < before < guide else "fall.late"
    return Remark(kind, 72 if fall.late else 76, fall.guide, slots, both, "guides", leads=True)


def _cells(account: Account, seen: Devices) -> Iterator[Remark]:
    for cell in seen.cells:
        shift = cell.shifts[0]
        steady = cell.exact and len(set(cell.shifts)) == 1
        starts = tuple(cell.first + at * cell.cell for at in range(cell.times))
        if (
            cell.times < 3
            and account.notes[cell.first + cell.cell - 1].midi == account.notes[cell.first].midi
        ):
            continue
        slots: dict[str, Slot] = {
            "notes": Notes(tuple(range(cell.first, cell.first + cell.cell)), once=False),
            "times": Count(cell.times), "size": Size(shift), "way": Way(shift, compared=True),
            "starts": Notes(starts, once=False), "second": Note(starts[1]),
        }  # fmt: skip
        kind = ("cell.twice" if steady else "cell.shape") if cell.times == 2 else "cell.often"
        if cell.times > 2 and steady:
            kind = "cell.steady"
        if cell.times > 2 and _crosses_the_beat(account, cell):
            kind = "cell.across"
        worth = 70 if cell.times == 2 else 88
        about = frozenset(range(cell.first, cell.last + 1))
        yield Remark(
            kind, worth, cell.first, slots, about, CELL_TOPIC, leads=cell.times > 2, placed=cell.first == 0
        )


def _crosses_the_beat(account: Account, cell: CellInSequence) -> bool:
    """Whether a cell lasts a beat and a half, so that each begins at another place of its beat."""
    return cell.quarters == Fraction(3, 2) * account.phrase.metre.beat_quarters and cell.cell == 3


def _staying(seen: Devices) -> Iterator[Remark]:
    stay = seen.staying_note
    if stay:
        slots: dict[str, Slot] = {
            "note": Note(stay[0]), "times": Count(len(stay)), "meanings": Meanings(stay),
        }  # fmt: skip
        yield Remark("staying note", 94, stay[0], slots, frozenset(stay), "staying", leads=True)


def _echoes(account: Account, seen: Devices) -> Iterator[Remark]:
    for echo in seen.echoes:
        if echo.length > 1:
            continue  # that is how to learn the phrase: `practice` tells it
        earlier, later = echo.bars
        slots: dict[str, Slot] = {
            "earlier": BarNumber(earlier, earlier + echo.length - 1),
            "later": BarNumber(later, later + echo.length - 1),
            "size": Size(echo.semitones), "way": Way(echo.semitones, compared=True),
            "chord": Over(account.notes[echo.first].span.index),
        }  # fmt: skip
        number = "one" if echo.length == 1 else "many"
        same = "same " if echo.semitones == 0 else ""
        whole = "whole " if echo.whole else ""
        about = frozenset(range(echo.first, echo.first + echo.notes))
        yield Remark(f"echo.{whole}{same}{number}", 72, echo.first, slots, about, "echo")
    for change in seen.altered_echoes:
        slots = {
            "earlier": BarNumber(change.bars[0]), "later": BarNumber(change.bars[1]),
            "old": Notes(change.old), "new": Notes(change.new),
            "chord": Over(account.notes[change.new[0]].span.index),
        }  # fmt: skip
        yield Remark("echo.altered", 92, change.new[0], slots, frozenset(change.new), "echo", leads=True)


def _frames(account: Account, seen: Devices) -> Iterator[Remark]:
    for frame in seen.frames:
        slots: dict[str, Slot] = {
            "notes": Notes(frame.notes), "chord": Over(account.notes[frame.notes[0]].span.index),
            "way": Way(frame.direction),
        }  # fmt: skip
        kind = "frame.diminished" if frame.diminished else "frame.own"
        about = frozenset(frame.notes)
        yield Remark(kind, 91, frame.notes[0], slots, about, "frame", leads=True)


def _arpeggios(account: Account, seen: Devices) -> Iterator[Remark]:
    for one in seen.arpeggios:
        about = frozenset(range(one.first, one.last + 1))
        slots: dict[str, Slot] = {
            "first": Note(one.first), "degree": Degree(one.first), "last": Note(one.last),
            "last_degree": Degree(one.last), "chord": Over(account.notes[one.first].span.index),
        }  # fmt: skip
        way = "up" if one.direction > 0 else "down"
        start = "start " if one.first == 0 else ""
        octave = abs(account.notes[one.last].midi - account.notes[one.first].midi) == 12
        how = "octave " if octave and one.of_chord else "thirds " if one.in_thirds else ""
        yield Remark(f"arpeggio.{start}{how}{way}", 64, one.first, slots, about, "arpeggio")


def _fourths(account: Account, seen: Devices) -> Iterator[Remark]:
    for one in seen.fourths:
        span = account.notes[one.first].span
        if span.chord.root is None or account.notes[one.last].span.index != span.index:
            continue
        about = frozenset(range(one.first, one.last + 1))
        slots: dict[str, Slot] = {
            "first": Note(one.first), "degree": Degree(one.first), "last": Note(one.last),
            "last_degree": Degree(one.last), "chord": Over(span.index),
        }  # fmt: skip
        way = "up" if one.direction > 0 else "down"
        yield Remark(f"fourths.{way}", 80, one.first, slots, about, "arpeggio", leads=True)


def _triads(account: Account, seen: Devices) -> Iterator[Remark]:
    for one in seen.laid_triads:
        notes = tuple(range(one.first, one.first + 3))
        slots: dict[str, Slot] = {
            "notes": Notes(notes), "root": Note(one.root_note), "meanings": Degrees(notes),
            "chord": Over(account.notes[one.first].span.index),
        }  # fmt: skip
        yield Remark(f"triad.{one.quality}", 62, one.first, slots, frozenset(notes), "triad")
