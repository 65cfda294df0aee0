"""Registers: where a phrase lies in each of its keys, chosen together at the least cost.

For each key there are a few ways, an octave apart. Each has a cost of its own, and each pair of ways of
keys that follow one another has a cost for the jump. The row of ways with the least total is the cheapest row
of choices of a chain (`lattice.chain`). The costs stand in one table.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from itertools import pairwise

from shedbook.editions.compass import STAFF_MIDDLE_MIDI, Compass, compass_of
from shedbook.editions.cost_table import costs_by_policy
from shedbook.editions.instruments.edition import AUTHOR, Edition
from shedbook.editions.instruments.instrument import Band, Bands
from shedbook.editions.registers.octave_fold import Cut
from shedbook.editions.tables.register_costs import NEAR, REGISTER_COSTS
from shedbook.errors import ShedbookError
from shedbook.lattice.chain import least_chain
from shedbook.phrase.model import Phrase
from shedbook.theory.key import Key
from shedbook.theory.pitch import HIGHEST_MIDI, LOWEST_MIDI

_COSTS = costs_by_policy(REGISTER_COSTS)


@dataclass(frozen=True, slots=True)
class Way:
    """How a phrase lies in one key.

    Attributes:
        semitones: how many half steps higher it sounds than the author wrote it.
        after: the same for the notes from the fold on; equal to `semitones` without a fold.
        cut: where the fold is, or None.
    """

    semitones: int
    after: int
    cut: Cut | None = None


@dataclass(frozen=True, slots=True)
class _Prices:
    """The costs of an edition, looked up once.

    Attributes:
        notes: what a written note costs, by its MIDI number.
        up: how many half steps above their sound notes are written.
        by_author: whether the policy is to keep the author's register.
        jump, distance, staff_middle, upward: the rows of `tables.register_costs` with these names.
    """

    notes: tuple[int, ...]
    up: int
    by_author: bool
    jump: int
    distance: int
    staff_middle: int
    upward: int


@lru_cache(maxsize=64)
def note_costs(bands: Bands, policy: str) -> tuple[int, ...]:
    """Return what a written note costs, by its MIDI number from 0 to C8; 0 inside the comfortable band."""
    rows = (
        (bands.comfortable, _COSTS[policy, "outside comfortable"]),
        (bands.full, _COSTS[policy, "outside full"]),
        (bands.extreme, _COSTS[policy, "outside extreme"]),
    )
    return tuple(
        sum(cost * max(0, band.low.midi - midi, midi - band.high.midi) for band, cost in rows)
        for midi in range(HIGHEST_MIDI + 1)
    )


def registers(
    phrase: Phrase, keys: Sequence[Key], edition: Edition, cuts: Sequence[Cut] | None = None
) -> tuple[Way, ...]:
    """Return where the phrase lies in each of the keys, in their order, at the least total cost.

    Args:
        phrase: the phrase as its author wrote it.
        keys: the keys as they sound, in the order in which they are read.
        edition: whose transposition, bands and policy.
        cuts: where the phrase may be folded in keys in which no octave serves; None where it may not.

    Raises:
        ShedbookError: if in some key no octave lies between A0 and C8.
    """
    reach, prices = compass_of(phrase), _prices(edition)
    return _least([_priced(phrase, reach, key, edition, prices, cuts or ()) for key in keys], prices.jump)


def registers_cost(phrase: Phrase, ways: Sequence[Way], edition: Edition) -> int:
    """Return what a row of ways costs, as `registers` counts it."""
    reach, prices = compass_of(phrase), _prices(edition)
    jumps = sum(abs(after.semitones - before.after) for before, after in pairwise(ways))
    return prices.jump * jumps + sum(_own_cost(reach, way, prices) for way in ways)


def ways_to(phrase: Phrase, reach: Compass, key: Key, edition: Edition) -> tuple[int, ...]:
    """Return the half steps by which a phrase may move to a key, the shortest way first.

    An edition that keeps the author's register offers only moves of at most a fifth, if one of them fits.

    Raises:
        ShedbookError: if every way leaves A0 to C8, as it sounds or as it is written.
    """
    up = phrase.key.tonic.interval_to(key.tonic).semitones
    written = edition.transposition.semitones
    low = LOWEST_MIDI - reach.lowest - min(0, written)
    high = HIGHEST_MIDI - reach.highest - max(0, written)
    fitting = range(low + (up - low) % 12, high + 1, 12)
    if not fitting:
        raise ShedbookError(
            f'"{phrase.title}" does not fit between A0 and C8 in {key.tonic} {phrase.key.mode}'
            f"{f' for {edition.reader_words}' if written else ''}.",
            hint="Write its highest or lowest notes an octave nearer, or leave out this key.",
        )
    ways = tuple(sorted(fitting, key=lambda way: (abs(way), way)))
    near = tuple(way for way in ways if abs(way) <= NEAR) if edition.policy == AUTHOR else ()
    return near or ways


def _priced(
    phrase: Phrase, reach: Compass, key: Key, edition: Edition, prices: _Prices, cuts: Sequence[Cut]
) -> list[tuple[Way, int]]:
    """Return the ways to a key with their own costs.

    Where an octave serves, with every note in the full range, no other is tried. Where none does, a fold is
    tried if it brings every note into the full range, or into the extreme one where no octave does even that.
    """
    ways = [Way(semitones, semitones) for semitones in ways_to(phrase, reach, key, edition)]
    serving = [way for way in ways if fits(reach, way, edition)]
    found = [(way, _own_cost(reach, way, prices)) for way in serving or ways]
    if cuts and not serving:
        turns = [
            Way(way.semitones, after, cut)
            for way in ways
            for after in (way.semitones - 12, way.semitones + 12)
            for cut in cuts
        ]
        turns = [way for way in turns if on_the_keyboard(reach, way, edition)]
        mending = [way for way in turns if fits(reach, way, edition)]
        if not mending and not any(within(edition.bands.extreme, reach, way, edition) for way in ways):
            mending = [way for way in turns if within(edition.bands.extreme, reach, way, edition)]
        if mending:
            return [(way, _own_cost(reach, way, prices)) for way in mending]
    return found


def fits(reach: Compass, way: Way, edition: Edition) -> bool:
    """Say whether every note of a way lies in the full range of the edition."""
    return within(edition.bands.full, reach, way, edition)


def within(band: Band, reach: Compass, way: Way, edition: Edition) -> bool:
    """Say whether every note of a way lies in a range of written notes."""
    low, high = band.low.midi, band.high.midi
    up = edition.transposition.semitones
    if way.cut is None:
        return low <= reach.lowest + way.semitones + up and reach.highest + way.semitones + up <= high
    return all(low <= midi <= high for _, midi in written_notes(reach, way, up))


def on_the_keyboard(reach: Compass, way: Way, edition: Edition) -> bool:
    """Say whether no note of a way leaves A0 to C8, as it sounds or as it is written."""
    return all(
        LOWEST_MIDI <= midi <= HIGHEST_MIDI
        for up in (0, edition.transposition.semitones)
        for _, midi in written_notes(reach, way, up)
    )


def written_notes(reach: Compass, way: Way, up: int) -> list[tuple[int, int]]:
    """Return (struck note, written MIDI number) for every note and grace note of a way.

    `up` is how many half steps above their sound the notes are written.
    """
    turn = len(reach.notes) if way.cut is None else way.cut.note
    return [
        (index, midi + up + (way.semitones if index < turn else way.after))
        for index, note in enumerate(reach.notes)
        for midi in note
    ]


def _prices(edition: Edition) -> _Prices:
    policy = edition.policy
    jump, distance, middle, upward = (
        _COSTS[policy, name] for name in ("jump", "distance", "staff middle", "upward")
    )
    notes = note_costs(edition.bands, policy)
    up = edition.transposition.semitones
    return _Prices(notes, up, policy == AUTHOR, jump, distance, middle, upward)


def _own_cost(reach: Compass, way: Way, prices: _Prices) -> int:
    """Return what one way costs by itself."""
    away, up = way.semitones, way.semitones + prices.up
    cost, table = prices.distance * abs(away), prices.notes
    if prices.by_author:
        middle = abs(reach.lowest + reach.highest + 2 * (up - STAFF_MIDDLE_MIDI))
        cost += prices.staff_middle * middle + prices.upward * (away > 0)
    if way.cut is not None:
        cost = prices.distance * max(abs(away), abs(way.after)) + way.cut.cost(way.after - away)
        return cost + sum(table[midi] for _, midi in written_notes(reach, way, prices.up))
    for midi, count in reach.counts:
        each = table[midi + up]
        if each:
            cost += count * each
    return cost


def _least(keys: Sequence[Sequence[tuple[Way, int]]], jump: int) -> tuple[Way, ...]:
    """Return the row of ways with the least total; of equals, those that stand first."""
    if not jump:
        return tuple(min(ways, key=lambda priced: priced[1])[0] for ways in keys)
    own = [[cost for _, cost in ways] for ways in keys]
    jumps = [
        [[jump * abs(way.semitones - last.after) for last, _ in before] for way, _ in after]
        for before, after in pairwise(keys)
    ]
    _, chosen = least_chain(own, jumps)
    return tuple([ways[place][0] for ways, place in zip(keys, chosen, strict=True)])
