"""Repeats written out: in which order the bars of a score sound."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from shedbook.errors import ReadError

MOST_BARS = 20_000
"""How many bars a line may have when its repeats are written out."""


@dataclass(slots=True)
class Signs:
    """The repeat signs of one bar: `times` is 0 where no backward repeat ends it.

    `ending` holds the numbers of the ending that the bar belongs to, None outside endings;
    `ends` says that the ending stops with this bar.
    """

    forward: bool = False
    times: int = 0
    ending: frozenset[int] | None = None
    ends: bool = False


def unrolled(signs: Sequence[Signs], name: str) -> list[int]:
    """Return the indices of the bars in the order in which they sound.

    Raises:
        ReadError: if that makes more bars than a line may have.
    """
    order: list[int] = []
    start, turn, index = 0, 1, 0
    while index < len(signs):
        bar = signs[index]
        if bar.forward and index != start:
            start, turn = index, 1
        if bar.ending is not None and turn not in bar.ending and not _must_serve(signs, index, turn):
            index += 1
            continue
        order.append(index)
        if len(order) > MOST_BARS:
            raise ReadError(
                f"{name} has more than {MOST_BARS} bars when its repeats are written out.",
                hint="Cut the score into pieces, or take out repeats.",
            )
        if bar.times and turn < _turns(signs, index):
            index, turn = start, turn + 1
            continue
        if bar.times or (bar.ends and not _followed(signs, index)):
            start, turn = index + 1, 1
        index += 1
    return order


def _group(signs: Sequence[Signs], index: int) -> range:
    """Return the bars of the endings that stand together with the one at `index`."""
    first = last = index
    while first > 0 and signs[first - 1].ending is not None:
        first -= 1
    while last + 1 < len(signs) and signs[last + 1].ending is not None:
        last += 1
    return range(first, last + 1)


def _must_serve(signs: Sequence[Signs], index: int, turn: int) -> bool:
    """Say whether an ending is played on a turn that it does not name, since no other one is."""
    ending = signs[index].ending or frozenset()
    later = any(turn in (signs[at].ending or ()) for at in _group(signs, index) if at > index)
    return not later and turn < min(ending, default=1)


def _followed(signs: Sequence[Signs], index: int) -> bool:
    return index + 1 < len(signs) and signs[index + 1].ending is not None


def _turns(signs: Sequence[Signs], index: int) -> int:
    """Return how often what stands before a backward repeat is played in all."""
    if signs[index].ending is None:
        return signs[index].times
    endings = {signs[at].ending or frozenset() for at in _group(signs, index)}
    highest = max((number for ending in endings for number in ending), default=1)
    # A first ending alone is passed over on the second turn.
    return highest + 1 if len(endings) == 1 else highest
