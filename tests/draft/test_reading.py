"""Lines read: what hovers, strays and comes back, against plain walks over each line by itself.

Source of the expectations: what `draft/tables/leanings.py` says of each in words, written again here.
"""

from __future__ import annotations

from collections import Counter
from itertools import pairwise
from random import Random

import numpy as np
import pytest
from numpy.typing import NDArray

from shedbook.draft.figures import weighing
from shedbook.draft.ground import ground_of
from shedbook.draft.leaning import figures_of
from shedbook.draft.lines import LineRules, Lines
from shedbook.draft.moods import SIZE_OF
from shedbook.draft.places import Place, places_of
from shedbook.draft.reading import motifs, read, stands_over
from shedbook.draft.rhythms import Rhythm, Rhythms, RhythmWishes

GROUND = ground_of("Dm7b5 | G7b9 | Cm6 | %")
RHYTHM = Rhythms(RhythmWishes(16, 4, "swing", 132)).drawn(3, Random(4))[0]
PLACES = places_of(RHYTHM, GROUND)


@pytest.fixture(scope="module")
def lines() -> NDArray[np.intp]:
    weights = weighing(figures_of("both", {}), PLACES, 57, 79, 68.0)
    return Lines(PLACES, LineRules(57, 79), weights).drawn(400, Random(2))


def hovers(line: list[int]) -> bool:
    few = any(len(set(line[at : at + 6])) < 4 for at in range(len(line) - 5))
    return few or any(line[at : at + 2] == line[at + 2 : at + 4] for at in range(len(line) - 3))


def strays(line: list[int], places: tuple[Place, ...]) -> bool:
    for at, note in enumerate(line[:-1]):
        if note % 12 in places[at].chord.inside:
            continue
        after = line[at + 1 : at + 3]
        there = [one % 12 in place.chord.strong for one, place in zip(after, places[at + 1 :], strict=False)]
        enclosed = len(after) > 1 and (note < after[1]) != (after[0] < after[1])
        if not there[0] and not (enclosed and there[1]):
            return True
    return False


def test_hovering_and_straying_are_found_note_by_note_and_in_the_whole(lines: NDArray[np.intp]) -> None:
    seen = read(lines, RHYTHM, PLACES)
    bad = [hovers(line) for line in lines.tolist()]
    lost = [strays(line, PLACES) for line in lines.tolist()]
    assert seen.lacks["no hovering"].tolist() == bad
    assert seen.lacks["chromatic notes"].tolist() == lost
    assert 0 < sum(bad) < len(bad)
    assert 0 < sum(lost) < len(lost)
    stand = stands_over(PLACES)
    throughout = np.all([stand(lines[:, : at + 1]) for at in range(lines.shape[1])], axis=0)
    assert throughout.tolist() == [not (one or other) for one, other in zip(bad, lost, strict=True)]


def test_lines_that_stand_are_drawn_as_often_as_those_that_are_sorted_out() -> None:
    """Notes come as often when others give way as when what hovers or strays is left out.

    Half the sum of the differences of shares; by chance alone it is about 0.04 with so many draws.
    """
    weights = weighing(figures_of("both", {}), PLACES, 57, 79, 68.0)
    space = Lines(PLACES, LineRules(57, 79), weights)
    stand = stands_over(PLACES)
    drawn = space.drawn(4000, Random(1), stand)
    assert not any(hovers(line) or strays(line, PLACES) for line in drawn[::40].tolist())
    plain = space.drawn(6000, Random(2))
    kept = np.all([stand(plain[:, : at + 1]) for at in range(plain.shape[1])], axis=0)
    for note in (0, len(PLACES) // 2, len(PLACES) - 1):
        one, other = Counter(drawn[:, note].tolist()), Counter(plain[kept, note].tolist())
        apart = sum(abs(one[at] / 4000 - other[at] / kept.sum()) for at in one | other) / 2
        assert apart < 0.07


def plain_motif(line: list[int], rhythm: Rhythm) -> tuple[int, int, int, bool]:
    """Return the longest cell that comes back, walked for one line; the first, but sooner one at once."""
    moves = [after - before for before, after in pairwise(line)]
    shape = [(move > 0) - (move < 0) for move in moves]
    shape = [sign * max(1, SIZE_OF[abs(move)] - 1) for sign, move in zip(shape, moves, strict=True)]
    best, where = 0, (0, 0, False)
    for apart in range(3, min(len(moves), 33)):
        run = 0
        for at in range(len(moves) - apart):
            alike = shape[at] == shape[at + apart] and rhythm.waits[at] == rhythm.waits[at + apart]
            run = min(run + 1, apart - 1) if alike else 0
            start = at + 1 - run
            inner = range(start + 1, at + 1)
            turns = any(abs(shape[one]) > 1 or shape[one] * shape[one - 1] < 0 for one in inner)
            here = range(min(start + 1, at + 1), at + 1)
            changes = any(rhythm.waits[one] != rhythm.waits[one - 1] for one in here)
            if run < (2 if changes else 3) or not turns:
                continue
            close = apart <= run + 2 and line[start] != line[start + apart]
            if run + 1 > best or (run + 1 == best and close and not where[2]):
                best, where = run + 1, (start, start + apart, close)
    return (best, *where)


def test_motifs_are_those_of_a_plain_walk(lines: NDArray[np.intp]) -> None:
    some = lines[:80]
    found = motifs(some, RHYTHM)
    seen = list(
        zip(
            found.notes.tolist(), found.first.tolist(), found.again.tolist(), found.near.tolist(), strict=True
        )
    )
    assert seen == [plain_motif(line, RHYTHM) for line in some.tolist()]
    assert len({one[0] for one in seen}) > 2
