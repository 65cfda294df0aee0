"""Where the notes of a line end: as a written file says, or else where they most likely end.

Programs let notes sound for less than their written length, mostly for one and the same share of it. The end
in a written file is believed in three cases: it meets the next note; all ends lie on plain places; or, once
the share is known, the full length ends on a plain place. Ends on quintuplets and septuplets are believed
only where notes also begin on them. In all other cases the end is chosen by cost: a player leaves small gaps
and a writer does not, so a note lasts up to the next one unless the silence between them is worth a rest.

Conventions: recorded times are grains (`beat_grids.GRAINS` make a quarter), written places are quarters.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction

from shedbook.exchange.rhythm.beat_grids import GRAINS, SLOTS, Beat
from shedbook.exchange.rhythm.costs import COST
from shedbook.exchange.rhythm.onsets import PlacedOnsets, RecordedNote
from shedbook.exchange.rhythm.plain_ticks import plain_place

_FEWEST = 4
"""A share is believed when at least so many notes sound for it."""
_OFF_TICKS = 2
"""An end may lie so many ticks off, because files round and some programs end each note a tick early."""
_SHORTEST_SHARE, _LONGEST_SHARE = Fraction(1, 4), Fraction(99, 100)
_TRIED = 8
_HALVES = frozenset({1, 2})
_SIMPLE = (1, 2, 4)
_PLAIN = (1, 2, 4, 8, 3, 6, 12)
_FINER = ((16, (16,)), (24, (24,)), (5, (5, 10, 20, 40)), (7, (7, 14, 28, 56)))
"""Finer parts of the quarter on which notes may end, after the part on which some note must begin."""
_HALF = SLOTS // 2
_SINGLE = frozenset(SLOTS * length // 8 for length in (1, 2, 4, 8, 16, 32))
"""The lengths of single values without a dot, in slots of a beat that is a quarter."""
_EXACT_TIMES = 1000
"""Where the lengths in a file are exact, a length that differs from them costs so many times more."""


@dataclass(frozen=True, slots=True)
class WrittenEnds:
    """Where the notes of a written line end.

    Attributes:
        places: the end of each note in quarters; None where the file does not say it.
        sounding_share: the share of its written length for which each note sounds; 1 for all of it.
    """

    places: tuple[Fraction | None, ...]
    sounding_share: Fraction = Fraction(1)


def ends_of(notes: Sequence[RecordedNote], starts: Sequence[Fraction], per_quarter: int) -> WrittenEnds:
    """Return where the notes of a written line end.

    Args:
        notes: one note at a time, in order, in grains.
        starts: where each of them is written to begin, in quarters.
        per_quarter: how many ticks of the file make a quarter.
    """
    off = -(-_OFF_TICKS * GRAINS // per_quarter)
    share = _sounding_share(notes, starts, per_quarter, off)
    used = {start.denominator for start in starts}
    finer = (part for step, parts in _FINER if any(not one % step for one in used) for part in parts)
    thirds = (3, 6) if any(not one % 3 for one in used) else ()
    coarse = (*_SIMPLE, *thirds)
    parts = coarse if share < 1 else (*_PLAIN, *finer)
    found = []
    for at, note in enumerate(notes):
        following = starts[at + 1] if at + 1 < len(starts) else None
        length = note.end - note.start
        found.append(
            _plain_end(starts[at], length / share, following, parts, off if share < 1 else 0, per_quarter)
        )
    if share == 1 and None in found:
        found = [
            end if end is None or end in starts[at + 1 : at + 2] or end.denominator in coarse else None
            for at, end in enumerate(found)
        ]
    return WrittenEnds(tuple(found), share)


def _plain_end(
    start: Fraction, grains: Fraction, following: Fraction | None, parts: tuple[int, ...], off: int,
    per_quarter: int,
) -> Fraction | None:  # fmt: skip
    """Return the written end of a note that lasts so many grains; None where no plain place is near.

    `off` is how many grains the end may differ from a plain place, 0 where the file does not shorten notes.
    """
    tick = GRAINS // per_quarter + 1
    if following is not None and grains + off + tick >= (following - start) * GRAINS:
        return following
    end = start + grains / GRAINS
    if not off:
        return plain_place(-int(-end * per_quarter // 1), parts, per_quarter)
    near = min((Fraction(round(end * part), part) for part in parts), key=lambda one: abs(one - end))
    return near if near > start and abs(near - end) * GRAINS <= 2 * off else None


def _sounding_share(
    notes: Sequence[RecordedNote], starts: Sequence[Fraction], per_quarter: int, off: int
) -> Fraction:
    """Return the share of their written length for which most notes sound; 1 where there is no such share.

    Ends on eighths, and on the places where notes of the line begin, may be written just so. A share that has
    no other ends does not count.
    """
    pairs = [
        (note.end - note.start, int((starts[at + 1] - starts[at]) * GRAINS), at)
        for at, note in enumerate(notes[:-1])
    ]
    # The shares are counted in half hundredths, so that those of long and of short notes agree.
    usual = Counter(200 * length // gap for length, gap, _ in pairs)
    best: tuple[int, Fraction, list[int]] = (0, Fraction(1), [])
    for cents, _ in usual.most_common(_TRIED):
        length, gap = max((length, gap) for length, gap, _ in pairs if 200 * length // gap == cents)
        share = Fraction(length, gap)
        if not _SHORTEST_SHARE <= share <= _LONGEST_SHARE:
            continue
        fitting = [at for length, gap, at in pairs if abs(length - share * gap) <= off]
        if len(fitting) > best[0]:
            best = (len(fitting), share, fitting)
    many, share, fitting = best
    if many < _FEWEST or 2 * many < len(pairs):
        return Fraction(1)
    written = _HALVES | {start.denominator for start in starts}
    ends = (plain_place(-(-notes[at].end * per_quarter // GRAINS), _PLAIN, per_quarter) for at in fitting)
    if all(end is not None and end.denominator in written for end in ends):
        return Fraction(1)
    return share


# The likeliest end


def likeliest_end(
    note: RecordedNote, slot: int, following: int | None, placed: PlacedOnsets, beat: Beat, *, exact: bool
) -> int:
    """Return the slot at which a note most likely ends.

    Args:
        note: the note, in grains.
        slot: the slot at which it begins.
        following: the slot at which the next note begins; None for the last note.
        placed: where the notes of the line begin.
        beat: the beat that the line divides.
        exact: whether the end of the note in the file is exact.
    """
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
    """Return the slots at which a note may end: those near its recorded end, and that of the next note."""
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
    """Return the cost of writing a note with another length than it was played with, both in grains.

    The cost is multiplied by `times`; `last` says that the note is the last of its line.
    """
    off = written - played
    if off > 0:
        freely = max(GRAINS, written if last else written // 2)
        return COST["shorter than written"] * times * off * off // (freely * freely)
    return COST["longer than written"] * times * off * off // (GRAINS * GRAINS)


def _rest_is_plain(start: int, end: int) -> bool:
    """Tell whether the rest between two slots is at least an eighth, or the last third of a beat."""
    return end - start >= _HALF or (end % SLOTS == 0 and end - start == SLOTS // 3)


def _last_cost(end: int) -> int:
    """Return the cost of ending the last note of a line at a slot."""
    if end % SLOTS == 0:
        return 0
    return COST["last note ends on a half beat" if end % _HALF == 0 else "last note ends on a weak place"]
