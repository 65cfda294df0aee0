"""The search for a written rhythm against brute force: every reading of a few onsets is tried."""

from __future__ import annotations

import random
from collections.abc import Iterator
from fractions import Fraction
from itertools import combinations, pairwise

import pytest

from shedbook.exchange.rhythm.beat_grids import SLOTS, Beat, Grid, divided_beat, grids_for
from shedbook.exchange.rhythm.costs import COST
from shedbook.exchange.rhythm.onsets import _FARTHEST, _HALF, RecordedNote, _held, place_onsets
from shedbook.exchange.rhythm.tables.quantise_costs import SIMPLE
from shedbook.theory.metre import Metre


def laid(onsets: list[int], number: int, grid: Grid, beat: Beat) -> Iterator[tuple[int, tuple[int, ...]]]:
    """Yield every way to lay onsets on the grid of a span, with its cost by the table."""
    base, beats = number * beat.grains, grid.row.beats
    for places in combinations(grid.places, len(onsets)):
        slots = tuple(number * SLOTS + slot for slot, _ in places)
        if beats > 1 and slots[-1] < (number + 1) * SLOTS:
            continue
        cost = grid.row.cost
        for onset, (slot, grains) in zip(onsets, places, strict=True):
            away = onset - base - grains
            distance = 5 * away * away // (beat.spread * beat.spread)
            cost += distance + (COST["weak place"] if slot % _HALF else 0)
            if distance > _FARTHEST:
                break
        else:
            if beats == 1:
                cost += sum(_held(one, other) for one, other in pairwise(slots))
            yield cost, slots


def spans(
    onsets: list[int], at: int, last: int, beat: Beat, grids: tuple[Grid, ...]
) -> Iterator[tuple[int, int, int]]:
    """Yield where the onsets from one on may be laid after a slot: beat, grid, and the onset that is next."""
    near = onsets[at] // beat.grains
    late = 2 * (onsets[at] - near * beat.grains) > beat.grains
    for number in (near, near + 1) if late else (near,):
        for index, grid in enumerate(grids):
            beats, inside = grid.row.beats, number % beat.in_bar
            whole = beats == 1 or (inside % beats == 0 and inside + beats <= beat.in_bar)
            if last // SLOTS >= number or not whole:
                continue
            for end in range(at + 1, len(onsets) + 1):
                if onsets[end - 1] < (number + beats) * beat.grains:
                    yield number, index, end


def least(onsets: list[int], beat: Beat, grids: tuple[Grid, ...]) -> int:
    """Return the cost of the cheapest of all readings."""

    def after(at: int, last: int, division: int) -> int:
        if at == len(onsets):
            return 0
        crushed = at + 1 < len(onsets) and onsets[at + 1] - onsets[at] <= beat.crushed
        costs = [COST["grace note" if crushed else "left out"] + after(at + 1, last, division)]
        for number, index, end in spans(onsets, at, last, beat, grids):
            change = index and division and grids[index].row.cost != grids[division].row.cost
            for cost, slots in laid(onsets[at:end], number, grids[index], beat):
                more = cost + _held(last, slots[0]) + (COST["another division"] if change else 0)
                costs.append(more + after(end, slots[-1], index or division))
        return min(costs)

    return after(0, (min(0, onsets[0]) // beat.grains - 1) * SLOTS - 1, 0)


@pytest.mark.parametrize("metre", ["4/4", "6/8", "7/8"])
def test_no_reading_is_cheaper(metre: str) -> None:
    dice = random.Random(metre)
    time = Metre.parse(metre)
    for _ in range(25):
        tempo, ratio = Fraction(dice.randrange(60, 260)), Fraction(dice.choice((2, 3, 4)), 2)
        beat = divided_beat(time, tempo)
        if beat.kind != SIMPLE:
            ratio = Fraction(1)
        onsets = sorted(dice.sample(range(0, 2 * beat.grains, 97), dice.randint(1, 4)))
        notes = [RecordedNote(onset, onset + 500, 60) for onset in onsets]
        found = place_onsets(notes, time, tempo, ratios=(ratio,))
        if found.late == 0:
            assert found.cost == least(onsets, beat, grids_for(beat, ratio)), (onsets, tempo, ratio)
