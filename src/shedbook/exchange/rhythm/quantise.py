"""How long the notes of a line are written, once it is known where they begin.

A player leaves small gaps, and a writer does not: a note lasts up to the next one unless the silence
between them is worth a rest. Costs stand in `tables.quantise_costs`.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from shedbook.exchange.rhythm.grace_and_staccato import MarkedLine, marks_found, tick_of
from shedbook.exchange.rhythm.note_ends import WrittenEnds, ends_of
from shedbook.exchange.rhythm.onsets import (
    COST,
    GRAINS,
    SLOTS,
    Beat,
    PlacedOnsets,
    RecordedNote,
    divided_beat,
    place_onsets,
)
from shedbook.exchange.rhythm.plain_ticks import exact_places
from shedbook.theory.metre import Metre

_HALF = SLOTS // 2
_SHORTEST = Fraction(1, 8)
_PLAIN_COST = 10
"""A line of eighths costs less, a note."""
_SINGLE = frozenset(SLOTS * length // 8 for length in (1, 2, 4, 8, 16, 32))
"""Lengths of values without a dot, and of none that are tied, in beats of a quarter."""
_FEW = 3
_EXACT_TIMES = 1000
"""Where a file's lengths are exact, a wrong one costs so many times as much."""


@dataclass(frozen=True, slots=True)
class WrittenNote:
    """A note with its written place, in quarters from the first bar; `grace` are MIDI numbers."""

    start: Fraction
    end: Fraction
    midi: int
    grace: tuple[int, ...] = ()
    marks: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Rhythm:
    """A written line.

    `ratio` is the long eighth over the short one; `cost` is in tenths of a natural logarithm, the less the
    likelier; `left_out` counts notes that no grid had a place for; `exact` says that the line was written,
    not played; `gate` is the share of their written length for which a program let all notes sound.
    """

    notes: tuple[WrittenNote, ...]
    ratio: Fraction
    cost: int
    left_out: int
    exact: bool
    gate: Fraction = Fraction(1)


def quantise(
    notes: Sequence[RecordedNote],
    metre: Metre,
    tempo_qpm: Fraction,
    *,
    ticks_per_quarter: int = 0,
    ours: bool = False,
) -> Rhythm:
    """Return a played line as the rhythm that is likeliest written, a written one as it stands.

    Args:
        notes: one note at a time, in order of their onsets; time 0 is a bar line.
        metre: the metre of all bars.
        tempo_qpm: the tempo in quarters a minute.
        ticks_per_quarter: what the file counts in; 0 where the beats of the file say nothing.
        ours: the file says that it is one of ours, which are written as they stand.
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
        end = _end(note, slot, following, placed, beat, exact=place is not None)
        found.append(WrittenNote(slot * unit, end * unit, note.midi, grace, marks))
    return Rhythm(tuple(found), placed.ratio, placed.cost, left_out, exact, ends.gate)


def _known_ends(
    notes: Sequence[RecordedNote], starts: Sequence[Fraction], per_quarter: int, *, ours: bool
) -> WrittenEnds:
    """Return the ends that a written file says; one of ours says them all."""
    if ours:
        said = exact_places([tick_of(note.end, per_quarter) for note in notes], per_quarter, sure=True)
        if said is not None:
            return WrittenEnds(said)
    return ends_of(notes, starts, per_quarter)


def _swung_exactly(notes: Sequence[RecordedNote], placed: PlacedOnsets, beat: Beat, per_quarter: int) -> bool:
    """Tell whether a line of plain places is one that a program swung.

    The swung reading must fit to the tick, be plain, and have enough off-beats. A ratio of 3 to 1 is that
    of a dotted eighth with its sixteenth, which is written so.
    """
    if placed.ratio in (1, 3) or placed.cost > _PLAIN_COST * len(notes):
        return False
    tick = GRAINS // per_quarter + 1
    off_beats = [slot for slot in placed.slots if slot is not None and slot % SLOTS == _HALF]
    return len(off_beats) >= max(_FEW, len(notes) // 4) and all(
        slot is not None and abs(placed.sounding_at(slot, beat) - note.start) <= tick
        for note, slot in zip(notes, placed.slots, strict=True)
    )


def _as_it_stands(
    line: MarkedLine, starts: Sequence[Fraction], ends: WrittenEnds, placed: PlacedOnsets, beat: Beat
) -> Rhythm:
    """Return a written line unchanged, each note ended where the next begins at the latest."""
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
        end = _likely_end(note, start, following, even, beat) if known is None else known
        found.append(WrittenNote(start, max(end, start + _SHORTEST), note.midi, grace, marks))
    return Rhythm(tuple(found), Fraction(1), 0, left_out, True, ends.gate)


def _likely_end(
    note: RecordedNote, start: Fraction, following: Fraction | None, placed: PlacedOnsets, beat: Beat
) -> Fraction:
    """Return where a note is likeliest written to end that begins on a plain place."""
    unit = beat.quarters / SLOTS
    until = None if following is None else int(following / unit)
    end = _end(note, int(start / unit), until, placed, beat, exact=False)
    return following if following is not None and end == until else end * unit


_Kept = tuple[RecordedNote, int, tuple[int, ...], tuple[str, ...]]


def _with_graces(line: MarkedLine, placed: PlacedOnsets, beat: Beat) -> tuple[list[_Kept], int]:
    """Return the notes that have a place, each with the notes crushed against it, and how many have none."""
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


def _end(
    note: RecordedNote, slot: int, following: int | None, placed: PlacedOnsets, beat: Beat, *, exact: bool
) -> int:
    """Return the slot at which a note ends."""
    begins = placed.sounding_at(slot, beat)
    length = note.end - (begins if exact else note.start)
    best: tuple[int, int] | None = None
    for end in _candidates(slot, note.end // beat.grains, following, placed, exact=exact):
        written = placed.sounding_at(end, beat) - begins
        cost = _length_cost(length, written, _EXACT_TIMES if exact else 1, last=following is None)
        if following is None:
            cost += _last_cost(end)
        elif end < following:
            cost += COST["rest"] if _rest_is_plain(end, following) else COST["rest under an eighth"]
            cost += 0 if (end - slot) in _SINGLE else COST["dotted before a rest"]
        if best is None or (cost, end) < best:
            best = (cost, end)
    return slot + _HALF if best is None else best[1]


def _candidates(
    slot: int, last_beat: int, following: int | None, placed: PlacedOnsets, *, exact: bool
) -> Iterable[int]:
    """Return the slots at which a note may end: places near its played end, and the next note."""
    found = set() if following is None else {following}
    first = max(slot // SLOTS, last_beat - 1)
    for number in range(first, max(first, last_beat) + 2):
        grid = placed.grids.get(number)
        places: Iterator[int] | tuple[int, ...] = (0, _HALF)
        if exact:
            extra = () if grid is None else tuple(at for at, _ in grid.places)
            places = (*range(0, SLOTS, SLOTS // 24), *extra)
        elif grid is not None and grid.row.beats == 1:
            places = tuple(at for at, _ in grid.places)
        found.update(number * SLOTS + at for at in places)
    return sorted(one for one in found if one > slot and (following is None or one <= following))


def _length_cost(played: int, written: int, times: int, *, last: bool) -> int:
    """Return what it costs, so many times, that a note of one length is written with another, in grains."""
    off = written - played
    if off > 0:
        freely = max(GRAINS, written if last else written // 2)
        return COST["shorter than written"] * times * off * off // (freely * freely)
    return COST["longer than written"] * times * off * off // (GRAINS * GRAINS)


def _rest_is_plain(start: int, end: int) -> bool:
    """Whether the rest between two slots is an eighth or longer, or fills a beat's last third."""
    return end - start >= _HALF or (end % SLOTS == 0 and end - start == SLOTS // 3)


def _last_cost(end: int) -> int:
    if end % SLOTS == 0:
        return 0
    return COST["last note ends on a half beat" if end % _HALF == 0 else "last note ends on a weak place"]
