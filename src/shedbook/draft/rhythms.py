"""Rhythms: where the notes of a line are struck and how long they sound, drawn from what real lines do.

A rhythm is a row of beats, each one of the cells of the table; a chain over them keeps the hard limits
(breath,
where a line begins and ends) in its choices, so that rhythms are counted and drawn exactly. Places are ticks,
twelve to a quarter, from bar 1; a pick-up lies before zero.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from copy import copy
from dataclasses import dataclass
from functools import cached_property, lru_cache
from itertools import pairwise
from random import Random
from types import MappingProxyType

import numpy as np
from numpy.typing import NDArray

from shedbook.dense_chains.sums import count_pairs, log_totals, sampled_rows
from shedbook.draft.ground import TICKS
from shedbook.draft.tables.rhythm_counts import FOLLOWS, STARTS
from shedbook.draft.tables.rhythm_rules import FEEL_TABLES, LEANINGS, LIMITS, PICK_UP, RELEASED
from shedbook.table_index import Rows

LIMIT: Mapping[str, int] = MappingProxyType({row.name: row.number for row in LIMITS})
_TABLE_OF: Rows[str] = Rows(
    "rhythm tables of feels", "src/shedbook/draft/tables/rhythm_rules.py", FEEL_TABLES
)
_SLOW_BPM, _FAST_BPM = 112, 208
"""The tempos that part the tables of swing, as `tools/draft_rhythms.py` counts them."""
_SMOOTH = 0.4
_NEVER = -np.inf
_TRIPLET = 3
_HELD, _RELEASED = "o", "o."
_SIXTEENTHS_UP_TO = 96
"""The tempo up to which sixteenths are written freely, in beats a minute [the project's design]."""
_PICK_UPS = ("oo", ".o", "ooo", ".oo")
"""What a beat before bar 1 may be."""


@dataclass(frozen=True, slots=True, eq=True)
class _Choice:
    """What a beat may be: its cell, the part of the phrase, and how long it has gone on so."""

    cell: str
    part: int  # 0 before the first note, 1 inside, 2 after the last note was struck
    beats: int  # 1: beats since a breath, or silent ones as negative; 2: beats held, or -1 for silence


@dataclass(frozen=True)
class Rhythm:
    """Where notes are struck, and where each stops, in ticks; `bars` is how long the whole is."""

    onsets: tuple[int, ...]
    ends: tuple[int, ...]
    cells: tuple[str, ...]

    @cached_property
    def pickup(self) -> int:
        """How many ticks the pick-up has; 0 for none."""
        return max(0, -self.onsets[0])

    @cached_property
    def waits(self) -> tuple[int, ...]:
        """How many ticks lie between the notes."""
        return tuple(after - before for before, after in pairwise(self.onsets))

    @cached_property
    def rests(self) -> tuple[int, ...]:
        """How many silent ticks stand before each note; 0 before the first."""
        return (0, *(after - end for end, after in zip(self.ends[:-1], self.onsets[1:], strict=True)))


def table_name(feel: str, bpm: int) -> str:
    """Return the name of the table of counts for a feel at a tempo in beats a minute."""
    name = _TABLE_OF[feel]
    if name == "swing":
        return "slow" if bpm < _SLOW_BPM else "swing" if bpm < _FAST_BPM else "fast"
    return name


@lru_cache(maxsize=16)
def follow_logs(name: str) -> Mapping[int, Mapping[str, Mapping[str, float]]]:
    """Return the logarithm of how often a cell follows one, for beats 1 and 3 (0) and 2 and 4 (1)."""
    found = {}
    for parity in (0, 1):
        counts = _counts(FOLLOWS[f"{name} {parity}"])
        single: dict[str, float] = {}
        for row in counts.values():
            for cell, many in row.items():
                single[cell] = single.get(cell, 0.0) + many
        whole = sum(single.values())
        cells = _all_cells(name)
        logs = {
            before: {
                cell: float(
                    np.log(
                        (counts.get(before, {}).get(cell, 0) + _SMOOTH * 20 * single.get(cell, 0.1) / whole)
                        / (sum(counts.get(before, {}).values()) + _SMOOTH * 20)
                    )
                )
                for cell in cells
            }
            for before in cells
        }
        found[parity] = _with_releases(logs)
    return MappingProxyType(found)


def _with_releases(logs: Mapping[str, Mapping[str, float]]) -> Mapping[str, Mapping[str, float]]:
    """Return a table with beats whose note is let go after an eighth, which the counts do not tell."""
    share = RELEASED / 100
    rows = {**logs, _RELEASED: logs[_HELD]}
    return {
        before: {
            **row,
            _RELEASED: row[_HELD] + float(np.log(share)),
            _HELD: row[_HELD] + float(np.log(1 - share)),
        }
        for before, row in rows.items()
    }


def _all_cells(name: str) -> list[str]:
    """Return the cells that a feel has on any beat."""
    rows = [_counts(FOLLOWS[f"{name} {parity}"]) for parity in (0, 1)]
    return sorted(
        {cell for row in rows for after in row.values() for cell in after} | set(rows[0]) | set(rows[1])
    )


def _counts(text: str) -> dict[str, dict[str, int]]:
    rows = {}
    for line in text.strip().splitlines():
        before, _, said = line.partition(" > ")
        pairs = (item.rpartition(":") for item in said.split())
        rows[before] = {cell: int(many) for cell, _, many in pairs}
    return rows


@dataclass(frozen=True)
class RhythmWishes:
    """What a rhythm is drawn for.

    Attributes:
        beats: how many beats there are, without a pick-up.
        bar: beats in a bar.
        name: the table of counts.
        bpm: beats a minute.
        pickup: whether a beat before bar 1 may be struck.
        needs: (first beat, beat after the last, notes) for stretches that must have so many notes.
        taught: whether the leanings of an author are added; else the counts alone speak.
        rests: whether the last beat is silent, in phrases of more than a bar; else a note may end there.
    """

    beats: int
    bar: int
    name: str
    bpm: int
    pickup: bool = True
    needs: tuple[tuple[int, int, int], ...] = ()
    taught: bool = True
    rests: bool = True


class Rhythms:
    """All rhythms that keep the limits, to be counted and drawn."""

    def __init__(self, wishes: RhythmWishes) -> None:
        self.wishes = wishes
        self._follow = follow_logs(wishes.name)
        self._choices = _choices(tuple(sorted(self._follow[0])))
        self._places = range(-1, wishes.beats)
        self._lean = self._leanings()
        self.single = [self._single(beat) for beat in self._places]
        self.pair = [self._pair(beat) for beat in self._places[1:]]
        self.totals = log_totals(self.single, self.pair)

    @property
    def count(self) -> int:
        """How many there are, exactly; the choices say all of a beat, so each rhythm is one row of them."""
        single = [np.isfinite(one).astype(np.int64) for one in self.single]
        pair = [np.isfinite(one).astype(np.int64) for one in self.pair]
        return count_pairs(single, pair)

    @property
    def possible(self) -> bool:
        """Whether there is any."""
        return bool(np.isfinite(self.totals[-1]).any())

    def keeping(self, cells: Mapping[int, str]) -> Rhythms:
        """Return those of the rhythms that have such cells on such beats; -1 is the pick-up."""
        kept = copy(self)
        kept.single = list(self.single)
        for beat, cell in cells.items():
            other = np.array([choice.cell != cell for choice in self._choices])
            kept.single[beat + 1] = np.where(other, _NEVER, self.single[beat + 1])
        kept.totals = log_totals(kept.single, kept.pair)
        return kept

    def drawn(self, many: int, dice: Random) -> list[Rhythm]:
        """Return rhythms drawn in proportion to their weights; those with too few notes are left out."""
        if not self.possible:
            return []
        rows = sampled_rows(self.totals, self.pair, many, dice)
        found = [self._rhythm([self._choices[at].cell for at in row]) for row in rows.tolist()]
        return [one for one in found if one is not None and self._enough(one)]

    def _enough(self, rhythm: Rhythm) -> bool:
        return all(
            sum(first * TICKS <= onset < last * TICKS for onset in rhythm.onsets) >= notes
            for first, last, notes in self.wishes.needs
        )

    def _rhythm(self, cells: Sequence[str]) -> Rhythm | None:
        onsets: list[int] = []
        ends: list[int] = []
        for beat, cell in zip(self._places, cells, strict=True):
            size = TICKS // len(cell)
            for slot, letter in enumerate(cell):
                here = beat * TICKS + slot * size
                if letter == "o":
                    onsets.append(here)
                    ends.append(here + size)
                elif letter == "-" and onsets:
                    ends[-1] = here + size
        return Rhythm(tuple(onsets), tuple(ends), tuple(cells)) if len(onsets) > 1 else None

    def _leanings(self) -> dict[str, float]:
        lean: dict[str, float] = {}
        for row in LEANINGS if self.wishes.taught else ():
            weight = row.weight
            if row.name.startswith("sixteenths") and self.wishes.bpm <= _SIXTEENTHS_UP_TO:
                weight //= 4
            for cell in row.cells:
                lean[cell] = lean.get(cell, 0.0) + weight / 100
        return lean

    def _single(self, beat: int) -> NDArray[np.float64]:
        dense, floor = 0.0, 0
        for first, last, notes in self.wishes.needs:
            if first <= beat < last:
                dense, floor = 1.5, max(floor, notes // (last - first))
        return np.array([self._own(choice, beat, dense, floor) for choice in self._choices])

    def _own(self, choice: _Choice, beat: int, dense: float, floor: int) -> float:
        last = self.wishes.beats - 1
        struck = choice.cell.count("o")
        if choice.part == 0 and beat > LIMIT["latest start"] - 1:
            return _NEVER
        if beat == -1 and choice.part == 1 and not self.wishes.pickup:
            return _NEVER
        if struck < floor:
            return _NEVER
        if choice.part == 2 and struck and beat < last + 1 - self._end_window():
            return _NEVER
        if beat == last and (choice.part != 2 or not self._ended(choice)):
            return _NEVER
        weight = self._lean.get(choice.cell, 0.0) + dense * min(struck, 2)
        if choice.part == 0:
            return 0.0
        if beat == -1:
            if choice.part == 2 or choice.cell not in _PICK_UPS:
                return _NEVER
            return weight + PICK_UP / 100
        return weight

    def _end_window(self) -> int:
        if self.wishes.beats <= self.wishes.bar:
            return max(2, self.wishes.beats - 1)
        return min(LIMIT["earliest end"], self.wishes.beats - 1)

    def _ended(self, choice: _Choice) -> bool:
        """Whether the phrase is over by this last beat: with a rest, but for phrases of a bar or less."""
        short = self.wishes.beats <= self.wishes.bar or not self.wishes.rests
        return choice.beats < 0 or (short and choice.cell in ("o", "-", "-o", ".o"))

    def _pair(self, beat: int) -> NDArray[np.float64]:
        table = self._follow[(beat % self.wishes.bar) % 2]
        allowed, before, after = _pairs(self._choices)
        names = sorted(table)
        logs = np.array([[table[one][other] for other in names] for one in names])
        found = np.where(allowed, logs[before[:, None], after[None, :]], _NEVER)
        first = np.array([choice.part for choice in self._choices])
        begins = (first[:, None] == 0) & (first[None, :] == 1)
        return np.where(begins & (found > _NEVER), self._start_logs(beat)[after][None, :], found)

    def _start_logs(self, beat: int) -> NDArray[np.float64]:
        """Return by cell the logarithm of how often a phrase begins in this beat with such a cell."""
        share = np.array(STARTS, dtype=float) / sum(STARTS)
        place = 2 * (beat % 4)
        names = sorted(self._follow[0])
        usual = self._follow[0]["."]
        found = []
        for cell in names:
            on = share[place] if cell[0] == "o" else share[place + 1]
            found.append(np.log(on) + usual[cell] * 0.5)
        return np.array(found)


@lru_cache(maxsize=8)
def _choices(cells: tuple[str, ...]) -> tuple[_Choice, ...]:
    found = [_Choice(".", 0, 0)]
    longest = LIMIT["longest without breath"]
    for cell in cells:
        if cell == ".":
            found += [_Choice(cell, 1, -silent) for silent in range(1, LIMIT["longest silence"] + 1)]
        elif "." in cell:
            found.append(_Choice(cell, 1, 0))
        else:
            found += [_Choice(cell, 1, beats) for beats in range(1, longest + 1)]
        if cell in ("o", "oo", "-o", ".o", "ooo", "-oo"):
            found.append(_Choice(cell, 2, 1))
    found += [_Choice("-", 2, beats) for beats in range(2, LIMIT["longest held"] + 2)]
    found.append(_Choice(".", 2, -1))
    return tuple(found)


@lru_cache(maxsize=8)
def _pairs(choices: tuple[_Choice, ...]) -> tuple[NDArray[np.bool_], NDArray[np.intp], NDArray[np.intp]]:
    names = sorted({choice.cell for choice in choices})
    place = np.array([names.index(choice.cell) for choice in choices])
    allowed = np.array([[_follows(one, other) for other in choices] for one in choices])
    return allowed, place, place


def _follows(one: _Choice, other: _Choice) -> bool:
    """Whether a choice may follow another."""
    sounding = one.cell[-1] != "."
    if other.cell[0] == "-" and not sounding:
        return False
    if one.cell == _RELEASED and other.cell[0] == ".":
        return False  # let go for the sake of what comes next
    if len(one.cell) == _TRIPLET and other.cell[0] == "-" and one.part != 2:
        return False  # a tie out of a triplet is hard to read
    if one.part == 0:
        return other.part == 0 or (other.part == 1 and "o" in other.cell and other.beats in (0, 1))
    if one.part == 2:
        return _after_the_end(one, other)
    if other.part == 0 or (other.part == 2 and "o" not in other.cell):
        return False
    if other.part == 2:
        return True
    if other.cell == ".":
        return other.beats == (one.beats - 1 if one.cell == "." else -1)
    if "." in other.cell:
        return True
    return other.beats == (one.beats + 1 if one.beats > 0 else 1)


def _after_the_end(one: _Choice, other: _Choice) -> bool:
    if other.part != 2 or "o" in other.cell:
        return False
    if one.beats < 0:
        return other.cell == "."
    if other.cell == "-":
        return other.beats == one.beats + 1
    # A last note on the beat lasts a beat at least; one off the beat may be short.
    return True
