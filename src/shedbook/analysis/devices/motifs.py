"""Motifs: cells in sequence, bars that come back, and a note that stays while the chords change."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise

from shedbook.analysis.account import Account
from shedbook.analysis.account.figures import SEQUENCE
from shedbook.analysis.account.note_account import NoteAccount

_FEWEST_ALIKE = 5
"""How many notes from the beginning of a bar come back at least, for bars to begin as the same music."""

_FURTHEST = 8
"""How many bars back a bar is compared."""

_FEWEST_ALTERED, _MOST_ALTERED = 4, 2
"""How many notes a bar has at least that comes back altered, and how many of them may differ."""

_FEWEST_STAYS, _LEAST_SHARE = 3, 3
"""Over how many chords a note stays at least, and of how many notes one at least is that note."""


@dataclass(frozen=True, slots=True)
class CellInSequence:
    """A cell of `cell` notes that comes `times` times from note `first` on.

    `shifts` are the intervals from each cell's first note to the next cell's, in semitones. `exact` says that
    every cell has the same intervals, and `quarters` is how long one lasts.
    """

    first: int
    cell: int
    times: int
    shifts: tuple[int, ...]
    exact: bool
    quarters: Fraction

    @property
    def last(self) -> int:
        """The index of its last note."""
        return self.first + self.cell * self.times - 1


@dataclass(frozen=True, slots=True)
class Echo:
    """Bars that begin as earlier ones do, `semitones` higher or lower, in the same rhythm.

    `bars` are the numbers of the earlier and of the later bar, `length` is how many bars begin so in a row,
    `notes` how many notes are alike from the beginning of the first of them. `whole` says that they are all.
    """

    bars: tuple[int, int]
    length: int
    notes: int
    semitones: int
    first: int
    whole: bool


def cells_in_sequence(account: Account) -> tuple[CellInSequence, ...]:
    """Return the cells that come again at once at another pitch, in order."""
    found = []
    for figure in account.figures:
        if figure.kind != SEQUENCE:
            continue
        times = (figure.last - figure.first + 1) // figure.cell
        cells = [
            account.notes[figure.first + at * figure.cell : figure.first + (at + 1) * figure.cell]
            for at in range(times)
        ]
        shifts = tuple(after[0].midi - before[0].midi for before, after in pairwise(cells))
        exact = len({tuple(note.midi - cell[0].midi for note in cell) for cell in cells}) == 1
        if any(_drift(cells[0], cell) > 1 for cell in cells):
            continue  # each is like the one before, but the last no longer like the first
        length = cells[1][0].start - cells[0][0].start
        if len({tuple(note.start - cell[0].start for note in cell) for cell in cells}) > 1:
            continue  # short rests make another rhythm of it
        found.append(CellInSequence(figure.first, figure.cell, times, shifts, exact, length))
    return tuple(found)


def _drift(one: Sequence[NoteAccount], other: Sequence[NoteAccount]) -> int:
    """Return by how many semitones the steps of two cells differ at most."""
    moves = [[after.midi - before.midi for before, after in pairwise(cell)] for cell in (one, other)]
    return max((abs(here - there) for here, there in zip(*moves, strict=True)), default=0)


def echoes(account: Account) -> tuple[Echo, ...]:
    """Return the bars that begin as earlier ones, the longest likeness of each bar; the earlier bar first."""
    bars = _struck(account)
    found: list[Echo] = []
    taken = 0
    for later in sorted(bars):
        earlier = range(max(1, later - _FURTHEST), later if later > taken else 0)
        options = [echo for one in earlier if one in bars and (echo := _echo(bars, one, later))]
        if options:
            found.append(max(options, key=lambda echo: (echo.notes, -echo.bars[0])))
            taken = later + found[-1].length - 1
    return tuple(found)


def _struck(account: Account) -> dict[int, list[NoteAccount]]:
    """Return the notes that are struck in each full bar, by its number."""
    bars: dict[int, list[NoteAccount]] = {}
    for note in account.notes:
        if note.bar > 0:
            bars.setdefault(note.bar, []).append(note)
    return bars


def _echo(bars: dict[int, list[NoteAccount]], one: int, later: int) -> Echo | None:
    """Return how bars begin alike from two bars on, or None where they hardly do."""
    first = bars[later][0]
    shift = first.midi - bars[one][0].midi
    alike, length, whole = 0, 0, True
    while one + length < later and one + length in bars and later + length in bars:
        here, there = bars[one + length], bars[later + length]
        count = _alike(here, there, shift)
        alike += count
        length += 1 if count else 0
        if count < max(len(here), len(there)):
            whole = False
            break
    return Echo((one, later), length, alike, shift, first.index, whole) if alike >= _FEWEST_ALIKE else None


def _alike(here: list[NoteAccount], there: list[NoteAccount], shift: int) -> int:
    """Count the notes from the beginning of two bars that are struck alike and lie one shift apart.

    The last of them may be held longer in one of the bars.
    """
    count = 0
    for before, after in zip(here, there, strict=False):
        if after.midi - before.midi != shift or after.beat != before.beat:
            break
        count += 1
        if before.quarters != after.quarters:
            break
    return count


@dataclass(frozen=True, slots=True)
class AlteredEcho:
    """A bar that repeats an earlier one but for one or two notes, which move by a step at the most.

    `bars` are the numbers of the two bars, `old` and `new` the indices of the notes that differ.
    """

    bars: tuple[int, int]
    old: tuple[int, ...]
    new: tuple[int, ...]


def altered_echoes(account: Account) -> tuple[AlteredEcho, ...]:
    """Return the bars of four notes or more that repeat the bar before but for one or two notes."""
    bars = _struck(account)
    found = []
    for later in sorted(bars):
        here, there = bars.get(later - 1, []), bars[later]
        if len(here) != len(there) or len(here) < _FEWEST_ALTERED:
            continue
        same = all(
            after.beat == before.beat and after.quarters == before.quarters
            for before, after in zip(here, there, strict=True)
        )
        pairs = [pair for pair in zip(here, there, strict=True) if pair[0].midi != pair[1].midi]
        close = all(abs(before.midi - after.midi) <= 2 for before, after in pairs)
        if same and close and 1 <= len(pairs) <= _MOST_ALTERED and 2 * len(pairs) < len(here):
            old, new = zip(*((before.index, after.index) for before, after in pairs), strict=True)
            found.append(AlteredEcho((later - 1, later), old, new))
    return tuple(found)


def staying_note(account: Account) -> tuple[int, ...]:
    """Return the notes of one pitch that comes over at least three chords in a row, each time another degree.

    It is one for each chord, the first there. A third of the notes over those chords have that pitch at
    least. The answer is () where no pitch stays so; of several the one that stays longest is taken.
    """
    firsts: dict[int, dict[int, NoteAccount]] = {}
    for note in account.notes:
        if note.inside and note.span.chord.root is not None:
            firsts.setdefault(note.midi, {}).setdefault(note.span.index, note)
    best: tuple[int, ...] = ()
    for midi in sorted(firsts):
        if len(firsts[midi]) < _FEWEST_STAYS:
            continue
        for run in _runs(list(firsts[midi].values())):
            if len(run) > max(len(best), _FEWEST_STAYS - 1) and _is_often(account, run):
                best = tuple(note.index for note in run)
    return best


def _runs(firsts: list[NoteAccount]) -> Iterator[list[NoteAccount]]:
    """Yield the stretches of notes over neighbouring chords that are another degree each time."""
    run = firsts[:1]
    for before, note in pairwise(firsts):
        if note.span.index != before.span.index + 1 or note.degree == before.degree:
            yield run
            run = []
        run = [*run, note]
    yield run


def _is_often(account: Account, run: list[NoteAccount]) -> bool:
    over = [note for note in account.notes if run[0].span.index <= note.span.index <= run[-1].span.index]
    return _LEAST_SHARE * sum(note.midi == run[0].midi for note in over) >= len(over)
