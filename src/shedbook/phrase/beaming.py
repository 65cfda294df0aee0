"""Which notes of a bar stand under one beam, and which belong to one tuplet.

A bar is a sequence of written values here, in which tied values count one by one.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from functools import lru_cache

from shedbook.phrase.model import Value
from shedbook.theory.metre import Metre

Span = tuple[int, int]
"""The index of the first value of a beam or tuplet, and the index after its last."""


@lru_cache(maxsize=1024)
def tuplets_and_beams(
    values: tuple[Value, ...], rests: tuple[bool, ...], first: Fraction, metre: Metre
) -> tuple[list[Span], list[Span]]:
    """Return the tuplets and the beams of a bar. Results are kept, because a rhythm is the same in all keys.

    Args:
        values: the values of the bar.
        rests: for each value, whether it is a rest.
        first: where the first value starts, in quarters from the bar line.
        metre: the metre.
    """
    starts = starts_of(values, first)
    return tuplets(values, starts), beams(values, starts, rests, metre)


def starts_of(values: Sequence[Value], first: Fraction) -> list[Fraction]:
    """Return where each value starts, in quarters from the bar line; the first one starts at `first`."""
    starts, place = [], first
    for value in values:
        starts.append(place)
        place += value.quarters
    return starts


def tuplets(values: Sequence[Value], starts: Sequence[Fraction]) -> list[Span]:
    """Return the tuplets of a bar.

    A tuplet ends where its values fill a whole number of its own unit. Where they are of several kinds, an
    end on a beat is preferred. So a quarter and an eighth make one triplet, and so do an eighth, two
    sixteenths and an eighth.

    Args:
        values: the values of the bar.
        starts: where each starts, in quarters from the bar line.
    """
    spans: list[Span] = []
    index = 0
    while index < len(values):
        value = values[index]
        if value.actual == value.normal:
            index += 1
            continue
        end = _tuplet_end(values, starts, index)
        spans.append((index, end))
        index = end
    return spans


def _tuplet_end(values: Sequence[Value], starts: Sequence[Fraction], first: int) -> int:
    ratio = (values[first].actual, values[first].normal)
    length, shortest = Fraction(0), 0
    alike, closed = True, None
    last = first
    for last in range(first, len(values)):
        value = values[last]
        if (value.actual, value.normal) != ratio:
            return closed or last
        length += value.quarters
        shortest = max(shortest, value.part)
        alike = alike and (value.part, value.dots) == (values[first].part, values[first].dots)
        if length % Fraction(4 * value.normal, shortest) == 0:
            if alike or (starts[first] + length).denominator == 1:
                return last + 1
            closed = closed or last + 1
    return closed or last + 1


def beams(
    values: Sequence[Value], starts: Sequence[Fraction], rests: Sequence[bool], metre: Metre
) -> list[Span]:
    """Return the beams of a bar: runs of two or more notes shorter than a quarter within one window.

    No window reaches over the middle of the bar. In simple metres eighths are beamed by half bars, four in
    4/4, and six in 3/4 where nothing else stands in the bar; sixteenths and tuplets are beamed by beats
    (common practice).

    Args:
        values: the values of the bar.
        starts: where each starts, in quarters from the bar line.
        rests: for each value, whether it is a rest.
        metre: the metre.
    """
    windows = _windows(values, starts, rests, metre)
    spans: list[Span] = []
    first: int | None = None
    for index in range(len(values) + 1):
        inside = index < len(values) and values[index].part >= 8 and not rests[index]
        if first is not None and (not inside or windows[index] != windows[first]):
            if index - first > 1:
                spans.append((first, index))
            first = None
        if inside and first is None:
            first = index
    return spans


def _windows(
    values: Sequence[Value], starts: Sequence[Fraction], rests: Sequence[bool], metre: Metre
) -> list[tuple[int, int]]:
    """Return the window of each value: its group of beats, and its beat (0 where the group is one window)."""
    edges = _group_edges(metre)
    groups = [sum(1 for edge in edges if edge <= start) for start in starts]
    lengths = [after - edge for edge, after in zip(edges, [*edges[1:], metre.bar_quarters], strict=True)]
    split = set()
    for group in set(groups):
        members = [index for index, found in enumerate(groups) if found == group]
        if metre.unit <= 4 and not _joins(members, values, rests, lengths[group - 1] == 3):
            split.add(group)
    result = []
    for group, start in zip(groups, starts, strict=True):
        beat = int((start - edges[group - 1]) // 1) if group in split else 0
        result.append((group, beat))
    return result


def _group_edges(metre: Metre) -> list[Fraction]:
    """Return the places where beams must break, in quarters from the bar line."""
    sizes = []
    for size in metre.groups:
        quarters = size * metre.beat_quarters
        sizes += [Fraction(2), Fraction(2)] if metre.unit == 4 and size == 4 else [quarters]
    edges, place = [Fraction(-64)], Fraction(0)
    for quarters in sizes:
        edges.append(place)
        place += quarters
    return edges[1:]


def _joins(members: Sequence[int], values: Sequence[Value], rests: Sequence[bool], three: bool) -> bool:
    """Say whether a group of beats is beamed as a whole.

    It is where all its short values are plain eighths; three beats must hold nothing else, not even a rest.
    """
    short = [index for index in members if values[index].part >= 8]
    if any(values[index].part > 8 or values[index].actual != values[index].normal for index in short):
        return False
    return not three or (len(short) == len(members) and not any(rests[index] for index in members))
