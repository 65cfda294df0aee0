"""The explanation: what a teacher would say of a phrase, in five to twelve sentences.

Every sentence is a remark on the account. The remarks compete for room by weight; a light remark on notes
that a heavier one has explained is left out. What remains is told in the order of the line, then looking
back, then what to practise; each remark takes the build that differs from the sentence before it.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from shedbook.analysis import crossings, looking_back, outside_notes, practice, remarks, strong_beats
from shedbook.analysis.account import Account
from shedbook.analysis.remark import LAST, NARRATIVE, SUMMARY, Build, Remark
from shedbook.analysis.speaker import Speaker, speaker
from shedbook.analysis.words import ENGLISH, Words, bar_pattern

FEWEST, MOST = 5, 12
"""How many sentences an explanation has."""

_MUST = frozenset(("opening", "outside", "lost", "strong beats", "practice", "scales"))
"""Topics that are always told."""

_FILLER = "inside"
"""What is told only where there is little else to say."""

_EXPLAINING = frozenset(("opening", "crossing", "enclosure"))
"""Topics that say of the notes they cover what each does."""

_LIMITS = {
    "coverage": 2,
    "leap": 1,
    "sequence": 2,
    "colour": 4,
    "enclosure": 3,
    "chord tones": 1,
    "crossing": 5,
}
"""How often a topic is told at most; a topic that is not named here is told once."""


def explain(account: Account, *, with_commentary: bool = True, words: Words = ENGLISH) -> tuple[str, ...]:
    """Return the sentences, the author's commentary first where there is one.

    Names are those of the account's reader: concert pitch, or the part of their instrument. `words` are those
    of the reader's language.
    """
    own = account.phrase.commentary.strip() if with_commentary else ""
    before = (own,) if own else ()
    if not account.notes:
        return (*before, words.sentence(words("no notes")))
    builds = told(account, fewer=len(before), words=words)
    return before + tuple(words.sentence(build.text) for build in builds)


def told(account: Account, *, fewer: int = 0, words: Words = ENGLISH) -> tuple[Build, ...]:
    """Return what is told of a phrase with notes, in order; `fewer` sentences than there is room for."""
    say = speaker(account, words)
    room = max(FEWEST, _room(account) - fewer)
    offers = list(_all(account, say))
    chosen = _choose(offers, room, words)
    if len(chosen) >= room and remarks.other_scales(account, say, _named(chosen)) is not None:
        spare = [remark for remark in chosen if remark.topic not in _MUST]
        if spare:
            chosen.remove(min(spare, key=lambda remark: remark.weight))
    others = remarks.other_scales(account, say, _named(chosen))
    if others is not None:
        chosen.append(others)
    chosen = _without_echo(account, say, chosen)
    if len(chosen) < FEWEST - fewer:
        chosen += [remark for remark in offers if remark.topic == _FILLER]
    return tuple(_tell(chosen, turn=_turn(account)))


def _without_echo(account: Account, say: Speaker, chosen: list[Remark]) -> list[Remark]:
    """Shorten the remark on the outside notes by those that other remarks have explained by name."""
    told = frozenset(
        note.index
        for remark in chosen
        for note in account.notes
        if remark.topic in _EXPLAINING
        and note.index in remark.covers
        and all(build.says(say.name(note)) for build in remark.builds)
    )
    shorter = outside_notes.still_outside(account, say, told)
    if shorter is None:
        return chosen
    return [shorter if remark.topic == shorter.topic else remark for remark in chosen]


def _named(chosen: list[Remark]) -> frozenset[int]:
    """The spans whose scale some remark names."""
    return frozenset(index for remark in chosen for index in remark.spans)


def _turn(account: Account) -> int:
    """Return a number of the line itself, the same in every key, so that like phrases do not sound alike."""
    first = account.notes[0].midi
    return len(account.notes) + sum(note.midi - first for note in account.notes)


def _all(account: Account, say: Speaker) -> Iterator[Remark]:
    yield from crossings.opening(account, say)
    yield from crossings.crossings(account, say)
    yield from remarks.colours(account, say)
    yield from remarks.enclosures(account, say)
    yield from outside_notes.outside(account, say)
    yield from remarks.sequences(account, say)
    yield from strong_beats.strong_beats(account, say)
    yield from looking_back.coverage(account, say)
    yield from looking_back.shape(account, say)
    yield practice.practice(account, say)


def _room(account: Account) -> int:
    """How many sentences the music deserves: more notes and more chords give more to say."""
    notes, chords = len(account.notes), len(account.spans)
    return max(FEWEST, min(MOST, 4 + notes // 8 + (min(5, chords) if chords > 1 else 0)))


def _choose(offers: list[Remark], room: int, words: Words) -> list[Remark]:
    """Take what must be told, and of the rest the weightiest that fits and does not say the same again."""
    chosen = [remark for remark in offers if remark.topic in _MUST]
    topics: dict[str, int] = {}
    told: set[int] = set()
    for remark in chosen:
        told |= remark.covers if len(remark.covers) > 1 else set()
    said: set[str] = set()
    bar = bar_pattern(words)
    for remark in sorted(offers, key=lambda one: (-one.weight, one.first, one.topic)):
        if (
            len(chosen) >= room
            or remark.topic in _MUST
            or remark.topic == _FILLER
            or topics.get(remark.topic, 0) >= _LIMITS.get(remark.topic, 1)
            or (remark.covers and remark.covers <= told)
            or (again := bar.sub("", remark.builds[0].text)) in said
        ):
            continue
        chosen.append(remark)
        topics[remark.topic] = topics.get(remark.topic, 0) + 1
        told |= remark.covers
        said.add(again)
    return chosen


def _tell(chosen: list[Remark], *, turn: int) -> tuple[Build, ...]:
    """Order the remarks and give each a build unlike its neighbours'.

    For every build of a remark the best way to it is kept, so that a sentence does not take the only build
    that the next one has left.
    """
    ways = [_Way(0, (), (), "")]
    heard_to = -1
    for remark in sorted(chosen, key=lambda one: (one.part, _order(one), one.last, -one.weight)):
        start = turn % len(remark.builds)
        turned = remark.builds[start:] + remark.builds[:start]
        follows = remark.first - 3 <= heard_to <= remark.first + 1
        able = [build for build in turned if follows or not build.goes_on] or turned
        ways = [_best(ways, build, rank) for rank, build in enumerate(able)]
        heard_to = remark.last if remark.part == NARRATIVE else -1
    return min(ways, key=_cost).builds


class _Way(NamedTuple):
    """What is told so far: how much its sentences sound alike, their kinds, how the last one opens."""

    cost: int
    builds: tuple[Build, ...]
    kinds: tuple[str, ...]
    opening: str


def _cost(way: _Way) -> int:
    return way.cost


def _best(ways: list[_Way], build: Build, rank: int) -> _Way:
    """Go on with a build from the way on which it sounds least like what was told before.

    What counts most is that a sentence is built otherwise than its neighbour.
    """
    # This is no search for `lattice`: what a build costs hangs on all the kinds told before it, so that one
    # way kept for each build may miss the best. Of 636 phrases it does in 352, by 12 at most; a search that
    # misses none has to keep up to 29,178 ways, and it would word those phrases anew.
    kind, opening = build.kind, _opening(build.text)
    best, least = ways[0], _FAR
    for way in ways:
        cost = way.cost + 4 * way.kinds.count(kind)
        if way.kinds and way.kinds[-1] == kind:
            cost += 100
        if way.opening == opening:
            cost += 40
        if cost < least:
            best, least = way, cost
    return _Way(least + rank, (*best.builds, build), (*best.kinds, kind), opening)


_FAR = 1_000_000
"""More than any way costs."""


def _opening(text: str) -> str:
    return text.split(maxsplit=1)[0].lower()


_SUMMARY_ORDER = ("outside", "inside", "lost", "strong beats", "coverage", "scales", "shape", "ending")


def _order(remark: Remark) -> int:
    if remark.part == NARRATIVE:
        return remark.first
    return _SUMMARY_ORDER.index(remark.topic) if remark.part == SUMMARY else LAST
