"""A line of recorded notes becomes a written rhythm; this is the face of the room.

A line that was written, and not played, keeps its places. For a played line the likeliest places are
searched: first where its notes begin (`onsets`), then where they end (`note_ends`). The costs of that search
stand in `tables.quantise_costs`.

Conventions: recorded times are grains (`beat_grids.GRAINS` make a quarter), written places are quarters.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from shedbook.exchange.rhythm.beat_grids import GRAINS, SLOTS, Beat, divided_beat
from shedbook.exchange.rhythm.grace_and_staccato import MarkedLine, marks_found, tick_of
from shedbook.exchange.rhythm.note_ends import WrittenEnds, ends_of, likeliest_end
from shedbook.exchange.rhythm.onsets import PlacedOnsets, RecordedNote, place_onsets
from shedbook.exchange.rhythm.plain_ticks import exact_places
from shedbook.theory.metre import Metre

_HALF = SLOTS // 2
_SHORTEST = Fraction(1, 8)
"""The shortest written note, in quarters: a thirty-second."""
_PLAIN_COST = 10
"""A line of plain eighths costs less than this for each note (measured on invented phrases)."""
_FEW = 3
"""A line is thought to swing only when more off-beats than this, or just as many, speak for it."""
_FEW_ALONE, _MANY = 2, 7
"""At 3 to 1 it is, when so many off-beats are syncopated, or there are so many in all."""


@dataclass(frozen=True, slots=True)
class WrittenNote:
    """A written note.

    Attributes:
        start: where it begins, in quarters from the bar line at time 0.
        end: where it ends, likewise.
        midi: its MIDI number.
        grace: the MIDI numbers of its grace notes.
        marks: its marks, of `phrase.model.MARKS`.
    """

    start: Fraction
    end: Fraction
    midi: int
    grace: tuple[int, ...] = ()
    marks: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Rhythm:
    """A written line.

    Attributes:
        notes: the notes in order.
        ratio: the length of the long eighth over that of the short one; 1 for even eighths.
        cost: how unlikely the reading is, in tenths of a natural logarithm.
        left_out: how many notes had no place and are left out.
        exact: whether the file was written, and not played.
        sounding_share: the share of its written length for which a program let each note sound; 1 for all.
    """

    notes: tuple[WrittenNote, ...]
    ratio: Fraction
    cost: int
    left_out: int
    exact: bool
    sounding_share: Fraction = Fraction(1)


def quantise(
    notes: Sequence[RecordedNote],
    metre: Metre,
    tempo_qpm: Fraction,
    *,
    ticks_per_quarter: int = 0,
    ours: bool = False,
) -> Rhythm:
    """Return the likeliest written rhythm of a played line; return a line that was written as it stands.

    Args:
        notes: one note at a time, in the order of their beginnings, in grains. Time 0 is a bar line.
        metre: the metre of all bars.
        tempo_qpm: the tempo in quarters a minute.
        ticks_per_quarter: how many ticks of the file make a quarter; 0 where its beats mean nothing.
        ours: whether the file says that shedbook wrote it, so that all its places are exact.
    """
    if not notes:
        return Rhythm((), Fraction(1), 0, 0, False)
    line = marks_found(notes, tempo_qpm, ticks_per_quarter, ours=ours)
    notes, starts = line.notes, line.starts
    exact = starts is not None
    placed = place_onsets(notes, metre, tempo_qpm, exact=exact)
    beat = divided_beat(metre, tempo_qpm, exact=exact)
    ends = WrittenEnds((None,) * len(notes))
    if starts is not None:
        ends = _known_ends(notes, starts, ticks_per_quarter, ours=ours)
        if ours or not _swung_exactly(notes, placed, beat, ticks_per_quarter):
            return _as_it_stands(line, starts, ends, placed, beat)
    kept, left_out = _with_graces(line, placed, beat)
    known = dict(zip(notes, ends.places, strict=True))
    unit = beat.quarters / SLOTS
    found = []
    for index, (note, slot, grace, marks) in enumerate(kept):
        following = kept[index + 1][1] if index + 1 < len(kept) else None
        place = known[note]
        if place is not None:
            note = note._replace(end=int(place * GRAINS))
        end = likeliest_end(note, slot, following, placed, beat, exact=place is not None)
        found.append(WrittenNote(slot * unit, end * unit, note.midi, grace, marks))
    return Rhythm(tuple(found), placed.ratio, placed.cost, left_out, exact, ends.sounding_share)


def _known_ends(
    notes: Sequence[RecordedNote], starts: Sequence[Fraction], per_quarter: int, *, ours: bool
) -> WrittenEnds:
    """Return where the notes of a written file end. A file of shedbook gives the end of every note."""
    if ours:
        said = exact_places([tick_of(note.end, per_quarter) for note in notes], per_quarter, sure=True)
        if said is not None:
            return WrittenEnds(said)
    return ends_of(notes, starts, per_quarter)


def _swung_exactly(notes: Sequence[RecordedNote], placed: PlacedOnsets, beat: Beat, per_quarter: int) -> bool:
    """Tell whether a program moved the off-beats of a written line to make it swing.

    The swung reading must fit each note to the tick, cost little, and have enough off-beats. At 3 to 1 it
    must also be told from dotted eighths with their sixteenths (`_swung_not_dotted`).
    """
    if placed.ratio == 1 or placed.cost > _PLAIN_COST * len(notes):
        return False
    if placed.ratio == 3 and not _swung_not_dotted(placed.slots):
        return False
    tick = GRAINS // per_quarter + 1
    off_beats = [slot for slot in placed.slots if slot is not None and slot % SLOTS == _HALF]
    return len(off_beats) >= max(_FEW, len(notes) // 4) and all(
        slot is not None and abs(placed.sounding_at(slot, beat) - note.start) <= tick
        for note, slot in zip(notes, placed.slots, strict=True)
    )


def _swung_not_dotted(slots: Sequence[int | None]) -> bool:
    """Tell whether a line with off-beats on the last quarter of the beat swings 3 to 1 and is not dotted.

    No note may stand anywhere else in a beat. Some off-beats must stand in beats on which no note begins, or
    be held over the beat after them, which sixteenths hardly ever do; otherwise there must be many (common
    practice).
    """
    known = {slot for slot in slots if slot is not None}
    off_beats = {slot for slot in known if slot % SLOTS == _HALF}
    if any(slot % SLOTS not in (0, _HALF) for slot in known):
        return False
    inside = [slot for slot in off_beats if slot < max(known)]
    alone = sum(slot - _HALF not in known or slot + _HALF not in known for slot in inside)
    return alone >= _FEW_ALONE or len(off_beats) >= max(_MANY, 2 * len(slots) // 5)


def _as_it_stands(
    line: MarkedLine, starts: Sequence[Fraction], ends: WrittenEnds, placed: PlacedOnsets, beat: Beat
) -> Rhythm:
    """Return a written line unchanged, but each note ends at the beginning of the next at the latest."""
    found: list[WrittenNote] = []
    left_out = 0
    even = replace(placed, ratio=Fraction(1), late=0)
    rows = zip(line.notes, line.graces, line.marks, starts, ends.places, strict=True)
    for at, (note, grace, marks, start, known) in enumerate(rows):
        if found and found[-1].start >= start:
            left_out += 1
            continue
        if found and found[-1].end > start:
            found[-1] = replace(found[-1], end=start)
        following = starts[at + 1] if at + 1 < len(starts) else None
        end = _end_from_place(note, start, following, even, beat) if known is None else known
        found.append(WrittenNote(start, max(end, start + _SHORTEST), note.midi, grace, marks))
    return Rhythm(tuple(found), Fraction(1), 0, left_out, True, ends.sounding_share)


def _end_from_place(
    note: RecordedNote, start: Fraction, following: Fraction | None, placed: PlacedOnsets, beat: Beat
) -> Fraction:
    """Return the likeliest written end, in quarters, of a note whose written beginning is known."""
    unit = beat.quarters / SLOTS
    until = None if following is None else int(following / unit)
    end = likeliest_end(note, int(start / unit), until, placed, beat, exact=False)
    return following if following is not None and end == until else end * unit


_Kept = tuple[RecordedNote, int, tuple[int, ...], tuple[str, ...]]


def _with_graces(line: MarkedLine, placed: PlacedOnsets, beat: Beat) -> tuple[list[_Kept], int]:
    """Return the notes that have a place, each with its grace notes, and how many notes have no place."""
    kept: list[_Kept] = []
    crushed: list[RecordedNote] = []
    left_out = 0
    for note, slot, known, marks in zip(line.notes, placed.slots, line.graces, line.marks, strict=True):
        if slot is None:
            crushed.append(note)
            continue
        graces = [one for one in crushed if note.start - one.start <= 2 * beat.crushed]
        left_out += len(crushed) - len(graces)
        kept.append((note, slot, tuple(one.midi for one in graces) + known, marks))
        crushed = []
    return kept, left_out + len(crushed)
