"""Where the notes of a played line are written to begin: the likeliest places, found at least cost.

Beat by beat the beginnings of the notes (the onsets) are laid on one of the grids of `tables.quantise_costs`.
The states of the search (`lattice.frontier`) are the places where the last note may stand, with each division
that the last divided beat may have. It drops only readings that are too dear to win. The ratio at which the
line swings is chosen by the same costs, and so is the time by which the player is late throughout.

Conventions: recorded times are grains, 1/5040 of a quarter. Written places are slots, 1/1680 of a beat, and
leave this module as quarters. A beat is what is divided: the dotted quarter in 6/8, 9/8 and 12/8, the eighth
in other metres over 8, otherwise the quarter.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from statistics import median_low
from typing import NamedTuple, TypeAlias

from shedbook.exchange.rhythm.beat_grids import GRAINS, SLOTS, Beat, Grid, divided_beat, grids_for
from shedbook.exchange.rhythm.costs import COST
from shedbook.exchange.rhythm.tables.quantise_costs import SIMPLE, SWING_RATIOS
from shedbook.lattice.frontier import Way, labels_of, least, nearest, offer
from shedbook.theory.metre import Metre

_HALF, _THIRD = SLOTS // 2, SLOTS // 3
_FARTHEST = 250
"""An onset is not laid on a place that costs more than this for its distance."""
_BEAM = 60
"""Readings that cost so much more than the cheapest are dropped, because they cannot make up for it."""
_MOST_IN_SPAN = 12
_LEARN_FROM = 256
"""The swing ratio is chosen by so many notes."""
_LATE_MS = 8
_OFF_BEATS = (Fraction(11, 20), Fraction(4, 5))
_PLAIN = frozenset(SLOTS * length // 8 for length in (1, 2, 3, 4, 6, 8, 12, 16, 24, 32, 48))
_THIRDS = frozenset(SLOTS * length // 6 for length in (1, 2, 4))


class RecordedNote(NamedTuple):
    """A note as it was recorded: its beginning and end in grains from a bar line, and its MIDI number."""

    start: int
    end: int
    midi: int


@dataclass(frozen=True, slots=True)
class PlacedOnsets:
    """Where the notes of a line are written to begin.

    Attributes:
        slots: for each note its slot; None for a grace note and for a note that has no place.
        grids: the grid of each beat that is divided, by the number of the beat.
        ratio: the length of the long eighth over that of the short one.
        cost: how unlikely the reading is, in tenths of a natural logarithm.
        late: by how many grains the player is late throughout.
        exact: whether the file was written, and not played.
    """

    slots: tuple[int | None, ...]
    grids: Mapping[int, Grid]
    ratio: Fraction
    cost: int
    late: int
    exact: bool

    def sounding_at(self, slot: int, beat: Beat) -> int:
        """Return when a slot sounds, in grains, if the line swings at its ratio."""
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
    """Some onsets laid on one grid.

    `following` is the index of the next onset, `first` and `last` are the slots of the first and the last of
    them, and `grid` is the index of the grid.
    """

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


def place_onsets(
    notes: Sequence[RecordedNote],
    metre: Metre,
    tempo_qpm: Fraction,
    *,
    exact: bool = False,
    ratios: tuple[Fraction, ...] = (),
) -> PlacedOnsets:
    """Return where the notes of a line are most likely written to begin.

    Args:
        notes: the notes in the order of their beginnings, in grains from a bar line.
        metre: the metre of all bars.
        tempo_qpm: the tempo in quarters a minute.
        exact: whether the file was written, and not played.
        ratios: the swing ratios to try; none means all that make sense for the metre.
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
            found = PlacedOnsets(again.slots, again.grids, ratio, again.cost, late, exact)
    return PlacedOnsets(found.slots, found.grids, ratio, found.cost, found.late, exact)


def _ratios(onsets: Sequence[int], beat: Beat) -> tuple[Fraction, ...]:
    """Return the swing ratios to try; for a written file also that of its most frequent off-beat."""
    if beat.kind != SIMPLE:
        return SWING_RATIOS[:1]
    inside = Counter(onset % beat.grains for onset in onsets)
    off_beats = [place for place in inside if _OFF_BEATS[0] <= Fraction(place, beat.grains) <= _OFF_BEATS[1]]
    if not beat.exact or not off_beats:
        return SWING_RATIOS
    usual = max(off_beats, key=lambda place: (inside[place], -place))
    return (*SWING_RATIOS, Fraction(usual, beat.grains - usual))


def _lateness(onsets: Sequence[int], found: PlacedOnsets, beat: Beat) -> int:
    """Return by how many grains the player is late, as the median of all notes."""
    off = [
        onset - found.sounding_at(slot, beat)
        for onset, slot in zip(onsets, found.slots, strict=True)
        if slot is not None
    ]
    return median_low(off) if off else 0


def _laid(onsets: Sequence[int], beat: Beat, ratio: Fraction, *, before: int = 0) -> PlacedOnsets:
    """Return the cheapest places of all onsets at one swing ratio.

    `before` is a time in grains before which nothing stands; it is below 0 for a line that begins early.
    """
    grids = grids_for(beat, ratio)
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
    return PlacedOnsets(tuple(reversed(slots)), used, ratio, way[0], 0, False)


def _step(
    onsets: Sequence[int],
    at: int,
    here: _Frontier,
    states: list[_Frontier],
    beat: Beat,
    grids: Sequence[Grid],
) -> None:
    """Lay the next onsets on each grid that can begin with them, after each state that is still open."""
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
    """Return the cost of a note that lasts from one slot to another."""
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
    """Return each useful way to lay the onsets from index `at` on a grid that begins with a beat."""
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
