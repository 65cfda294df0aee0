"""The written heads of a phrase, one after another, with what each needs on a staff.

Tied values are heads of their own.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from shedbook.phrase.accidentals import Reader
from shedbook.phrase.model import MARKS, Bar, Event, Value
from shedbook.theory.pitch import Pitch


class ScoreNote(NamedTuple):
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


def score_notes(bars: Sequence[Bar], fifths: int = 0) -> Iterator[tuple[ScoreNote, ...]]:
    """Yield the heads of each bar; `fifths` is the key signature, which accidentals count from."""
    slurs: list[int] = []
    reader = Reader(fifths)
    for index, bar in enumerate(bars):
        following = bars[index + 1] if index + 1 < len(bars) else None
        heads: list[ScoreNote] = []
        for place, event in enumerate(bar.events):
            goes_on = place + 1 == len(bar.events) and following is not None and following.events[0].tie_in
            heads += _heads(event, goes_on, slurs)
        yield tuple(_with_sign(head, reader, over_bar=not place) for place, head in enumerate(heads))
        reader.bar_line()


def _heads(event: Event, goes_on: bool, slurs: list[int]) -> Iterator[ScoreNote]:
    """Yield the heads of one event; `slurs` are the numbers of those that are open."""
    if event.pitch is None:
        yield from (ScoreNote(value) for value in event.values)
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
        yield ScoreNote(
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


def _with_sign(head: ScoreNote, reader: Reader, *, over_bar: bool) -> ScoreNote:
    """Return a head that says whether its accidental is written."""
    if head.pitch is None:
        return head
    if head.tied_in:
        reader.tied(head.pitch, over_bar=over_bar)
        return head
    for pitch in head.grace:
        reader.needs(pitch)
    return head._replace(accidental=reader.needs(head.pitch))
