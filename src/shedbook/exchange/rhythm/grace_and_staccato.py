"""What a written MIDI file shapes although it is written: grace notes, and short staccato notes.

Our own files let a grace note sound just before its note, from a tick on which no written note begins, and
cut a staccato note to a share of its length that no written length has. So both can be told from notes and
rests that are written: a file is read so only where everything else in it stands on plain places.

Conventions: played times are grains (`quantise.GRAINS` a quarter), `per_quarter` are the ticks of the file.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from fractions import Fraction
from itertools import pairwise

from shedbook.exchange.rhythm.onsets import GRAINS, RecordedNote
from shedbook.exchange.rhythm.plain_ticks import exact_places, is_plain
from shedbook.exchange.rhythm.tables.quantise_costs import GRACE_MS

STACCATO_SHARE = Fraction(53, 100)
"""How much of its written length a staccato note sounds in our files."""

_AWAY = 6
"""So many ticks a staccato note may be longer or shorter than its share."""
_STACCATO = ("staccato",)


@dataclass(frozen=True, slots=True)
class MarkedLine:
    """A line as it is written; `graces` and `marks` go with its notes."""

    notes: tuple[RecordedNote, ...]
    graces: tuple[tuple[int, ...], ...] = ()
    marks: tuple[tuple[str, ...], ...] = ()
    starts: tuple[Fraction, ...] | None = field(default=None, compare=False)


def tick_of(grains: int, per_quarter: int) -> int:
    """Return the tick of the file from which a time in grains comes."""
    return -(-grains * per_quarter // GRAINS)


def marks_found(
    notes: Sequence[RecordedNote], tempo_qpm: Fraction, per_quarter: int, *, ours: bool = False
) -> MarkedLine:
    """Return a written line without what shapes it; a played line comes back as it is.

    Args:
        notes: one note at a time, in order.
        tempo_qpm: the tempo in quarters a minute.
        per_quarter: what the file counts in; 0 where its beats say nothing.
        ours: the file says that it is one of ours: only there a length stands for staccato.
    """
    plain = MarkedLine(tuple(notes), ((),) * len(notes), ((),) * len(notes))
    if not per_quarter:
        return plain
    starts = exact_places([tick_of(note.start, per_quarter) for note in notes], per_quarter, sure=ours)
    graces = set() if starts is not None else _crushed(notes, tempo_qpm, per_quarter)
    if starts is None and graces:
        kept = [tick_of(note.start, per_quarter) for at, note in enumerate(notes) if at not in graces]
        starts = exact_places(kept, per_quarter, sure=ours)
    if starts is None:
        return plain
    return _put_together(notes, graces, starts, per_quarter, ours=ours)


def _crushed(notes: Sequence[RecordedNote], tempo_qpm: Fraction, per_quarter: int) -> set[int]:
    """Return which notes are short, lead straight into the next one, and begin on no plain place."""
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
    """Give grace notes to their notes, and every note the end that it has as written."""
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
    """Return how long a staccato note sounds, in ticks: about its share, and so that no written note ends so.

    Args:
        start: the tick on which it begins.
        length: how long it is written, in ticks.
        per_quarter: ticks of a quarter.
    """
    share = round(length * STACCATO_SHARE)
    for away in sorted(range(-_AWAY, _AWAY + 1), key=abs):
        if share + away > 0 and not is_plain(start + share + away, per_quarter):
            return share + away
    return max(1, share)


def _written_end(note: RecordedNote, following: int | None, per_quarter: int) -> int | None:
    """Return where a staccato note would end at its full length, in grains; None for any other note."""
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
