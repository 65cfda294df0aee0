"""Grace notes and staccato notes in MIDI files: how shedbook plays them, and how they are found again.

A grace note in a file of shedbook sounds just before its note, and begins on a tick on which no written note
begins. A staccato note sounds for a share of its length, and ends on a tick on which no written note ends.
For this reason both can be told from other notes, as long as all other notes of the file lie on plain places.

Conventions: recorded times are grains (`beat_grids.GRAINS` make a quarter); `per_quarter` says how many ticks
of the file make a quarter.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from fractions import Fraction
from itertools import pairwise

from shedbook.exchange.rhythm.beat_grids import GRAINS
from shedbook.exchange.rhythm.onsets import RecordedNote
from shedbook.exchange.rhythm.plain_ticks import exact_places, is_plain
from shedbook.exchange.rhythm.tables.quantise_costs import GRACE_MS

STACCATO_SHARE = Fraction(53, 100)
"""The share of its written length for which a staccato note sounds in a file of shedbook."""

_AWAY = 6
"""A staccato note may be so many ticks longer or shorter than its share."""
_STACCATO = ("staccato",)


@dataclass(frozen=True, slots=True)
class MarkedLine:
    """A line whose grace notes and staccato notes have been found.

    Attributes:
        notes: the notes without the grace notes, in grains, each with its full length.
        graces: for each note the MIDI numbers of its grace notes.
        marks: for each note its marks.
        starts: for each note where it is written to begin, in quarters; None where the line was played.
    """

    notes: tuple[RecordedNote, ...]
    graces: tuple[tuple[int, ...], ...] = ()
    marks: tuple[tuple[str, ...], ...] = ()
    starts: tuple[Fraction, ...] | None = field(default=None, compare=False)


def tick_of(grains: int, per_quarter: int) -> int:
    """Return the tick of the file that was converted to a time in grains."""
    return -(-grains * per_quarter // GRAINS)


def marks_found(
    notes: Sequence[RecordedNote], tempo_qpm: Fraction, per_quarter: int, *, ours: bool = False
) -> MarkedLine:
    """Return a line with its grace notes and staccato notes found; a played line comes back unchanged.

    Args:
        notes: one note at a time, in order, in grains.
        tempo_qpm: the tempo in quarters a minute.
        per_quarter: how many ticks of the file make a quarter; 0 where its beats mean nothing.
        ours: whether the file says that shedbook wrote it. Staccato notes are looked for only then.
    """
    plain = MarkedLine(tuple(notes), ((),) * len(notes), ((),) * len(notes))
    if not per_quarter:
        return plain
    starts = exact_places([tick_of(note.start, per_quarter) for note in notes], per_quarter, sure=ours)
    graces = set() if starts is not None else _grace_indices(notes, tempo_qpm, per_quarter)
    if starts is None and graces:
        kept = [tick_of(note.start, per_quarter) for at, note in enumerate(notes) if at not in graces]
        starts = exact_places(kept, per_quarter, sure=ours)
    if starts is None:
        return plain
    return _put_together(notes, graces, starts, per_quarter, ours=ours)


def _grace_indices(notes: Sequence[RecordedNote], tempo_qpm: Fraction, per_quarter: int) -> set[int]:
    """Return the indices of the grace notes.

    A grace note is short, touches the next note, and begins on no plain place.
    """
    longest = int(GRACE_MS * tempo_qpm * GRAINS / 60000)
    return {
        at
        for at, (note, following) in enumerate(pairwise(notes))
        if note.end == following.start
        and note.end - note.start <= longest
        and not is_plain(tick_of(note.start, per_quarter), per_quarter)
    }


def _put_together(
    notes: Sequence[RecordedNote],
    graces: set[int],
    starts: tuple[Fraction, ...],
    per_quarter: int,
    *,
    ours: bool,
) -> MarkedLine:
    """Return the line with each grace note at its note, and with staccato notes at their full length."""
    found: list[RecordedNote] = []
    held: list[tuple[int, ...]] = []
    waiting: list[RecordedNote] = []
    for at, note in enumerate(notes):
        if at in graces:
            waiting.append(note)
            continue
        if waiting and found and found[-1].end == waiting[0].start:
            found[-1] = found[-1]._replace(end=note.start)
        found.append(note)
        held.append(tuple(one.midi for one in waiting))
        waiting = []
    marks: list[tuple[str, ...]] = []
    for at, note in enumerate(found):
        following = found[at + 1].start if at + 1 < len(found) else None
        end = _written_end(note, following, per_quarter) if ours else None
        marks.append(() if end is None else _STACCATO)
        if end is not None:
            found[at] = note._replace(end=end)
    return MarkedLine(tuple(found), tuple(held), tuple(marks), starts)


def staccato_ticks(start: int, length: int, per_quarter: int) -> int:
    """Return for how many ticks a staccato note sounds: about its share, with an end where none is written.

    Args:
        start: the tick on which the note begins.
        length: its written length in ticks.
        per_quarter: how many ticks make a quarter.
    """
    share = round(length * STACCATO_SHARE)
    for away in sorted(range(-_AWAY, _AWAY + 1), key=abs):
        if share + away > 0 and not is_plain(start + share + away, per_quarter):
            return share + away
    return max(1, share)


def _written_end(note: RecordedNote, following: int | None, per_quarter: int) -> int | None:
    """Return where a staccato note would end at its full length, in grains; None for any other note.

    `following` is where the next note begins, in grains.
    """
    start, end = tick_of(note.start, per_quarter), tick_of(note.end, per_quarter)
    if is_plain(end, per_quarter):
        return None
    full = round((end - start) / STACCATO_SHARE)
    near = range(full - 2 * _AWAY, full + 2 * _AWAY + 1)
    for length in sorted(near, key=lambda one: abs(one - full)):
        written = (start + length) * GRAINS // per_quarter
        fits = length > 0 and staccato_ticks(start, length, per_quarter) == end - start
        if fits and is_plain(start + length, per_quarter) and (following is None or written <= following):
            return written
    return None
