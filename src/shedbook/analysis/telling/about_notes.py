"""What the explanation says of single notes: those outside, blue ones, wide leaps, the top and the end."""

from __future__ import annotations

from collections.abc import Iterator

from shedbook.analysis.account import Account
from shedbook.analysis.account.note_account import NoteAccount
from shedbook.analysis.devices.frames import root_of_triad
from shedbook.analysis.hearing.chord_spans import CHORD
from shedbook.analysis.roles.role_names import (
    APPROACH,
    BLUE,
    LEANING,
    MAJOR_SEVENTH_OF_MINOR,
    NEIGHBOUR,
    PASSING,
    PEDAL,
    SUPERIMPOSED,
    THIRD_BENT,
)
from shedbook.analysis.telling.remark import Remark
from shedbook.analysis.telling.slots import (
    Degree,
    Note,
    Notes,
    Of,
    Over,
    ScaleName,
    Size,
    Slot,
    Way,
)
from shedbook.theory.scale import passing_classes

_ON_THE_BEAT = 2
_WIDE = 8
"""The smallest leap that is told, in semitones: a minor sixth."""

_OPEN = frozenset(("9", "11", "#11", "13", "#9", "b9", "b13"))


def about_notes(account: Account) -> Iterator[Remark]:
    """Yield the remarks on notes outside the scales, blue notes, leaps, and the end of the line."""
    yield from _outside(account)
    yield from _scale_with_a_passing_note(account)
    yield from _blue(account)
    yield from _laid_over(account)
    yield from _leaps(account)
    yield from _top(account)
    yield from _end(account)


def _outside(account: Account) -> Iterator[Remark]:
    """Tell the outside notes by what they do, all of one kind together."""
    for role, worth in ((PASSING, 54), (APPROACH, 52), (NEIGHBOUR, 46)):
        notes = [
            note
            for note in account.notes
            if note.role == role
            and not note.inside
            and note.target is not None
            and not note.detail.endswith(("delayed", "double"))
        ]
        if len(notes) == 1:
            yield _one_outside(account, role, notes[0], worth)
        elif notes and _by_half_step(account, notes):
            names = tuple(note.index for note in notes)
            slots: dict[str, Slot] = {"notes": Notes(names), "note": Note(names[0])}
            same = len({note.written.name for note in notes}) == 1
            yield Remark(
                f"outside.{role}.{'same' if same else 'many'}",
                worth + 4,
                names[0],
                slots,
                frozenset(names),
                "outside",
            )
    for note in account.notes:
        accented = note.accent >= _ON_THE_BEAT or note.early
        if note.role == LEANING and note.target is not None and not note.inside and accented:
            slots = {"note": Note(note.index), "goal": Note(note.target), "of": Of(note.target)}
            about = frozenset((note.index, note.target))
            yield Remark("leaning", 64, note.index, slots, about, "leaning")


def _by_half_step(account: Account, notes: list[NoteAccount]) -> bool:
    """Whether each of these notes leads to the very next one, a half step away."""
    return all(
        note.target == note.index + 1 and abs(account.notes[note.target].midi - note.midi) == 1
        for note in notes
    )


def _one_outside(account: Account, role: str, note: NoteAccount, worth: int) -> Remark:
    goal = account.notes[note.target or 0]
    slots: dict[str, Slot] = {
        "note": Note(note.index), "goal": Note(goal.index), "of": Of(goal.index),
        "before": Note(max(0, note.index - 1)), "way": Way(goal.midi - note.midi),
    }  # fmt: skip
    half = role != APPROACH or abs(goal.midi - note.midi) == 1
    kind = f"outside.{role}.one" if half else "outside.approach whole.one"
    placed = role != PASSING or goal.span.chord.root is not None
    about = frozenset((note.index,))
    return Remark(kind, worth, note.index, slots, about, "outside", placed=placed)


def _scale_with_a_passing_note(account: Account) -> Iterator[Remark]:
    """Tell the extra note of a scale that has one, if it keeps chord tones on three beats in a run."""
    beat = account.phrase.metre.beat_quarters
    for note in account.notes:
        scale = note.span.scale
        if scale is None or note.role != PASSING or note.midi % 12 not in passing_classes(scale):
            continue
        run = _run_around(account, note)
        on_beats = [one for one in run if not one.start % beat]
        if len(on_beats) < 3 or not all(one.membership == CHORD for one in on_beats):
            continue
        if not any(one.index > note.index for one in on_beats):
            continue
        names = tuple(one.index for one in on_beats[:4])
        slots: dict[str, Slot] = {
            "note": Note(note.index), "scale": ScaleName(scale), "notes": Notes(names),
            "chord": Over(note.span.index),
        }  # fmt: skip
        about = frozenset((note.index,))
        yield Remark("extra note", 86, note.index, slots, about, "outside", leads=True)


def _run_around(account: Account, note: NoteAccount) -> list[NoteAccount]:
    """Return the notes that go on by step in one direction through a note, over its chord."""
    notes, way = account.notes, account.notes[note.target or 0].midi - note.midi
    first = last = note.index

    def goes(before: NoteAccount, after: NoteAccount) -> bool:
        move = after.midi - before.midi
        return 1 <= abs(move) <= 2 and move * way > 0 and before.joined

    while first > 0 and goes(notes[first - 1], notes[first]):
        first -= 1
    while last + 1 < len(notes) and goes(notes[last], notes[last + 1]):
        last += 1
    return [one for one in notes[first : last + 1] if one.span.index == note.span.index]


def _blue(account: Account) -> Iterator[Remark]:
    """Tell the blue notes by their own names."""
    told = set[tuple[int, int]]()
    for note in account.notes:
        if note.role != BLUE or note.span.chord.root is None or (note.span.index, note.midi % 12) in told:
            continue
        told.add((note.span.index, note.midi % 12))
        slots: dict[str, Slot] = {
            "note": Note(note.index), "degree": Degree(note.index), "chord": Over(note.span.index),
            "of": Of(note.index),
        }  # fmt: skip
        kind = "blue.note"
        if note.detail == MAJOR_SEVENTH_OF_MINOR:
            kind = "blue.seventh of the minor"
        elif note.detail == THIRD_BENT:
            kind = "blue.bent third"
        yield Remark(kind, 70, note.index, slots, frozenset((note.index,)), "blue", leads=True)


def _laid_over(account: Account) -> Iterator[Remark]:
    """Tell the triads that lie over a chord and mostly outside it."""
    groups: dict[int, list[NoteAccount]] = {}
    for note in account.notes:
        if note.detail == SUPERIMPOSED:
            groups.setdefault(note.group, []).append(note)
    for notes in groups.values():
        names = tuple(note.index for note in notes)
        span = notes[0].span
        root = root_of_triad([note.midi % 12 for note in notes])
        if root is None or span.chord.root is None or any(note.span.index != span.index for note in notes):
            continue
        on_root = next(note.index for note in notes if note.midi % 12 == root[0])
        slots: dict[str, Slot] = {"notes": Notes(names), "chord": Over(span.index), "root": Note(on_root)}
        yield Remark(f"triad.outside {root[1]}", 72, names[0], slots, frozenset(names), "triad", leads=True)
    for note in account.notes:
        held = note.role == PEDAL and not note.inside and note.span.chord.root is not None
        before = account.notes[note.index - 1] if note.index else note
        if held and before is not note and before.midi == note.midi:
            pedal: dict[str, Slot] = {"note": Note(note.index), "chord": Over(note.span.index)}
            yield Remark("pedal", 66, note.index, pedal, frozenset((note.index,)), "kept")


def _leaps(account: Account) -> Iterator[Remark]:
    for leap in account.contour.leaps:
        before, after = account.notes[leap.first], account.notes[leap.first + 1]
        size = abs(leap.semitones)
        if size < _WIDE or size > 12 or not before.joined or after.span.chord.root is None:
            continue
        slots: dict[str, Slot] = {
            "before": Note(before.index), "after": Note(after.index), "size": Size(size),
            "way": Way(leap.semitones), "of": Of(after.index),
        }  # fmt: skip
        kind = "leap.octave" if size == 12 else "leap.back" if leap.recovered else "leap.open"
        about = frozenset((before.index, after.index))
        worth = 50 + (4 if size > 9 else 0) + (4 if before.span.index != after.span.index else 0)
        yield Remark(kind, worth, before.index, slots, about, "leap")


def _top(account: Account) -> Iterator[Remark]:
    """Tell the highest note where it is a colour, and stands alone at the top."""
    if account.contour.highest is None:
        return
    high = account.notes[account.contour.highest]
    alone = sum(note.midi == high.midi for note in account.notes) == 1
    if alone and high.degree in _OPEN and high.inside and 0 < high.index < len(account.notes) - 1:
        slots: dict[str, Slot] = {"note": Note(high.index), "of": Of(high.index)}
        yield Remark("top", 42, high.index, slots, frozenset((high.index,)), "top")


def _end(account: Account) -> Iterator[Remark]:
    """Tell a last note that leaves the line open: a colour of the last chord, and inside its scale."""
    last = account.notes[-1]
    final = last.span.index == account.spans[-1].index
    if final and last.degree in _OPEN and last.inside and not last.passes_through and last.index:
        slots: dict[str, Slot] = {"note": Note(last.index), "of": Of(last.index)}
        yield Remark("end", 50, last.index, slots, frozenset((last.index,)), "end")
