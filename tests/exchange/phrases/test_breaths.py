"""Where a line breathes, checked against every division of short lines and against common practice."""

from __future__ import annotations

from itertools import combinations, pairwise
from math import log

import pytest

from shedbook.exchange.phrases import breaths
from shedbook.exchange.phrases.breaths import breaths_of
from shedbook.phrase.fields import phrase_from_fields
from shedbook.phrase.model import Sounding, sounding_notes


def notes_of(line: str) -> tuple[Sounding, ...]:
    bars = line.count("|") + 1
    return sounding_notes(
        phrase_from_fields({"title": "x", "changes": " | ".join(["C7"] * bars), "line": line})
    )


LINES = [
    # Common practice: a line breathes at rests, and not inside a run.
    ("1/8 c4 d e f g a b c5 | 1/1 - | 1/8 c4 d e f g a b c5", [(0, 7), (8, 15)]),
    ("1/8 c4 d e f g a b c5 | d e f g a g f e", [(0, 15)]),
    ("1/8 c4 d e f 1/2 - | 1/8 g4 a b c5 d e f g", [(0, 3), (4, 11)]),
    ("1/8 c4 d e f g a b - | g4 a b c5 d e f g", [(0, 14)]),
]


@pytest.mark.parametrize(("line", "phrases"), LINES)
def test_breaths(line: str, phrases: list[tuple[int, int]]) -> None:
    assert [(one.first, one.last) for one in breaths_of(notes_of(line))] == phrases


@pytest.mark.parametrize("line", [line for line, _ in LINES])
def test_no_division_is_cheaper(line: str) -> None:
    notes = notes_of(line)[:12]
    shares = [1.0, *(breaths._share(one, other) for one, other in pairwise(notes)), 1.0]

    def cost(ends: tuple[int, ...]) -> float:
        marks = (0, *ends, len(notes))
        inside = sum(-log(1 - shares[at]) for at in range(1, len(notes)) if at not in ends)
        lengths = sum(breaths._length_cost(last - first) for first, last in pairwise(marks))
        return inside + lengths + sum(-log(shares[at]) for at in ends)

    places = range(1, len(notes))
    least = min(cost(ends) for many in range(4) for ends in combinations(places, many))
    found = tuple(one.first for one in breaths_of(notes))[1:]
    assert cost(found) == pytest.approx(least)


def test_no_notes_have_no_breaths() -> None:
    assert breaths_of(()) == ()
