"""Where the notes of a written file end: as they are written, or as a program shortens them all.

Programs let notes sound for less than they are written, mostly for one and the same share: a "gate". An end
is believed where it meets the next note, where all ends are plain, and, once the share is known and taken
out, where what is left is plain. Quintuplets and septuplets are believed of ends only where notes begin on
them. Everything else is left to the costs of `note_ends`.

Conventions: played times are grains (`quantise.GRAINS` a quarter), written places quarters as fractions.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from shedbook.exchange.rhythm.onsets import GRAINS, RecordedNote
from shedbook.exchange.rhythm.plain_ticks import plain_place

_FEWEST = 4
_OFF_TICKS = 2
"""So many ticks a file may lie off: it rounds, and some programs end every note a tick early."""
_SHORTEST_SHARE, _LONGEST_SHARE = Fraction(1, 4), Fraction(99, 100)
_TRIED = 8
_HALVES = frozenset({1, 2})
_SIMPLE = (1, 2, 4)
_PLAIN = (1, 2, 4, 8, 3, 6, 12)
_FINER = ((16, (16,)), (24, (24,)), (5, (5, 10, 20, 40)), (7, (7, 14, 28, 56)))
"""Grids that are believed of ends where notes begin on the first of each."""


@dataclass(frozen=True, slots=True)
class WrittenEnds:
    """The written end of each note, None where the file does not say it, and the gate; 1 for none."""

    places: tuple[Fraction | None, ...]
    gate: Fraction = Fraction(1)


def ends_of(notes: Sequence[RecordedNote], starts: Sequence[Fraction], per_quarter: int) -> WrittenEnds:
    """Return where the notes of a written line end.

    Args:
        notes: one note at a time, in order.
        starts: where each of them is written.
        per_quarter: ticks of a quarter in the file.
    """
    off = -(-_OFF_TICKS * GRAINS // per_quarter)
    gate = _gate(notes, starts, per_quarter, off)
    used = {start.denominator for start in starts}
    finer = (part for step, parts in _FINER if any(not one % step for one in used) for part in parts)
    thirds = (3, 6) if any(not one % 3 for one in used) else ()
    coarse = (*_SIMPLE, *thirds)
    parts = coarse if gate < 1 else (*_PLAIN, *finer)
    found = []
    for at, note in enumerate(notes):
        following = starts[at + 1] if at + 1 < len(starts) else None
        length = note.end - note.start
        found.append(_end(starts[at], length / gate, following, parts, off if gate < 1 else 0, per_quarter))
    if gate == 1 and None in found:
        found = [
            end if end is None or end in starts[at + 1 : at + 2] or end.denominator in coarse else None
            for at, end in enumerate(found)
        ]
    return WrittenEnds(tuple(found), gate)


def _end(
    start: Fraction, grains: Fraction, following: Fraction | None, parts: tuple[int, ...], off: int,
    per_quarter: int,
) -> Fraction | None:  # fmt: skip
    """Return the written end of a note that lasts so many grains; None where no plain place is near."""
    tick = GRAINS // per_quarter + 1
    if following is not None and grains + off + tick >= (following - start) * GRAINS:
        return following
    end = start + grains / GRAINS
    if not off:
        return plain_place(-int(-end * per_quarter // 1), parts, per_quarter)
    near = min((Fraction(round(end * part), part) for part in parts), key=lambda one: abs(one - end))
    return near if near > start and abs(near - end) * GRAINS <= 2 * off else None


def _gate(notes: Sequence[RecordedNote], starts: Sequence[Fraction], per_quarter: int, off: int) -> Fraction:
    """Return the share of their written length for which most notes sound, 1 where there is none.

    A share is none where it only says what may be written just so: ends on eighths, and on the places where
    the line's notes begin.
    """
    pairs = [
        (note.end - note.start, int((starts[at + 1] - starts[at]) * GRAINS), at)
        for at, note in enumerate(notes[:-1])
    ]
    # Cents of the share, so that those of long and of short notes fall together.
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
