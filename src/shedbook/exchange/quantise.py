"""A played line as a written rhythm: the likeliest one, by a search from onset to onset.

Beat by beat the onsets are laid on one of the grids of `tables.quantise_costs`. The states of the search
(`lattice.frontier`) are the places where the last note may stand, with each division that the last divided
beat may have: exact, but for readings so dear that what follows can hardly make up for it. The
ratio at which the line swings is chosen by the same costs, and so is an even lateness of the player.

Conventions: played times are grains, 1/5040 of a quarter; written places are slots, 1/1680 of a beat, and
leave this module as quarters. Beats are those that are divided: the quarter, the dotted quarter in 6/8 and
its like, the eighth in other metres over 8.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from statistics import median_low
from types import MappingProxyType
from typing import NamedTuple, TypeAlias

from shedbook.exchange.tables.quantise_costs import (
    COMPOUND,
    COSTS,
    GRACE_MS,
    GRIDS,
    SHORT,
    SIMPLE,
    SPREAD_MS,
    SPREAD_SHARE,
    SWING_RATIOS,
    GridRow,
)
from shedbook.lattice.frontier import Way, labels_of, least, nearest, offer
from shedbook.theory.metre import Metre

GRAINS = 5040
"""Grains of a quarter."""
SLOTS = 1680
"""Slots of a beat: every grid's places are whole slots."""

COST: Mapping[str, int] = MappingProxyType({row.name: row.cost for row in COSTS})

_HALF, _THIRD = SLOTS // 2, SLOTS // 3
_FARTHEST = 250
"""No onset is laid so far from where it was played that it costs more."""
_BEAM = 60
"""Readings dearer than the cheapest by more are dropped: what a reading may still make up costs far less."""
_MOST_IN_SPAN = 12
_LEARN_FROM = 256
"""How many notes the swing ratio is chosen by."""
_EXACT_GRAINS = 6
"""How far the onsets of a written file lie off: half a tick, of 480 to the quarter."""
_LATE_MS = 8
_OFF_BEATS = (Fraction(11, 20), Fraction(4, 5))
_PLAIN = frozenset(SLOTS * length // 8 for length in (1, 2, 3, 4, 6, 8, 12, 16, 24, 32, 48))
_THIRDS = frozenset(SLOTS * length // 6 for length in (1, 2, 4))


class Played(NamedTuple):
    """A note as played, in grains from the start of a bar; the bars are counted from there."""

    start: int
    end: int
    midi: int


@dataclass(frozen=True, slots=True)
class Grid:
    """A row of the table in grains: `places` are (slot, grains) from the start of its span."""

    row: GridRow
    places: tuple[tuple[int, int], ...]


@dataclass(frozen=True, slots=True)
class Beat:
    """What is divided: its length in grains and its kind, the beats of a bar, and how far onsets lie off."""

    grains: int
    kind: str
    in_bar: int
    spread: int
    crushed: int
    exact: bool = False

    @property
    def quarters(self) -> Fraction:
        """The length in quarter notes."""
        return Fraction(self.grains, GRAINS)


@dataclass(frozen=True, slots=True)
class Placed:
    """Where the notes of a line are written.

    `slots` goes with the notes, None for one that is a grace note or is left out; `grids` says how each
    divided beat is divided; `ratio` is the long eighth over the short one.
    """

    slots: tuple[int | None, ...]
    grids: Mapping[int, Grid]
    ratio: Fraction
    cost: int
    late: int
    exact: bool

    def sounding_at(self, slot: int, beat: Beat) -> int:
        """Return when a written place sounds, in grains, as its beat swings; an undivided one does too."""
        number, inside = divmod(slot, SLOTS)
        grid = self.grids.get(number)
        bent = beat.kind == SIMPLE if grid is None else grid.row.bent
        if not bent or not inside:
            return self.late + number * beat.grains + inside * beat.grains // SLOTS
        off = int(beat.grains * self.ratio / (self.ratio + 1))
        if inside <= _HALF:
            return self.late + number * beat.grains + inside * off // _HALF
        return self.late + number * beat.grains + off + (inside - _HALF) * (beat.grains - off) // _HALF


class _Group(NamedTuple):
    """Some onsets laid on one span: where the next ones begin, first and last slot, cost, grid."""

    following: int
    first: int
    last: int
    cost: int
    grid: int
    slots: tuple[int, ...]


_Frontier: TypeAlias = "dict[tuple[int, int], Way[_Group | None]]"
"""The least way to each state: the slot of the last note, and the grid of the last divided beat.

Its labels are the groups, None for an onset that has no place of its own.
"""


def divided_beat(metre: Metre, tempo_qpm: Fraction, *, exact: bool = False) -> Beat:
    """Return the beat that the rhythm of a metre divides, at a tempo in quarters a minute."""
    compound = metre.unit >= 8 and metre.beats % 3 == 0
    quarters = 3 * metre.beat_quarters if compound else min(Fraction(1), metre.beat_quarters)
    kind = COMPOUND if compound else SIMPLE if quarters == 1 else SHORT
    grains = int(quarters * GRAINS)
    a_ms = tempo_qpm * GRAINS / 60000
    spread = _EXACT_GRAINS if exact else max(int(SPREAD_MS * a_ms), int(SPREAD_SHARE * grains))
    crushed = 0 if exact else int(GRACE_MS * a_ms)
    return Beat(grains, kind, int(metre.bar_quarters / quarters), max(1, spread), crushed, exact)


def place_onsets(
    notes: Sequence[Played],
    metre: Metre,
    tempo_qpm: Fraction,
    *,
    exact: bool = False,
    ratios: tuple[Fraction, ...] = (),
) -> Placed:
    """Return where the notes of a line, in order of their onsets, are likeliest written.

    `ratios` are the swing ratios to try, where not all of them shall be; `exact` says that the line was
    written, not played.
    """
    onsets = [note.start for note in notes]
    beat = divided_beat(metre, tempo_qpm, exact=exact)
    some = onsets[:_LEARN_FROM]
    ratios = ratios or _ratios(some, beat)
    tried = [(_laid(some, beat, ratio).cost, place, ratio) for place, ratio in enumerate(ratios)]
    ratio = min(tried)[2]
    found = _laid(onsets, beat, ratio)
    late = 0 if exact else _lateness(onsets, found, beat)
    if abs(late) * 60000 > _LATE_MS * tempo_qpm * GRAINS:
        shifted = [onset - late for onset in onsets]
        again = _laid(shifted, beat, ratio, before=min(0, shifted[0]))
        if again.cost < found.cost:
            found = Placed(again.slots, again.grids, ratio, again.cost, late, exact)
    return Placed(found.slots, found.grids, ratio, found.cost, found.late, exact)


def _ratios(onsets: Sequence[int], beat: Beat) -> tuple[Fraction, ...]:
    """Return the swing ratios to try; a written file has one of its own, where most of its off-beats lie."""
    if beat.kind != SIMPLE:
        return SWING_RATIOS[:1]
    inside = Counter(onset % beat.grains for onset in onsets)
    off_beats = [place for place in inside if _OFF_BEATS[0] <= Fraction(place, beat.grains) <= _OFF_BEATS[1]]
    if not beat.exact or not off_beats:
        return SWING_RATIOS
    usual = max(off_beats, key=lambda place: (inside[place], -place))
    return (*SWING_RATIOS, Fraction(usual, beat.grains - usual))


def _lateness(onsets: Sequence[int], found: Placed, beat: Beat) -> int:
    """Return by how many grains the player is behind, as the middle of all."""
    off = [
        onset - found.sounding_at(slot, beat)
        for onset, slot in zip(onsets, found.slots, strict=True)
        if slot is not None
    ]
    return median_low(off) if off else 0


@lru_cache(maxsize=256)
def _grids(beat: Beat, ratio: Fraction) -> tuple[Grid, ...]:
    """Return the grids of a kind of beat, the bent ones at a swing ratio."""
    off = ratio / (ratio + 1)
    found = []
    for row in GRIDS:
        if beat.kind not in row.kinds or (row.exact and not beat.exact):
            continue
        if row.bent and ratio == 1 and len(row.places) > 2:
            continue
        places = []
        for place in row.places:
            bent = place
            if row.bent:
                half = Fraction(1, 2)
                bent = place * 2 * off if place <= half else off + (place - half) * 2 * (1 - off)
            places.append((int(place * row.beats * SLOTS), int(bent * row.beats * beat.grains)))
        found.append(Grid(row, tuple(places)))
    return tuple(found)


def _laid(onsets: Sequence[int], beat: Beat, ratio: Fraction, *, before: int = 0) -> Placed:
    """Return the cheapest places of all onsets at one swing ratio; `before` is where time begins."""
    grids = _grids(beat, ratio)
    states: list[_Frontier] = [{} for _ in range(len(onsets) + 1)]
    states[0][(before // beat.grains - 1) * SLOTS - 1, 0] = (0, None)
    for at, here in enumerate(states[:-1]):
        if here:
            _step(onsets, at, nearest(here, _BEAM), states, beat, grids)
    way = least(states[-1])
    slots: list[int | None] = []
    used: dict[int, Grid] = {}
    for group in reversed(labels_of(way)):
        if group is None:
            slots.append(None)
            continue
        slots += reversed(group.slots)
        if group.grid:
            first = group.first // SLOTS
            used.update({number: grids[group.grid] for number in range(first, group.last // SLOTS + 1)})
    return Placed(tuple(reversed(slots)), used, ratio, way[0], 0, False)


def _step(
    onsets: Sequence[int],
    at: int,
    here: _Frontier,
    states: list[_Frontier],
    beat: Beat,
    grids: Sequence[Grid],
) -> None:
    """Lay the next onsets on every span that they may open, after every state."""
    near = onsets[at] // beat.grains
    spans = (near, near + 1) if 2 * (onsets[at] - near * beat.grains) > beat.grains else (near,)
    for number in spans:
        open_to = [(key, state) for key, state in here.items() if key[0] // SLOTS < number]
        groups = _groups(onsets, at, number, beat, grids) if open_to else ()
        for (last, division), (cost, rest) in open_to:
            for group in groups:
                new = cost + group.cost + _held(last, group.first)
                if group.grid and division and grids[group.grid].row.cost != grids[division].row.cost:
                    new += COST["another division"]
                offer(states[group.following], (group.last, group.grid or division), new, rest, group)
    crushed = at + 1 < len(onsets) and onsets[at + 1] - onsets[at] <= beat.crushed
    extra = COST["grace note"] if crushed else COST["left out"]
    for key, (cost, rest) in here.items():
        offer(states[at + 1], key, cost + extra, rest, None)


def _held(last: int, first: int) -> int:
    """Return what it costs that a note lasts from one slot to the next, whichever is stronger."""
    inside = last % SLOTS
    if not inside or last < 0:
        return 0
    length = first - last
    beat_after = last - inside + SLOTS
    cost = 0 if length in _PLAIN or length in _THIRDS or length > 4 * SLOTS else COST["tie"]
    if cost and first >= beat_after and (inside == _HALF) != (first % SLOTS == _HALF):
        cost = COST["half tied into a third"] if (first if inside == _HALF else last) % _THIRD == 0 else cost
    if inside == _HALF:
        return cost + (COST["held from the half"] if first > beat_after else 0)
    half_next = inside < _HALF and inside % _THIRD
    over = last - inside + _HALF if half_next else beat_after
    return cost + (COST["held from a weak place"] if first > over else 0)


def _groups(
    onsets: Sequence[int], at: int, number: int, beat: Beat, grids: Sequence[Grid]
) -> tuple[_Group, ...]:
    """Return every useful way to lay the onsets from `at` on into the span that begins with a beat."""
    base = number * beat.grains
    found: dict[tuple[int, int, int, int], _Group] = {}
    for index, grid in enumerate(grids):
        beats = grid.row.beats
        inside = number % beat.in_bar
        if beats > 1 and (inside % beats or inside + beats > beat.in_bar):
            continue
        end = base + beats * beat.grains
        open_ways: dict[int, Way[int]] = {-1: (grid.row.cost, None)}
        for count in range(1, min(len(grid.places), _MOST_IN_SPAN) + 1):
            place = at + count - 1
            if place >= len(onsets) or onsets[place] >= end:
                break
            open_ways = _next_ways(open_ways, onsets[place] - base, number, grid, beat)
            for way in open_ways.values():
                cost, slots = way[0], labels_of(way)
                if beats > 1 and slots[-1] < (number + 1) * SLOTS:
                    continue
                key = (place + 1, slots[0], slots[-1], index)
                if key not in found or cost < found[key].cost:
                    found[key] = _Group(place + 1, slots[0], slots[-1], cost, index, tuple(slots))
    least: dict[int, int] = {}
    for group in found.values():
        least[group.following] = min(group.cost, least.get(group.following, group.cost))
    return tuple([group for group in found.values() if group.cost <= least[group.following] + _BEAM])


def _next_ways(
    ways: dict[int, Way[int]], onset: int, number: int, grid: Grid, beat: Beat
) -> dict[int, Way[int]]:
    """Return the least ways to lay one onset more on a grid, by the index of its place.

    Their labels are the slots. Of equals the one is taken whose last onset but one lies earlier.
    """
    found: dict[int, Way[int]] = {}
    for index, (slot, grains) in enumerate(grid.places):
        away = onset - grains
        distance = 5 * away * away // (beat.spread * beat.spread)
        if distance > _FARTHEST:
            continue
        own = distance + (COST["weak place"] if slot % _HALF else 0)
        here = number * SLOTS + slot
        for last, (cost, rest) in ways.items():
            if last >= index:
                break
            held = _held(rest[1], here) if rest is not None and grid.row.beats == 1 else 0
            offer(found, index, cost + held + own, rest, here)
    return found
