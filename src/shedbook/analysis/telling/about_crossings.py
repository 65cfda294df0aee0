"""What the explanation says of the crossings from one chord into the next."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from itertools import pairwise

from shedbook.analysis.account import Account
from shedbook.analysis.account.figures import RUN
from shedbook.analysis.account.melodic_links import CHANGE, Link
from shedbook.analysis.account.note_account import NoteAccount, explained_together
from shedbook.analysis.devices.everything import Devices
from shedbook.analysis.roles.role_names import ANTICIPATION, APPROACH, ENCLOSURE, PASSING, SUSPENSION
from shedbook.analysis.telling.remark import Remark
from shedbook.analysis.telling.slots import Degree, Moves, Note, Notes, Of, Over, Slot, Way

_FIRM = frozenset(("3", "b3", "b7", "7", "bb7"))
"""Degrees that say what the new chord is, so that a crossing to them is worth more [common practice]."""


_FEWEST_STEPS, _MOST_STEPS = 3, 5


def about_crossings(account: Account, seen: Devices) -> Iterator[Remark]:
    """Yield the remarks on the crossings, the enclosures and the long runs of a line."""
    stays = [account.notes[at] for at in seen.staying_note]
    yield from _steps(account)
    for link in account.links:
        if link.kind != CHANGE or link.before is None or link.after is None:
            continue
        before, after = account.notes[link.before], account.notes[link.after]
        remark = (
            _suspended(account, before, after)
            or _early(after)
            or _led(account, before, after)
            or (None if stays and stays[0].midi == before.midi else _kept(link, before, after))
        )
        if remark is not None:
            more = 6 if after.degree in _FIRM and after.in_chord else 0
            yield replace(remark, worth=remark.worth + more)
    yield from _enclosures(account)
    yield from _runs(account)


def _suspended(account: Account, before: NoteAccount, after: NoteAccount) -> Remark | None:
    note = before if before.role == SUSPENSION and before.target == after.index else after
    if note.role != SUSPENSION or note.target is None:
        return None
    goal = note.target
    slots: dict[str, Slot] = {
        "note": Note(note.index), "chord": Over(account.notes[goal].span.index), "goal": Note(goal),
        "degree": Degree(goal), "goal_of": Of(goal),
    }  # fmt: skip
    return Remark("suspended", 74, note.index, slots, frozenset((note.index, goal)), "crossing")


def _early(after: NoteAccount) -> Remark | None:
    """Tell a note that is struck before the change and belongs to what comes."""
    if not after.early or after.start >= after.span.start or after.span.chord.root is None:
        return None
    slots: dict[str, Slot] = {"note": Note(after.index), "of": Of(after.index)}
    worth = 68 if after.role == ANTICIPATION or after.in_chord else 60
    return Remark("early", worth, after.index, slots, frozenset((after.index,)), "early")


def _led(account: Account, before: NoteAccount, after: NoteAccount) -> Remark | None:
    """Tell an outside note that leads into the new chord by half step."""
    if before.role not in (APPROACH, PASSING) or before.target != after.index or before.inside:
        return None
    if abs(after.midi - before.midi) != 1 or not after.in_chord:
        return None
    slots: dict[str, Slot] = {
        "note": Note(before.index), "goal": Note(after.index), "of": Of(after.index),
        "way": Way(after.midi - before.midi),
    }  # fmt: skip
    return Remark("led", 62, before.index, slots, frozenset((before.index,)), "crossing")


def _steps(account: Account) -> Iterator[Remark]:
    """Tell the crossings by step: all together where every new chord is entered so, else each alone."""
    changes = [link for link in account.links if link.kind == CHANGE]
    pairs = []
    for link in changes:
        if link.before is None or link.after is None or not link.by_step:
            continue
        after = account.notes[link.after]
        if account.notes[link.before].joined and after.in_chord and after.span.chord.root is not None:
            pairs.append((link.before, link.after))
    chords = sum(one.chord.meaning != other.chord.meaning for one, other in pairwise(account.spans))
    if _FEWEST_STEPS <= len(pairs) == chords <= _MOST_STEPS:
        about = frozenset(note for pair in pairs for note in pair)
        slots: dict[str, Slot] = {"pairs": Moves(tuple(pairs))}
        yield Remark("steps", 84, pairs[0][0], slots, about, "guides", leads=True)
    for before, goal in pairs:
        move = account.notes[goal].midi - account.notes[before].midi
        slots = {"before": Note(before), "goal": Note(goal), "of": Of(goal), "way": Way(move)}
        half = "half" if abs(move) == 1 else "whole"
        firm = account.notes[goal].degree in _FIRM
        yield Remark(f"step.{half}", 42 if firm else 30, before, slots, frozenset((before, goal)), "crossing")


def _kept(link: Link, before: NoteAccount, after: NoteAccount) -> Remark | None:
    """Tell a note that stays across the change and becomes another degree."""
    if before.midi != after.midi or not before.joined or link.after is None:
        return None
    if before.span.chord.root is None or after.span.chord.root is None or before.degree == after.degree:
        return None
    if not before.inside or not after.inside:
        return None
    slots: dict[str, Slot] = {"note": Note(before.index), "of": Of(before.index), "goal_of": Of(after.index)}
    return Remark("kept", 58, before.index, slots, frozenset((before.index, after.index)), "kept")


def _enclosures(account: Account) -> Iterator[Remark]:
    """Tell the notes that close in on a target, and how near they come to it."""
    done = set[int]()
    for note in account.notes:
        if note.role != ENCLOSURE or note.target is None or note.target in done:
            continue
        done.add(note.target)
        members = explained_together(account.notes, note)
        goal = account.notes[note.target]
        crosses = members[-1].span.index != goal.span.index
        sides = [abs(one.midi - goal.midi) for one in members]
        near = len(members) == 2
        kind = "enclosure.half" if near and sides == [1, 1] else "enclosure.whole" if near and sides == [
            2, 2] else "enclosure.any"  # fmt: skip
        if len({one.midi for one in members}) < len(members):
            kind = "enclosure.any"
        names = tuple(dict.fromkeys(one.index for one in members))
        slots: dict[str, Slot] = {
            "notes": Notes(names), "goal": Note(goal.index), "of": Of(goal.index),
        }  # fmt: skip
        about = frozenset((*names, goal.index))
        outside = any(not one.inside for one in members)
        worth = 52 + (24 if crosses else 0) + (8 if outside else 0) + (4 if goal.degree in _FIRM else 0)
        if goal.span.chord.root is None or not goal.inside:
            continue
        yield Remark(kind, worth, names[0], slots, about, "enclosure", leads=crosses)


def _runs(account: Account) -> Iterator[Remark]:
    """Tell the runs of six notes or more, or of five into another chord, that end on a firm landing."""
    for figure in account.figures:
        if figure.kind != RUN:
            continue
        notes = account.notes[figure.first : figure.last + 1]
        first, last = notes[0], notes[-1]
        crosses = first.span.index != last.span.index
        if len(notes) < (5 if crosses else 6) or not last.landing or not last.in_chord:
            continue
        half = all(abs(after.midi - before.midi) == 1 for before, after in pairwise(notes))
        steps = "half steps" if half else "step"
        slots: dict[str, Slot] = {
            "first": Note(first.index), "last": Note(last.index), "of": Of(last.index),
            "way": Way(figure.direction),
        }  # fmt: skip
        way = "up" if figure.direction > 0 else "down"
        about = frozenset(range(figure.first, figure.last + 1))
        yield Remark(f"run.{steps} {way}", 46 + 8 * crosses + 8 * half, first.index, slots, about, "run")
