"""Figures: groups of notes that are heard as one.

A run goes by step in one direction, four notes or more; an arpeggio climbs or falls through a chord, three
notes or more; a sequence repeats a cell at another pitch; an enclosure wraps round its target; a delayed
resolution arrives after other notes. All places are indices of notes.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise

from shedbook.analysis.account.note_account import NoteAccount
from shedbook.analysis.roles.role_names import APPROACH, ENCLOSURE

ARPEGGIO, RUN, SEQUENCE, DELAYED = "arpeggio", "run", "sequence", "delayed resolution"

FALLING_GUIDES = frozenset(
    (("b7", "3"), ("b7", "b3"), ("7", "3"), ("7", "b3"), ("bb7", "3"), ("bb7", "b3"), ("4", "3"))
)
"""Degrees that fall by step into one another at a change of chord: sevenths, and the fourth, to thirds."""

_GUIDES = frozenset(guide for guide, _ in FALLING_GUIDES)

_RUN_NOTES, _ARPEGGIO_NOTES = 4, 3
_CELLS = (6, 5, 4, 3)
"""The lengths of cells that are looked for, in notes, longest first."""


@dataclass(frozen=True, slots=True)
class Figure:
    """One figure from note `first` to note `last`; `target` is the note it leads to.

    `cell` is the length of a sequence's cell in notes, 0 elsewhere; `direction` is 1 up, -1 down, 0 both.
    """

    kind: str
    first: int
    last: int
    target: int | None = None
    cell: int = 0
    direction: int = 0


def figures(notes: tuple[NoteAccount, ...]) -> tuple[Figure, ...]:
    """Return the figures of a line in the order in which they begin; they may overlap."""
    steps = tuple(after.midi - before.midi if before.joined else None for before, after in pairwise(notes))
    found = [
        *_stretches(notes, steps, RUN),
        *_stretches(notes, steps, ARPEGGIO),
        *_sequences(notes, steps),
        *_enclosures(notes),
        *_delayed(notes),
        *_guides_delayed(notes),
    ]
    return tuple(sorted(found, key=lambda figure: (figure.first, figure.last, figure.kind)))


def _stretches(notes: tuple[NoteAccount, ...], steps: tuple[int | None, ...], kind: str) -> Iterator[Figure]:
    """Yield the longest stretches in one direction all of whose moves belong to a run, or to an arpeggio."""
    fewest = _RUN_NOTES if kind == RUN else _ARPEGGIO_NOTES
    first = 0
    while first < len(steps):
        last = first
        way = steps[first]
        while (
            way is not None
            and last < len(steps)
            and (steps[last] or 0) * way > 0
            and _moves(notes[last], notes[last + 1], steps[last], kind)
        ):
            last += 1
        if last - first + 1 >= fewest and way is not None:
            goal = last if notes[last].landing else None
            yield Figure(kind, first, last, goal, direction=1 if way > 0 else -1)
        first = max(last, first + 1)


def _moves(before: NoteAccount, after: NoteAccount, step: int | None, kind: str) -> bool:
    """Whether the move between two notes belongs to a run, or to an arpeggio over one chord."""
    if step is None:
        return False
    size = abs(step)
    if kind == RUN:
        return 1 <= size <= 2 or (size == 3 and _scale_neighbours(before, after))
    if not 3 <= size <= 9 or before.span.index != after.span.index:
        return False
    return (before.in_chord and after.in_chord) or (size <= 4 and before.inside and after.inside)


def _scale_neighbours(before: NoteAccount, after: NoteAccount) -> bool:
    """Whether two scale notes a minor third apart have no scale note between them."""
    low, high = sorted((before.midi, after.midi))
    between = range(low + 1, high)
    scale = before.span.scale_classes
    return before.inside and after.inside and not any(midi % 12 in scale for midi in between)


def _sequences(notes: tuple[NoteAccount, ...], steps: tuple[int | None, ...]) -> Iterator[Figure]:
    """Yield cells that are repeated at once at another pitch, with the same rhythm and shape."""
    first = 0
    while first < len(notes) - 2 * min(_CELLS) + 1:
        found = _sequence_at(notes, steps, first)
        if found is None:
            first += 1
        else:
            yield found
            first = found.last + 1


def _sequence_at(notes: tuple[NoteAccount, ...], steps: tuple[int | None, ...], first: int) -> Figure | None:
    for cell in _CELLS:
        if first + 2 * cell > len(notes) or not _alike(steps[first], steps[first + cell]):
            continue
        if not _has_shape(steps[first : first + cell]):
            continue
        count = 1
        while _repeats(notes, steps, first + (count - 1) * cell, cell, exact=cell == min(_CELLS)):
            count += 1
        if count >= 2:
            shift = notes[first + cell].midi - notes[first].midi
            return Figure(SEQUENCE, first, first + count * cell - 1, None, cell, 1 if shift > 0 else -1)
    return None


def _alike(step: int | None, other: int | None) -> bool:
    """Whether two moves go in one direction."""
    return step is not None and other is not None and step * other > 0


def _has_shape(steps: tuple[int | None, ...]) -> bool:
    """Whether a cell, with the move out of it, turns: a piece of a scale or of an arpeggio does not."""
    known = [step for step in steps if step]
    return len(known) == len(steps) and min(known) < 0 < max(known)


def _repeats(
    notes: tuple[NoteAccount, ...], steps: tuple[int | None, ...], first: int, cell: int, *, exact: bool
) -> bool:
    """Whether the cell at `first` comes again at once at another pitch, in the same rhythm.

    Each move may differ by a half step, unless `exact` is asked for.
    """
    second = first + cell
    if second + cell > len(notes) or notes[first].midi == notes[second].midi:
        return False
    if abs(notes[first].midi - notes[second].midi) > 7:
        return False
    tolerance = 0 if exact else 1
    for offset in range(cell - 1):
        one, other = steps[first + offset], steps[second + offset]
        if not _alike(one, other) or abs((one or 0) - (other or 0)) > tolerance:
            return False
    return all(notes[first + offset].quarters == notes[second + offset].quarters for offset in range(cell))


def _enclosures(notes: tuple[NoteAccount, ...]) -> Iterator[Figure]:
    """Yield one figure for the notes of each enclosure."""
    first = 0
    for index, note in enumerate(notes):
        if index and note.group != notes[index - 1].group:
            first = index
        closing = index + 1 == len(notes) or notes[index + 1].group != note.group
        if note.role == ENCLOSURE and closing:
            yield Figure(ENCLOSURE, first, index, note.target)


def _delayed(notes: tuple[NoteAccount, ...]) -> Iterator[Figure]:
    """Yield a figure from each outside note that reaches its goal late, up to that goal."""
    for note in notes:
        if note.role == APPROACH and note.target is not None and note.detail.endswith("delayed"):
            yield Figure(DELAYED, note.index, note.target, note.target)


_WAIT_NOTES, _WAIT_QUARTERS = 5, 2
"""How many notes, and how many quarters of the new chord, a resolution may wait."""


def _guides_delayed(notes: tuple[NoteAccount, ...]) -> Iterator[Figure]:
    """Yield a figure from each guide tone that resolves over the next chord only after other notes."""
    for note in notes:
        if note.degree not in _GUIDES or not note.in_chord or note.role == ENCLOSURE:
            continue
        late = _resolves_late(notes, note)
        if late is not None:
            yield Figure(DELAYED, note.index, late, late)


def _resolves_late(notes: tuple[NoteAccount, ...], guide: NoteAccount) -> int | None:
    """Return the index of the note over the next chord to which a seventh or fourth falls after other notes.

    It is None where the guide tone falls there at once, too late, or not at all.
    """
    before = guide
    for note in notes[guide.index + 1 : guide.index + _WAIT_NOTES + 2]:
        if not before.joined or note.span.index > guide.span.index + 1:
            return None
        falls = 1 <= guide.midi - note.midi <= 2 and (guide.degree, note.degree) in FALLING_GUIDES
        if note.span.index != guide.span.index and note.in_chord and falls:
            in_time = note.arrival - note.span.start <= _WAIT_QUARTERS
            return note.index if in_time and before is not guide else None
        if note.span.index == guide.span.index and note.midi == guide.midi:
            return None
        before = note
    return None
