"""Fingerings: the string and the fret of every note of a line, chosen together at the least cost.

A note can be stopped on a few strings, and the hand can lie in a few places for each. Each such stop has a
cost of its own, and each pair of stops that follow one another has one. The row of stops with the least total
is found from left to right (dynamic programming), which is exact. The costs stand in one table.
"""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from itertools import pairwise
from typing import NamedTuple

from shedbook.editions.cost_table import costs_by_name
from shedbook.editions.fingering.fingerboard import Fingerboard
from shedbook.editions.tables.fingering_costs import FINGERING_COSTS
from shedbook.phrase.model import Phrase, sounding_notes

_COST = costs_by_name(FINGERING_COSTS, "src/shedbook/editions/tables/fingering_costs.py")
HAND = 4
"""How many frets lie under a hand, one for each finger."""
_SLIDE_FRETS = 2
_HIGH_FRET = 12
_LONG_QUARTERS = 2
"""A note that lasts at least this long, a half note, leaves the hand time to move."""


class Played(NamedTuple):
    """A note of a line as it sounds.

    Attributes:
        midi: its MIDI number.
        eased: whether the hand has time to move before it, after a rest or a long note.
        grace: whether it is a grace note.
    """

    midi: int
    eased: bool = False
    grace: bool = False


class Stop(NamedTuple):
    """Where a note is stopped.

    Attributes:
        string: the string, counted from 1.
        fret: the fret, 0 for the open string.
        hand: the fret at which the first finger of the hand lies.
    """

    string: int
    fret: int
    hand: int


@dataclass(frozen=True, slots=True)
class Tab:
    """The stops of a phrase, by struck note as in `sounding_notes`; None for what is not on the fingerboard.

    Attributes:
        strings: the number of strings.
        notes: the stop of each note.
        graces: the stops of the grace notes before each note.
    """

    strings: int
    notes: tuple[Stop | None, ...]
    graces: tuple[tuple[Stop | None, ...], ...]

    @property
    def missing(self) -> tuple[int, ...]:
        """The struck notes that are not on the fingerboard, or have a grace note that is not."""
        pairs = zip(self.notes, self.graces, strict=True)
        return tuple(index for index, (note, grace) in enumerate(pairs) if note is None or None in grace)


def tab_of(phrase: Phrase, board: Fingerboard, written_above: int) -> Tab:
    """Return the stops of a phrase with the least total cost.

    Args:
        phrase: the phrase as it is written for the reader.
        board: the fingerboard.
        written_above: how many half steps above their sound the notes are written.
    """
    line: list[Played] = []
    counts: list[int] = []
    end: Fraction | None = None
    long = False
    for note in sounding_notes(phrase):
        bar, place = note.event
        grace = phrase.bars[bar].events[place].grace
        eased = end is not None and (long or note.start > end)
        for index, pitch in enumerate((*grace, note.pitch)):
            line.append(Played(pitch.midi - written_above, eased and not index, index < len(grace)))
        counts.append(len(grace))
        end, long = note.end, note.quarters >= _LONG_QUARTERS
    stops = iter(fingered(tuple(line), board))
    pairs = [(tuple(next(stops) for _ in range(count)), next(stops)) for count in counts]
    return Tab(len(board.strings), tuple(note for _, note in pairs), tuple(grace for grace, _ in pairs))


@lru_cache(maxsize=1024)
def stops_of(board: Fingerboard, midi: int) -> tuple[Stop, ...]:
    """Return every stop of a sounding MIDI number: each string that has it, each place of the hand for it.

    Stops lower on the neck come first, and so are taken where the costs are equal.
    """
    hands = range(1, max(1, board.frets - HAND + 1) + 1)
    found = []
    for string, fret in board.places(midi):
        near = range(fret - HAND, fret + 2) if fret else hands
        found += [Stop(string, fret, hand) for hand in near if hand in hands]
    return tuple(sorted(found, key=lambda stop: (stop.hand, stop.fret, stop.string)))


def stop_cost(stop: Stop) -> int:
    """Return what a stop costs by itself."""
    if not stop.fret:
        return _COST["open"]
    outside = not stop.hand <= stop.fret < stop.hand + HAND
    return _COST["stretch"] * outside + _COST["high"] * max(0, stop.fret - _HIGH_FRET)


def move_cost(before: Stop, after: Stop, played: Played, *, from_grace: bool = False) -> int:
    """Return what it costs to go from one stop to the next.

    Args:
        before: the stop before.
        after: the next stop.
        played: the note that is played there.
        from_grace: whether the note before is a grace note.
    """
    return _hand_cost(before, after, eased=played.eased) + _string_cost(before, after, from_grace)


def _hand_cost(before: Stop, after: Stop, *, eased: bool) -> int:
    way = after.hand - before.hand
    if not way:
        return 0
    if eased or not before.fret:
        start = _COST["shift with time"]
    elif _slides(before, after, way):
        start = _COST["slide"]
    else:
        start = _COST["shift"]
    return start + _COST["way"] * abs(way)


def _slides(before: Stop, after: Stop, way: int) -> bool:
    """Say whether the hand moves by a finger that slides along its string."""
    return (
        before.string == after.string
        and after.fret > 0
        and after.fret - before.fret == way
        and abs(way) <= _SLIDE_FRETS
    )


def _string_cost(before: Stop, after: Stop, from_grace: bool) -> int:
    crossed = abs(after.string - before.string)
    if not crossed:
        return 0
    cost = _COST["skip"] * (crossed - 1)
    if before.fret == after.fret and after.fret:
        cost += _COST["roll"]
    return cost + (_COST["ornament"] if from_grace else 0)


def line_cost(line: Sequence[Played], stops: Sequence[Stop | None]) -> int:
    """Return what the stops of a line cost in all; notes that have no stop are passed over."""
    total, before, grace = 0, None, False
    for played, stop in zip(line, stops, strict=True):
        if stop is None:
            continue
        total += stop_cost(stop)
        if before is not None:
            total += move_cost(before, stop, played, from_grace=grace)
        before, grace = stop, played.grace
    return total


_Way = tuple[int, int]
"""The least cost of a line up to a stop, and the stop: its place among the stops of its note."""


class _Choice(NamedTuple):
    """The stops of a note, what each costs by itself, and their places by string: one fret on each."""

    stops: tuple[Stop, ...]
    costs: tuple[int, ...]
    strings: tuple[tuple[int, tuple[int, ...]], ...]


@lru_cache(maxsize=1024)
def _choice(board: Fingerboard, midi: int) -> _Choice:
    stops = stops_of(board, midi)
    strings: dict[int, list[int]] = {}
    for place, stop in enumerate(stops):
        strings.setdefault(stop.string, []).append(place)
    grouped = tuple((string, tuple(places)) for string, places in strings.items())
    return _Choice(stops, tuple(map(stop_cost, stops)), grouped)


@lru_cache(maxsize=256)
def fingered(line: tuple[Played, ...], board: Fingerboard) -> tuple[Stop | None, ...]:
    """Return the stops of a line with the least cost; of equals, those lower on the neck from the end back.

    A note that is nowhere on the board has None, and the hand stays for the next one.
    """
    there = [(played, choice) for played in line if (choice := _choice(board, played.midi)).stops]
    if not there:
        return (None,) * len(line)
    costs: Sequence[int] = there[0][1].costs
    came: list[list[int]] = [[]]
    for (before, befores), (after, afters) in pairwise(there):
        ways = _next(befores, costs, afters, eased=after.eased, from_grace=before.grace)
        costs = [cost + own for (cost, _), own in zip(ways, afters.costs, strict=True)]
        came.append([place for _, place in ways])
    best = costs.index(min(costs))
    found: list[Stop] = []
    for (_, choice), places in zip(reversed(there), reversed(came), strict=True):
        found.append(choice.stops[best])
        best = places[best] if places else 0
    return tuple(found.pop() if board.places(played.midi) else None for played in line)


def _next(
    befores: _Choice, costs: Sequence[int], afters: _Choice, *, eased: bool, from_grace: bool
) -> list[_Way]:
    """Return the best way to each stop of the next note, without the cost of that stop itself.

    Strings and hand have costs of their own, except where a finger slides. So the best way of the hand from
    each string is found once for each place where it may go, and the price of crossing once for two strings.
    """
    hands = {stop.hand for stop in afters.stops}
    arrivals = [
        (befores.stops[places[0]], places, _arrivals(befores, costs, places, hands, eased=eased))
        for _, places in befores.strings
    ]
    found: list[_Way] = [(0, 0)] * len(afters.stops)
    for string, places in afters.strings:
        one = afters.stops[places[0]]
        crossings = [(ways, _string_cost(before, one, from_grace)) for before, _, ways in arrivals]
        own = [there for before, there, _ in arrivals if before.string == string]
        for place in places:
            after = afters.stops[place]
            ways = [(arrival[after.hand][0] + price, arrival[after.hand][1]) for arrival, price in crossings]
            if own and not eased:
                ways += _slides_to(after, befores, costs, own[0])
            found[place] = min(ways)
    return found


def _arrivals(
    befores: _Choice, costs: Sequence[int], places: Sequence[int], hands: Collection[int], *, eased: bool
) -> dict[int, _Way]:
    """Return the best way to bring the hand from one string to each of several places, sliding left out."""
    stops = befores.stops
    start = _COST["shift with time" if eased or not stops[places[0]].fret else "shift"]
    way = _COST["way"]
    froms = [(costs[place], stops[place].hand, place) for place in places]
    lowest, highest = froms[0][1], froms[-1][1]
    down = min([(cost + way * at, place) for cost, at, place in froms])
    up = min([(cost - way * at, place) for cost, at, place in froms])
    found = {}
    for hand in hands:
        if hand < lowest:
            found[hand] = (down[0] - way * hand + start, down[1])
        elif hand > highest:
            found[hand] = (up[0] + way * hand + start, up[1])
        else:
            found[hand] = min(
                [
                    (cost + (start + way * abs(at - hand) if at != hand else 0), place)
                    for cost, at, place in froms
                ]
            )
    return found


def _slides_to(after: Stop, befores: _Choice, costs: Sequence[int], places: Sequence[int]) -> list[_Way]:
    """Return the ways in which a finger slides to a stop, from the places of stops on its string."""
    before = befores.stops[places[0]]
    way = after.fret - before.fret
    if not way or abs(way) > _SLIDE_FRETS:
        return []
    return [
        (costs[place] + _hand_cost(befores.stops[place], after, eased=False), place)
        for place in places
        if _slides(befores.stops[place], after, after.hand - befores.stops[place].hand)
    ]
