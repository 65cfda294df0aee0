"""What is looked at when a note is weighed against another that may have been meant in its place.

A feature is the name of a table of `tables.line_figures` with a key into it. The figures of all features of
a line add up; two lines that differ in one note differ only in the features that are returned here.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from typing import NamedTuple

from shedbook.analysis.proof.slips.tables.chord_kinds import ROWS
from shedbook.analysis.proof.slips.typed_line import MEMBERSHIP, OFF, Shapes, TypedLine, size_class

Key = tuple[int, ...]
Feature = tuple[str, Key]

_OCTAVE = 12
_WIDEST, _WIDEST_OVER_REST, _FARTHEST = 13, 16, 10
_AROUND, _CLOSE = 8, 6
"""How many notes on each side are the surroundings of a note, and how many give its register."""

_FAR = 16
"""How many notes on each side may still speak for a note over the same chord."""

_LAGS = (2, 3, 4, 6, 8)
"""After how many notes an interval may come back where a line moves in cells [common practice]."""

_SIZE_OF_STEP = (0, 1, 2, 3, 3, 4, 4, 4)

COLLECTIONS = tuple(
    sum(1 << (tonic + step) % 12 for step in steps)
    for steps in ((0, 2, 4, 5, 7, 9, 11), (0, 2, 3, 5, 7, 8, 11), (0, 2, 3, 5, 7, 9, 11))
    for tonic in range(12)
)
"""The major, harmonic minor and melodic minor scales, as bits [common practice]."""


class Surroundings(NamedTuple):
    """What stands around a note whatever its own pitch is.

    `sounds` counts the twelve sounds near it, `keys` are the scales that hold most of them and of the chord,
    `middle` is the mean pitch close by, None where there is none; `beyond` are the sounds near it that are
    not its neighbours.
    """

    sounds: list[int]
    beyond: list[int]
    keys: list[int]
    middle: float | None


def surroundings(line: TypedLine, at: int) -> Surroundings:
    """Return what stands around a note."""
    midi = line.midi
    sounds, beyond, close = [0] * 12, [0] * 12, []
    for other in range(max(0, at - _AROUND), min(len(midi), at + _AROUND + 1)):
        away = abs(other - at)
        if not away:
            continue
        sounds[midi[other] % 12] += 1
        if away > 1:
            beyond[midi[other] % 12] += 1
        if away <= _CLOSE:
            close.append(midi[other])
    weight = sounds.copy()
    for tone in ROWS[line.kind[at]].chord:
        weight[(tone + line.root[at]) % 12] += 2
    held = [
        sum(many for sound, many in enumerate(weight) if collection >> sound & 1)
        for collection in COLLECTIONS
    ]
    most = max(held)
    keys = [collection for collection, many in zip(COLLECTIONS, held, strict=True) if many == most]
    return Surroundings(sounds, beyond, keys, sum(close) / len(close) if close else None)


def note_features(
    line: TypedLine, shapes: Shapes, around: Surroundings, at: int, pitch: int
) -> list[Feature]:
    """Return the features that depend on one note of a line, as if its MIDI number were `pitch`.

    `shapes` are those of the line as written, `around` the surroundings of the note.
    """
    intervals = shapes.intervals.copy()
    if at:
        intervals[at - 1] = pitch - line.midi[at - 1]
    if at < len(intervals):
        intervals[at] = line.midi[at + 1] - pitch
    return [
        *_over_the_chord(line, around, at, pitch),
        *_next_to_its_neighbours(line, intervals, at, pitch),
        *_from_chord_tone_to_chord_tone(line, at, pitch),
        *_in_its_register(around, pitch),
        *_coming_back(shapes, intervals, at),
    ]


def _over_the_chord(line: TypedLine, around: Surroundings, at: int, pitch: int) -> Iterator[Feature]:
    """What the note is over its chord, in the key around it, and whether the line says it elsewhere."""
    kind, span, sound = line.kind[at], line.span[at], pitch % 12
    degree = (sound - line.root[at]) % 12
    member, accented = MEMBERSHIP[kind][degree], line.stress[at] > OFF
    yield "degree", (kind, degree, line.beside[span] >> sound & 1, accented)
    holding = sum(1 for collection in around.keys if collection >> sound & 1)
    in_key = 0 if not holding else 2 if holding == len(around.keys) else 1
    yield "key", (in_key, member, accented)
    beside = around.beyond[(sound + 1) % 12] + around.beyond[(sound - 1) % 12]
    yield "said near by", (min(around.sounds[sound], 3), min(beside, 3), member)
    said = clash = 0
    for other in range(max(0, at - _FAR), min(len(line.midi), at + _FAR + 1)):
        if line.span[other] == span and other != at:
            gap = (line.midi[other] - pitch) % 12
            said = said or gap == 0
            clash += gap in (1, 11) and abs(other - at) > 1
    yield "said over the chord", (min(clash, 2), said, member)


def _next_to_its_neighbours(line: TypedLine, intervals: list[int], at: int, pitch: int) -> Iterator[Feature]:
    """How the line goes into the note and its neighbours, and how it goes on."""
    places = range(max(0, at - 1), min(len(line.midi) - 1, at + 1) + 1)
    members = {place: _member(line, place, line.midi[place]) for place in _with_neighbours(line, places)}
    members[at] = _member(line, at, pitch)
    yield from _motion(line, intervals, members, places)
    yield from _over_rests(line, intervals, (at - 1, at))


def octave_features(
    line: TypedLine, intervals: list[int], first: int, last: int, shift: int
) -> list[Feature]:
    """Return the features that depend on the octave of the notes `first` to `last` of a line.

    `intervals` are those of the line in which the notes are moved by `shift` half steps, 0 for the line as
    it is written.
    """
    edges = {first - 1, first, last, last + 1}
    places = sorted(place for place in edges if 0 <= place < len(line.midi))
    members = {place: _member(line, place, line.midi[place]) for place in _with_neighbours(line, places)}
    found = list(_motion(line, intervals, members, places))
    found += _over_rests(line, intervals, (first - 1, last))
    outside = [
        line.midi[place]
        for place in (*range(max(0, first - _CLOSE), first), *range(last + 1, last + 1 + _CLOSE))
        if place < len(line.midi)
    ]
    if outside:
        middle = sum(outside) / len(outside)
        for place in {first, last}:
            away = round((line.midi[place] + shift - middle) / 2)
            found.append(("register", (_clip(away, _FARTHEST),)))
    return found


def _with_neighbours(line: TypedLine, places: Iterable[int]) -> set[int]:
    """Return places of a line with those beside them."""
    wanted = {near for place in places for near in (place - 1, place, place + 1)}
    return {place for place in wanted if 0 <= place < len(line.midi)}


def _member(line: TypedLine, place: int, pitch: int) -> int:
    return MEMBERSHIP[line.kind[place]][(pitch - line.root[place]) % 12]


def _motion(
    line: TypedLine, intervals: list[int], members: Mapping[int, int], places: Iterable[int]
) -> Iterator[Feature]:
    """How the line goes into notes and out of them."""
    last = len(line.midi) - 1
    for place in places:
        come = intervals[place - 1] if place and not line.parted[place - 1] else None
        go = intervals[place] if place < last and not line.parted[place] else None
        member = members[place]
        if come is not None and go is not None:
            size, onward = _size(come), _size(go)
            yield "turn", (_clip(come, _WIDEST), _clip(go, _WIDEST))
            yield "frame", (_clip(come + go, _WIDEST),)
            yield "motion", (member, size, onward, (come > 0) == (go > 0), line.stress[place] > OFF)
            yield "company", (
                members[place - 1], member, members[place + 1], min(size, 3), min(onward, 3),
            )  # fmt: skip
        elif come is not None:
            yield "last", (member, _size(come))
        elif go is not None:
            yield "first", (member, _size(go))


def _over_rests(line: TypedLine, intervals: list[int], places: Iterable[int]) -> Iterator[Feature]:
    """Which intervals lie over a rest, after each of some places."""
    for place in places:
        if 0 <= place < len(intervals) and line.parted[place]:
            yield "over a rest", (_clip(intervals[place], _WIDEST_OVER_REST),)


def _from_chord_tone_to_chord_tone(line: TypedLine, at: int, pitch: int) -> Iterator[Feature]:
    """Which degree leads into the note, and which it leads to, each over the later note's chord."""
    for place, name in ((at, "degree before"), (at + 1, "degree after")):
        if 0 < place < len(line.midi) and not line.parted[place - 1]:
            before = pitch if place - 1 == at else line.midi[place - 1]
            after = pitch if place == at else line.midi[place]
            root = line.root[place]
            yield name, (line.kind[place], (before - root) % 12, (after - root) % 12, after > before)


def _in_its_register(around: Surroundings, pitch: int) -> Iterator[Feature]:
    """How far the note lies from the notes close by, in whole steps."""
    if around.middle is not None:
        yield "register", (_clip(round((pitch - around.middle) / 2), _FARTHEST),)


def _coming_back(shapes: Shapes, intervals: list[int], at: int) -> Iterator[Feature]:
    """Whether the intervals at the note come back: after a few notes, and in runs of two and three."""
    many = len(intervals)
    again = 0
    for place in (at - 1, at):
        if 0 <= place < many and intervals[place]:
            for lag in _LAGS:
                again += place >= lag and intervals[place - lag] == intervals[place]
                again += place + lag < many and intervals[place + lag] == intervals[place]
    yield "interval again", (min(again, 6),)
    pairs = 0
    for place in range(max(0, at - 2), min(at, many - 2) + 1):
        pair = (intervals[place], intervals[place + 1])
        if pair != (0, 0) and shapes.pairs[pair]:
            near = range(max(0, place - 2), min(place + 2, many - 2) + 1)
            old = shapes.intervals
            pairs += shapes.pairs[pair] > sum((old[one], old[one + 1]) == pair for one in near)
    yield "pair again", (pairs,)
    threes = 0
    for place in range(max(0, at - 3), min(at, many - 3) + 1):
        three = (intervals[place], intervals[place + 1], intervals[place + 2])
        if shapes.threes[three]:
            near = range(max(0, place - 3), min(place + 3, many - 3) + 1)
            old = shapes.intervals
            threes += shapes.threes[three] > sum(tuple(old[one : one + 3]) == three for one in near)
    yield "three again", (min(threes, 3),)
    if 0 < at < many:
        shape = (size_class(intervals[at - 1]), size_class(intervals[at]))
        near = range(max(0, at - 2), min(at, many - 2) + 1)
        old = shapes.intervals
        here = sum((size_class(old[one]), size_class(old[one + 1])) == shape for one in near)
        yield "shape again", (min(shapes.sizes[shape] - here, 4),)


def _clip(interval: int, widest: int) -> int:
    return max(-widest, min(widest, interval))


def _size(interval: int) -> int:
    """Return the size of an interval, 0 to 5: unison, half step, whole step, third, to a fifth, wider."""
    size = abs(interval)
    return _SIZE_OF_STEP[size] if size < len(_SIZE_OF_STEP) else 5
