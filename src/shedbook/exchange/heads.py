"""The written heads of a phrase, one after another, with what each needs on a staff.

Tied values are heads of their own. An accidental holds for its line or space until the bar line; a note
tied on needs none (common practice).
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction
from typing import NamedTuple

from shedbook.phrase.model import MARKS, Bar, Event, Value
from shedbook.theory.pitch import Pitch

_SHARPS = "FCGDAEB"


class Head(NamedTuple):
    """One written note or rest.

    `tied_in` and `tied_out` say that it is tied to the head before and after. `opens` and `closes` are
    the numbers of the slurs that begin and end on it. `accidental` says that its sign must be written.
    """

    value: Value
    pitch: Pitch | None = None
    tied_in: bool = False
    tied_out: bool = False
    marks: tuple[str, ...] = ()
    grace: tuple[Pitch, ...] = ()
    opens: tuple[int, ...] = ()
    closes: tuple[int, ...] = ()
    accidental: bool = False


def heads_of(bars: Sequence[Bar], fifths: int = 0) -> Iterator[tuple[Head, ...]]:
    """Yield the heads of each bar; `fifths` is the key signature, which accidentals count from."""
    slurs: list[int] = []
    for index, bar in enumerate(bars):
        following = bars[index + 1] if index + 1 < len(bars) else None
        shown: dict[int, int] = {}
        heads: list[Head] = []
        for place, event in enumerate(bar.events):
            goes_on = place + 1 == len(bar.events) and following is not None and following.events[0].tie_in
            heads += _heads(event, goes_on, slurs)
        yield tuple(_with_sign(head, shown, fifths) for head in heads)


def _heads(event: Event, goes_on: bool, slurs: list[int]) -> Iterator[Head]:
    """Yield the heads of one event; `slurs` are the numbers of those that are open."""
    if event.pitch is None:
        yield from (Head(value) for value in event.values)
        return
    last = len(event.values) - 1
    closes = tuple(slurs.pop() for _ in range(min(event.slurs_close, len(slurs))))
    opens = []
    for _ in range(event.slurs_open):
        # A number in use by a slur that ends here may not begin another one on the same note.
        number = next(number for number in range(1, 64) if number not in slurs and number not in closes)
        slurs.append(number)
        opens.append(number)
    for index, value in enumerate(event.values):
        first = index == 0
        yield Head(
            value,
            event.pitch,
            tied_in=not first or event.tie_in,
            tied_out=index < last or goes_on,
            marks=_marks(event.marks, first, index == last),
            grace=event.grace if first else (),
            opens=tuple(opens) if first else (),
            closes=closes if index == last else (),
        )


def _marks(marks: tuple[str, ...], first: bool, last: bool) -> tuple[str, ...]:
    """Return the marks of one of several tied heads: a fall is at the end, a ghost note is one throughout."""
    return tuple(
        mark for mark in MARKS if mark in marks and (mark == "ghost" or (last if mark == "fall" else first))
    )


def _with_sign(head: Head, shown: dict[int, int], fifths: int) -> Head:
    """Return a head that says whether its accidental is written; `shown` holds those of the bar by step."""
    if head.pitch is None or head.tied_in:
        return head
    for pitch in head.grace:
        shown[pitch.step] = pitch.alteration
    expected = shown.get(head.pitch.step, _signature(head.pitch.letter, fifths))
    shown[head.pitch.step] = head.pitch.alteration
    return head._replace(accidental=expected != head.pitch.alteration)


def _signature(letter: str, fifths: int) -> int:
    """Return by how many half steps a key signature alters a letter."""
    if fifths >= 0:
        return 1 if letter in _SHARPS[:fifths] else 0
    return -1 if letter in _SHARPS[fifths:] else 0


def tuplets(values: Sequence[Value]) -> tuple[tuple[int, int], ...]:
    """Return the first and last index of each tuplet among the values of a bar.

    A tuplet ends where its values fill a whole number of its own longest unit's groups.
    """
    found: list[tuple[int, int]] = []
    index = 0
    while index < len(values):
        value = values[index]
        if value.actual == value.normal:
            index += 1
            continue
        last = _tuplet_end(values, index)
        found.append((index, last))
        index = last + 1
    return tuple(found)


def _tuplet_end(values: Sequence[Value], first: int) -> int:
    """Return the last index of the tuplet that begins at `first`."""
    ratio = values[first].actual, values[first].normal
    length, longest = Fraction(0), Fraction(0)
    for index in range(first, len(values)):
        value = values[index]
        if (value.actual, value.normal) != ratio:
            return index - 1
        length += value.quarters
        longest = max(longest, Fraction(4 * value.normal, value.part))
        if length % longest == 0:
            return index
    return len(values) - 1
