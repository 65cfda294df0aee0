"""Which suspicions are told: the likeliest ones that do not explain the same notes."""

from __future__ import annotations

from math import exp, log1p

from shedbook.analysis.account import Account
from shedbook.analysis.naming.sayings import Saying, saying
from shedbook.analysis.proof.slips.candidates import ACCIDENTAL, STRAY
from shedbook.analysis.proof.slips.spelling import meant_pitch
from shedbook.analysis.proof.slips.suspicions import PLACE, QUALITY, Suspicion, suspected
from shedbook.analysis.proof.slips.tables.slip_kinds import GRAVE_FROM, ROWS

TOLD_FROM = {row.name: row.told_from for row in ROWS}
"""For each kind of slip the odds from which on it is told."""

_HARDLY = -400
"""Odds of one in fifty, below which a place does not compete with others."""

_SAME_LETTER = 80
"""By how much a mend under the written letter goes before one under another letter [the project's design].

It decides which of two mends is told; the odds stay what they are.
"""

_ROUND_ODDS = (2, 3, 4, 5, 7, 10, 15, 20, 30, 50, 100)
"""The numbers in which odds are told: finer ones would say more than is known."""


def suspicions(account: Account) -> tuple[Suspicion, ...]:
    """Return the slips that are likely enough to be told, the likeliest first."""
    return tuple(one for one in weighed(account) if one.log_odds >= TOLD_FROM[one.kind])


def weighed(account: Account) -> tuple[Suspicion, ...]:
    """Return the slips of a phrase with their odds against one another, the unlikely ones too.

    Of several that stand on the same notes, or on neighbours, only the likeliest is kept: one slip makes its
    surroundings look wrong too. The places that are left compete: the odds are those that the slip is there
    and nowhere else, for one slip in a phrase is likelier than two, and a line that is strange in many places
    is a strange line.
    """
    found = [one for one in suspected(account) if one.log_odds >= _HARDLY]
    found.sort(key=lambda one: (-one.log_odds - _letter_kept(account, one), one.first, one.last, one.shift))
    chosen: list[Suspicion] = []
    for one in found:
        if not any(_same_cause(one, other) for other in chosen):
            chosen.append(one)
    together = sum(exp(one.log_odds / 100) for one in chosen)
    return tuple(_against_the_others(one, together) for one in chosen)


def _letter_kept(account: Account, one: Suspicion) -> int:
    """Return what speaks for a mend under the letter that is written: an accidental is lost more easily."""
    if one.kind not in (ACCIDENTAL, STRAY):
        return 0
    note = account.notes[one.first]
    return _SAME_LETTER if meant_pitch(note, one.shift).letter == note.pitch.letter else 0


def _against_the_others(one: Suspicion, together: float) -> Suspicion:
    """Return a suspicion with the odds that it is the one slip; `together` are all odds added."""
    others = max(0.0, together - exp(one.log_odds / 100))
    return one._replace(log_odds=one.log_odds - round(100 * log1p(others)))


def _same_cause(one: Suspicion, other: Suspicion) -> bool:
    """Whether two suspicions may come from one slip: they touch, or both are about the changes."""
    if PLACE in (one.kind, other.kind):
        return QUALITY in (one.kind, other.kind) or one.kind == other.kind
    if one.kind == other.kind == QUALITY:
        return one.first == other.first
    return one.first <= other.last + 1 and other.first <= one.last + 1


def severity_of(log_odds: int) -> str:
    """Return how grave a slip is, by its odds."""
    return next((severity for severity, least in GRAVE_FROM if log_odds >= least), "advice")


def told_odds(log_odds: int) -> Saying:
    """Return the odds as people say them: "three to one", "even odds", "one chance in five"."""
    odds = exp(log_odds / 100)
    if 2 / 3 < odds < 3 / 2:
        return saying("finding.odds.even")
    if odds > 1:
        return saying("finding.odds.to one", n=_rounded(odds))
    return saying("finding.odds.one in", n=_rounded((1 + odds) / odds))


def _rounded(number: float) -> int:
    """Return the number of _ROUND_ODDS that is nearest in proportion."""
    return min(_ROUND_ODDS, key=lambda one: max(one / number, number / one))
