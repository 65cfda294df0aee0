"""Which suspicions are told; the sums are checked against Bayes' rule by hand."""

from __future__ import annotations

import itertools
from math import exp, log

import pytest

from analysis.helpers import read
from shedbook.analysis.account import Account
from shedbook.analysis.naming.sayings import COMMAND_LINE
from shedbook.analysis.proof.slips.choosing import TOLD_FROM, severity_of, suspicions, told_odds, weighed
from shedbook.analysis.proof.slips.suspicions import suspected


@pytest.fixture(scope="module")
def two() -> Account:
    """A line with two slips."""
    line = "1/8 d4 f a c5 b4 a g e | f#4 g b d5 f e d b4 | eb4 g b d5 c b4 g e | 1/1 c4"
    return read("Dm7 | G7 | Cmaj7 | %", line)


@pytest.mark.parametrize(
    ("odds", "words"),
    [
        (1, "about even odds"), (3, "about 3 to one"), (12, "about 10 to one"), (1e9, "about 100 to one"),
        (1 / 3, "about one chance in 4"), (1 / 9, "about one chance in 10"), (0.5, "about one chance in 3"),
    ],
)  # fmt: skip
def test_odds_in_words(odds: float, words: str) -> None:
    assert told_odds(round(100 * log(odds))).said(COMMAND_LINE) == words


def test_severity_follows_odds() -> None:
    grades = [severity_of(odds) for odds in (300, 110, 109, -40, -41, -300)]
    assert grades == ["error", "error", "warning", "warning", "advice", "advice"]


def test_one_slip_in_a_phrase_is_likelier_than_two(two: Account) -> None:
    """Where two places compete, the odds of each are those against the other and none: o1 / (1 + o2)."""
    alone = {(one.kind, one.first, one.shift): one.log_odds for one in suspected(two)}
    together = weighed(two)
    assert len(together) >= 2
    odds = [exp(alone[one.kind, one.first, one.shift] / 100) for one in together]
    for one, own in zip(together, odds, strict=True):
        expected = 100 * log(own / (1 + sum(odds) - own))
        assert abs(one.log_odds - expected) <= 1


def test_only_what_is_likely_enough_is_told(two: Account) -> None:
    told = suspicions(two)
    assert set(told) <= set(weighed(two))
    assert all(one.log_odds >= TOLD_FROM[one.kind] for one in told)


def test_suspicions_do_not_touch(two: Account) -> None:
    places = sorted((one.first, one.last) for one in weighed(two) if one.kind not in ("quality", "place"))
    assert all(after[0] > before[1] + 1 for before, after in itertools.pairwise(places))
