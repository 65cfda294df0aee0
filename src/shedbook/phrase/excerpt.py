"""Some bars of a phrase as a phrase of their own."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from shedbook.errors import UnknownNameError
from shedbook.phrase.model import Bar, ChangeAt, Event, Phrase


def excerpt(phrase: Phrase, first: int, last: int) -> Phrase:
    """Return the bars of a phrase from `first` to `last`, both counted from 1, as a phrase that begins there.

    The chord that holds at its beginning stands there with its scale. A note that is held into it is struck
    on its first beat, one that is held out of it ends with it; a slur that crosses its bounds ends there. A
    pick-up is left out. Home key, tempo, feel and name stay the phrase's own.

    Raises:
        UnknownNameError: if the phrase has no such bars.
    """
    if not 1 <= first <= last <= phrase.full_bars:
        raise UnknownNameError(
            f'"{phrase.title}" has no bars {first} to {last}.',
            hint=f"Its bars are 1 to {phrase.full_bars}: --bars 1, or --bars 1-2",
        )
    events = [bar.events for bar in phrase.bars if first <= bar.number <= last]
    rows = _within_slurs([_struck(events[0]), *events[1:]])
    start = phrase.change_index_at(phrase.bar_start(first))
    kept = [index for index, change in enumerate(phrase.changes) if index >= start and change.bar <= last]
    changes = [_moved(phrase.changes[index], first) for index in kept]
    return replace(
        phrase,
        bars=tuple(Bar(number, row) for number, row in enumerate(rows, start=1)),
        changes=tuple(changes),
        scales=tuple(phrase.scales[index] for index in kept),
    )


def bars_round_changes(phrase: Phrase) -> tuple[tuple[int, int], ...]:
    """Return, for each crossing into another chord or bar, the bars from which and into which it leads.

    A change inside a bar has that bar alone. Each pair stands once, in order.
    """
    inside = {(change.bar, change.bar) for change in phrase.changes if change.beat > 1}
    over = {(number, number + 1) for number in range(1, phrase.full_bars)}
    return tuple(sorted(inside | over))


def _struck(events: Sequence[Event]) -> tuple[Event, ...]:
    """Return the events of a bar whose first note is not held into it."""
    return (replace(events[0], tie_in=False), *events[1:])


def _moved(change: ChangeAt, first: int) -> ChangeAt:
    """Return a change counted from a bar; one that began before it starts with it."""
    if change.bar < first:
        return ChangeAt(1, type(change.beat)(1), change.chord)
    return replace(change, bar=change.bar - first + 1)


def _within_slurs(rows: Sequence[Sequence[Event]]) -> list[tuple[Event, ...]]:
    """Return rows of events in which every slur that ends has begun, and every one that begins ends."""
    depth = 0
    found: list[list[Event]] = []
    for row in rows:
        found.append([])
        for event in row:
            closes = min(event.slurs_close, depth)
            depth += event.slurs_open - closes
            found[-1].append(replace(event, slurs_close=closes))
    for own in reversed(found):
        for index in range(len(own) - 1, -1, -1):
            taken = min(depth, own[index].slurs_open)
            own[index] = replace(own[index], slurs_open=own[index].slurs_open - taken)
            depth -= taken
    return [tuple(own) for own in found]
