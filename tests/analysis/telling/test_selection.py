"""The best set of remarks, against brute force over all sets; the rules of it are the project's design."""

from __future__ import annotations

from itertools import combinations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from shedbook.analysis.telling.remark import ALONG, ELSEWHERE, PRACTICE, Remark
from shedbook.analysis.telling.selection import LEAST_WORTH, best_set, clash, worths

remarks = st.lists(
    st.builds(
        lambda kind, worth, first, length, topic, part: Remark(
            kind, worth, first, {}, frozenset(range(first, first + length)), topic, part
        ),
        st.sampled_from(["a", "b", "c", "d", "e", "f"]), st.integers(20, 95), st.integers(0, 12),
        st.integers(0, 5), st.sampled_from(["", "x", "y"]),
        st.sampled_from([ALONG, ALONG, ALONG, PRACTICE, ELSEWHERE]),
    ),
    min_size=1, max_size=9,
)  # fmt: skip


@given(remarks, st.integers(1, 5))
@settings(max_examples=150, deadline=None)
def test_no_other_set_is_worth_more(offered: list[Remark], room: int) -> None:
    worth = worths(offered)
    able = [at for at in range(len(offered)) if worth[at] >= LEAST_WORTH]
    best = 0
    for size in range(1, room + 1):
        for some in combinations(able, size):
            if not any(clash(offered[a], offered[b]) for a, b in combinations(some, 2)):
                best = max(best, sum(worth[at] for at in some))
    chosen = best_set(offered, room)
    places = [next(at for at, one in enumerate(offered) if one is remark) for remark in chosen]
    assert len(chosen) <= room
    assert places == sorted(places)
    assert not any(clash(a, b) for a, b in combinations(chosen, 2))
    if able:
        assert sum(worth[at] for at in places) == best
    else:
        assert len(chosen) == 1


def one(kind: str, worth: int, *about: int, part: int = ALONG, topic: str = "") -> Remark:
    return Remark(kind, worth, min(about, default=0), {}, frozenset(about), topic, part)


@pytest.mark.parametrize(
    ("first", "second", "clashes"),
    [
        (one("a", 50, 1, 2), one("b", 50, 2, 3), False),  # one note of two
        (one("a", 50, 1, 2), one("b", 50, 1, 2, 3), True),
        (one("a", 50, 1), one("b", 50, 1, 2, 3), True),
        (one("a", 50), one("b", 50), False),
        (one("a", 50, part=PRACTICE), one("b", 50, part=PRACTICE), True),  # there is one thing to practise
        (one("a", 50, 1, part=PRACTICE), one("b", 50, 1), False),
    ],
)
def test_what_may_not_be_told_together(first: Remark, second: Remark, *, clashes: bool) -> None:
    assert clash(first, second) == clash(second, first) == clashes


def test_a_topic_told_again_is_worth_less() -> None:
    assert worths([one("a", 60, 1, topic="x"), one("b", 80, 2, topic="x"), one("c", 70, 3)]) == [36, 80, 70]


def test_what_says_the_same_is_told_once() -> None:
    both = [one("a", 60, 1), one("a", 60, 5)]
    assert len(best_set(both, 4, gist=lambda remark: remark.kind)) == 1
    assert len(best_set(both, 4, gist=lambda remark: remark.first)) == 2
