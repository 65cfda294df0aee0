"""Rhythm: where a line breathes, where it stays off the beat, and how late it comes in."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise

from shedbook.analysis.account import Account
from shedbook.analysis.account.note_account import NoteAccount

_LONG_REST, _FEWEST_OFF = Fraction(3, 2), 4
_LONGEST_GAP = Fraction(2)


@dataclass(frozen=True, slots=True)
class Breath:
    """A rest of at least a beat and a half after the note `before`; the line goes on with the next one."""

    before: int
    quarters: Fraction


@dataclass(frozen=True, slots=True)
class OffBeats:
    """Notes in a row, `first` to `last`, none of which is struck on a beat."""

    first: int
    last: int


def breaths(account: Account) -> tuple[Breath, ...]:
    """Return the rests of at least a beat and a half between two notes, in order."""
    least, found = _LONG_REST * _beat(account), []
    for before, after in pairwise(account.notes):
        rest = Fraction(0) if before.joined else after.start - before.end
        if rest >= least:
            found.append(Breath(before.index, rest))
    return tuple(found)


def off_beats(account: Account) -> tuple[OffBeats, ...]:
    """Return the stretches of four notes or more that all miss the beat, no two of them two beats apart."""
    beat, found = _beat(account), []
    simple = beat == account.phrase.metre.beat_quarters
    run: list[NoteAccount] = []
    for note in account.notes:
        if note.beat.denominator == 1 and (simple or not note.start % beat):
            run = []
            continue
        if run and note.start - run[-1].start > _LONGEST_GAP * beat:
            run = []
        run.append(note)
        if len(run) == _FEWEST_OFF:
            found.append(OffBeats(run[0].index, note.index))
        elif len(run) > _FEWEST_OFF:
            found[-1] = OffBeats(run[0].index, note.index)
    return tuple(found)


def late_start(account: Account) -> Fraction:
    """Return how long the line waits before its first note, in beats; 0 where it has a pick-up."""
    return max(Fraction(0), account.notes[0].start / _beat(account)) if account.notes else Fraction(0)


def _beat(account: Account) -> Fraction:
    """Return the length of the beat that is felt, in quarters: the dotted quarter in 6/8."""
    metre = account.phrase.metre
    if metre.unit == 8 and metre.beats % 3 == 0 and metre.beats > 3:
        return Fraction(3, 2)
    return max(Fraction(1), metre.beat_quarters)
