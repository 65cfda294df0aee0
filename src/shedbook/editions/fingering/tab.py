"""Fingerings: the string and the fret of every note of a line, chosen together at the least cost.

A note can be stopped on a few strings, and the hand can lie in a few places for each. Each such stop has a
cost of its own, and each pair of stops that follow one another has one. The row of stops with the least total
is the cheapest row of choices of a chain (`lattice.chain`). The costs stand in one table.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from itertools import pairwise
from operator import add
from typing import NamedTuple

from shedbook.editions.cost_table import costs_by_name
from shedbook.editions.fingering.fingerboard import Fingerboard
from shedbook.editions.tables.fingering_costs import FINGERING_COSTS
from shedbook.lattice.chain import least_chain
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


def move_cost(before: Stop, after: Stop, played: Played, *, from_grace: bool) -> int:
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


class _Choice(NamedTuple):
    """The stops of a note, what each costs by itself, and the place of its string among `strings`.

    All stops of a note on one string have the same fret; `strings` holds the first of them.
    """

    stops: tuple[Stop, ...]
    costs: tuple[int, ...]
    strings: tuple[Stop, ...]
    on_string: tuple[int, ...]


@lru_cache(maxsize=1024)
def _choice(board: Fingerboard, midi: int) -> _Choice:
    stops = stops_of(board, midi)
    firsts: dict[int, Stop] = {}
    for stop in stops:
        firsts.setdefault(stop.string, stop)
    places = {string: place for place, string in enumerate(firsts)}
    on_string = tuple([places[stop.string] for stop in stops])
    return _Choice(stops, tuple(map(stop_cost, stops)), tuple(firsts.values()), on_string)


@lru_cache(maxsize=256)
def fingered(line: tuple[Played, ...], board: Fingerboard) -> tuple[Stop | None, ...]:
    """Return the stops of a line with the least cost; of equals, those lower on the neck from the end back.

    A note that is nowhere on the board has None, and the hand stays for the next one.
    """
    there = [played for played in line if _choice(board, played.midi).stops]
    choices = [_choice(board, played.midi) for played in there]
    moves = [
        _moves(board, before.midi, after.midi, after.eased, before.grace) for before, after in pairwise(there)
    ]
    _, chosen = least_chain([choice.costs for choice in choices], moves)
    stops = iter([choice.stops[place] for choice, place in zip(choices, chosen, strict=True)])
    return tuple([next(stops) if _choice(board, played.midi).stops else None for played in line])


@lru_cache(maxsize=512)
def _moves(
    board: Fingerboard, before: int, after: int, eased: bool, from_grace: bool
) -> tuple[tuple[int, ...], ...]:
    """Return the `move_cost` of every two stops of two notes (MIDI numbers), a row for each of the second.

    Strings and hand have costs of their own, except where a finger slides. So each is found out once for two
    strings, once for every place of the hand, and added up. The same pairs of notes come back in every key.
    """
    befores, afters = _choice(board, before), _choice(board, after)
    hands = {
        hand: [_hand_cost(stop, Stop(0, 0, hand), eased=eased) for stop in befores.stops]
        for hand in {stop.hand for stop in afters.stops}
    }
    crossings = [
        [prices[place] for place in befores.on_string]
        for prices in (
            [_string_cost(one, other, from_grace) for one in befores.strings] for other in afters.strings
        )
    ]
    found: list[tuple[int, ...]] = []
    for stop, string in zip(afters.stops, afters.on_string, strict=True):
        row = list(map(add, hands[stop.hand], crossings[string]))
        for place in () if eased else _sliding(befores, stop):
            row[place] = _hand_cost(befores.stops[place], stop, eased=eased)
        found.append(tuple(row))
    return tuple(found)


def _sliding(befores: _Choice, after: Stop) -> list[int]:
    """Return the places of the stops from which a finger slides to a stop."""
    near = any(
        one.string == after.string and 0 < abs(after.fret - one.fret) <= _SLIDE_FRETS
        for one in befores.strings
    )
    if not near:
        return []
    stops = befores.stops
    return [place for place, one in enumerate(stops) if _slides(one, after, after.hand - one.hand)]
