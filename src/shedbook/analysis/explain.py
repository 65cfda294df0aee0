"""The explanation: what a teacher would say of a phrase, in five to twelve sentences.

Every sentence is a remark on the account. The remarks compete for room by weight; a light remark on notes
that a heavier one has explained is left out. What remains is told in the order of the line, then looking
back, then what to practise; each remark takes the build that differs from the sentence before it.
"""

from __future__ import annotations

from collections.abc import Iterator

from shedbook.analysis import crossings, looking_back, remarks
from shedbook.analysis.account import Account
from shedbook.analysis.remark import LAST, NARRATIVE, SUMMARY, Build, Remark
from shedbook.analysis.speaker import Speaker, capital, speaker

FEWEST, MOST = 5, 12
"""How many sentences an explanation has."""

_MUST = 90
"""Remarks of this weight are always told."""

_TOPIC_LIMITS = {"coverage": 2, "leap": 1, "sequence": 2, "colour": 4, "enclosure": 3}


def explain(account: Account, *, with_commentary: bool = True) -> tuple[str, ...]:
    """Return the sentences, the author's commentary first where there is one.

    Names are those of the account's reader: concert pitch, or the part of their instrument.
    """
    own = account.phrase.commentary.strip() if with_commentary else ""
    before = (own,) if own else ()
    if not account.notes:
        return (*before, "The phrase has no notes yet.")
    say = speaker(account)
    chosen = _choose(list(_all(account, say)), _room(account) - len(before))
    return before + tuple(_tell(chosen))


def _all(account: Account, say: Speaker) -> Iterator[Remark]:
    yield from crossings.opening(account, say)
    yield from crossings.crossings(account, say)
    yield from remarks.colours(account, say)
    yield from remarks.enclosures(account, say)
    yield from remarks.outside(account, say)
    yield from remarks.sequences(account, say)
    yield from remarks.strong_beats(account, say)
    yield from looking_back.coverage(account, say)
    yield from looking_back.shape(account, say)
    yield looking_back.practice(account, say)


def _room(account: Account) -> int:
    """How many sentences the music deserves: more notes and more chords give more to say."""
    notes, chords = len(account.notes), len(account.spans)
    return max(FEWEST, min(MOST, 4 + notes // 8 + min(4, chords - 1)))


def _choose(offers: list[Remark], room: int) -> list[Remark]:
    """Take the weightiest remarks that fit and do not say the same again."""
    chosen: list[Remark] = []
    topics: dict[str, int] = {}
    told: set[int] = set()
    for remark in sorted(offers, key=lambda one: (-one.weight, one.first, one.topic)):
        must = remark.weight >= _MUST
        if not must and (
            len(chosen) >= room or topics.get(remark.topic, 0) >= _TOPIC_LIMITS.get(remark.topic, MOST)
        ):
            continue
        if not must and remark.covers and remark.covers <= told:
            continue
        chosen.append(remark)
        topics[remark.topic] = topics.get(remark.topic, 0) + 1
        if remark.topic != "opening" or len(remark.covers) > 1:
            told |= remark.covers
    return chosen


def _tell(chosen: list[Remark]) -> Iterator[str]:
    """Order the remarks and give each a build unlike its neighbour's."""
    ordered = sorted(chosen, key=lambda one: (one.part, _order(one), one.last, -one.weight))
    used: dict[str, int] = {}
    before: Build | None = None
    heard_to = -1
    for remark in ordered:
        build = _build(remark, before, used, heard_to)
        used[build.kind] = used.get(build.kind, 0) + 1
        before = build
        heard_to = remark.last if remark.part == NARRATIVE else -1
        yield capital(build.text)


_SUMMARY_ORDER = ("outside", "lost", "strong beats", "coverage", "shape", "ending")


def _order(remark: Remark) -> int:
    if remark.part == NARRATIVE:
        return remark.first
    return _SUMMARY_ORDER.index(remark.topic) if remark.part == SUMMARY else LAST


def _build(remark: Remark, before: Build | None, used: dict[str, int], heard_to: int) -> Build:
    """Choose the build: never the neighbour's kind or first word if there is another, then the least used."""

    def worth(build: Build) -> tuple[bool, bool, int]:
        same = before is not None and build.kind == before.kind
        opens_alike = before is not None and _opening(build.text) == _opening(before.text)
        return same, opens_alike, used.get(build.kind, 0)

    able = [
        build
        for build in remark.builds
        if not build.goes_on or remark.first - 3 <= heard_to <= remark.first + 1
    ]
    return min(able or remark.builds, key=worth)


def _opening(text: str) -> str:
    return text.split()[0].lower()
