"""The proof-reader: it asks every rule that is not silenced, and puts what they find in order."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from fractions import Fraction

from shedbook.analysis.account import Account
from shedbook.analysis.proof.finding import Finding
from shedbook.analysis.proof.rules import BOOK_RULES, PHRASE_RULES, RULES, SILENCE_RULES, SLIP_RULES
from shedbook.analysis.proof.slips import suspicions


def proof(
    account: Account, *, silenced: Collection[str] = (), also_known: Collection[str] = ()
) -> tuple[Finding, ...]:
    """Return the findings of a phrase in order of place, then of the rules' names.

    Rules that the phrase silences, or the caller by `silenced`, are left out. `also_known` names rules of
    others that a phrase may silence, such as those of editions.
    """
    quiet = _silenced(account, silenced)
    found = [finding for rule in PHRASE_RULES if rule.name not in quiet for finding in rule(account)]
    told = [rule for rule in SLIP_RULES if rule.name not in quiet]
    if told:
        suspected = suspicions(account)
        found += [finding for rule in told for finding in rule(account, suspected)]
    found += unknown_silences([rule for rule, _ in account.phrase.silence], quiet, also_known)
    return tuple(sorted(found, key=lambda one: (one.bar or 0, one.beat or Fraction(0), one.rule)))


def proof_book(accounts: Sequence[Account], *, silenced: Collection[str] = ()) -> tuple[Finding, ...]:
    """Return the findings between the phrases of a book, in the order of its phrases.

    Each finding names two phrases by their place, counted from 0: `phrase` is the later one, and what it
    silences is left out.
    """
    found = [
        finding
        for rule in BOOK_RULES
        for finding in rule(accounts)
        if rule.name not in _silenced(accounts[finding.phrase], silenced)
    ]
    return tuple(sorted(found, key=lambda one: one.phrase))


def unknown_silences(
    rules: Collection[str], silenced: Collection[str], also_known: Collection[str] = ()
) -> tuple[Finding, ...]:
    """Return a finding for each of the names `rules` that are silenced somewhere and that nobody knows.

    `silenced` are the rules that are silenced here; the rule on silences may be one of them. `also_known`
    names the rules of others.
    """
    known = (*RULES, *also_known)
    return tuple(
        finding for rule in SILENCE_RULES if rule.name not in silenced for finding in rule(rules, known)
    )


def _silenced(account: Account, silenced: Collection[str]) -> set[str]:
    """Return the rules that are silenced for a phrase, by itself or by the caller."""
    return {*silenced, *(rule for rule, _ in account.phrase.silence)}
