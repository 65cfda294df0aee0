"""The explanation: what a teacher would say of a phrase, in five to twelve sentences.

Every sentence is a remark on the account. The remarks compete for room by weight; a light remark on notes
that a heavier one has explained is left out. What remains is told in the order of the line, then looking
back, then what to practise; each remark takes the build that differs from the sentence before it.
"""

from __future__ import annotations

from collections.abc import Iterator
from operator import attrgetter
from typing import NamedTuple

from shedbook.analysis.account import Account
from shedbook.analysis.naming.language import ENGLISH, Words, bar_pattern
from shedbook.analysis.telling import (
    about_crossings,
    about_figures,
    about_outside_notes,
    about_scales,
    about_shape,
    about_strong_beats,
    practice,
)
from shedbook.analysis.telling.reader_names import ReaderNames, reader_names
from shedbook.analysis.telling.remark import LAST, NARRATIVE, SUMMARY, Build, Remark

FEWEST, MOST = 5, 12
"""How many sentences an explanation has at least and at most [the project's design]."""


def explain(account: Account, *, with_commentary: bool = True, words: Words = ENGLISH) -> tuple[str, ...]:
    """Return the sentences of the explanation, after the author's commentary where there is one.

    Notes and chords are named as the account's reader sees them: in concert pitch, or in the part of their
    instrument. `words` are those of the reader's language. A phrase without notes gets one sentence that says
    so; any other gets five to twelve.

    Raises:
        MissingRowError: if the words have no row for something that is to be said.
    """
    own = account.phrase.commentary.strip() if with_commentary else ""
    before = (own,) if own else ()
    if not account.notes:
        return (*before, words.sentence(words("no notes")))
    builds = chosen_builds(account, fewer=len(before), words=words)
    return before + tuple(words.sentence(build.text) for build in builds)


def chosen_builds(account: Account, *, fewer: int = 0, words: Words = ENGLISH) -> tuple[Build, ...]:
    """Return what is told of a phrase that has notes, one build a sentence, in the order of telling.

    There are `fewer` sentences than there is room for, to leave room for the author's own.
    """
    say = reader_names(account, words)
    room = max(FEWEST, _room(account) - fewer)
    offers = list(_all(account, say))
    chosen = _choose(offers, room, words)
    if len(chosen) >= room and about_scales.other_scales(account, say, _named(chosen)) is not None:
        spare = [remark for remark in chosen if not remark.topic.always]
        if spare:
            chosen.remove(min(spare, key=lambda remark: remark.weight))
    others = about_scales.other_scales(account, say, _named(chosen))
    if others is not None:
        chosen.append(others)
    chosen = _without_echo(account, say, chosen)
    if len(chosen) < FEWEST - fewer:
        chosen += [remark for remark in offers if remark.topic.filler]
    return tuple(_tell(chosen, turn=_turn(account)))


def _without_echo(account: Account, say: ReaderNames, chosen: list[Remark]) -> list[Remark]:
    """Shorten the remark on the outside notes by those that other remarks have explained by name."""
    told = frozenset(
        note.index
        for remark in chosen
        for note in account.notes
        if remark.topic.explains
        and note.index in remark.covers
        and all(build.says(say.name(note)) for build in remark.builds)
    )
    shorter = about_outside_notes.still_outside(account, say, told)
    if shorter is None:
        return chosen
    return [shorter if remark.topic == shorter.topic else remark for remark in chosen]


def _named(chosen: list[Remark]) -> frozenset[int]:
    """Return the indices of the spans whose scale some remark names."""
    return frozenset(index for remark in chosen for index in remark.spans)


def _turn(account: Account) -> int:
    """Return a number that depends on the line and not on its key.

    It decides which build of a remark comes first, so that phrases of one kind are not told alike.
    """
    first = account.notes[0].midi
    return len(account.notes) + sum(note.midi - first for note in account.notes)


def _all(account: Account, say: ReaderNames) -> Iterator[Remark]:
    """Yield every remark that there is on an account."""
    yield from about_crossings.opening(account, say)
    yield from about_crossings.crossings(account, say)
    yield from about_scales.colours(account, say)
    yield from about_figures.enclosures(account, say)
    yield from about_outside_notes.outside(account, say)
    yield from about_figures.sequences(account, say)
    yield from about_strong_beats.strong_beats(account, say)
    yield from about_scales.scale_coverage(account, say)
    yield from about_shape.shape(account, say)
    yield practice.practice(account, say)


def _room(account: Account) -> int:
    """Return how many sentences the music deserves: more notes and more chords give more to say."""
    notes, chords = len(account.notes), len(account.spans)
    return max(FEWEST, min(MOST, 4 + notes // 8 + (min(5, chords) if chords > 1 else 0)))


def _choose(offers: list[Remark], room: int, words: Words) -> list[Remark]:
    """Choose what is told in at most `room` sentences.

    First comes what is always told. Of the rest the weightiest is taken, unless its topic has been told often
    enough, its notes are all explained, or another remark says the same but for the number of a bar.
    """
    chosen = [remark for remark in offers if remark.topic.always]
    times: dict[str, int] = {}
    told: set[int] = set()
    for remark in chosen:
        told |= remark.covers if len(remark.covers) > 1 else set()
    said: set[str] = set()
    bar = bar_pattern(words)
    for remark in sorted(offers, key=lambda one: (-one.weight, one.first, one.topic.name)):
        if (
            len(chosen) >= room
            or remark.topic.always
            or remark.topic.filler
            or times.get(remark.topic.name, 0) >= remark.topic.most
            or (remark.covers and remark.covers <= told)
            or (again := bar.sub("", remark.builds[0].text)) in said
        ):
            continue
        chosen.append(remark)
        times[remark.topic.name] = times.get(remark.topic.name, 0) + 1
        told |= remark.covers
        said.add(again)
    return chosen


def _tell(chosen: list[Remark], *, turn: int) -> tuple[Build, ...]:
    """Put the remarks in order, and give each a build that is unlike its neighbours' builds.

    For every build of a remark the best way to it is kept, so that a sentence does not take the only build
    that the next one has left.
    """
    ways = [_Way(0, (), (), "")]
    told_to = -1
    for remark in sorted(chosen, key=lambda one: (one.part, _order(one), one.last, -one.weight)):
        start = turn % len(remark.builds)
        turned = remark.builds[start:] + remark.builds[:start]
        follows = remark.first - 3 <= told_to <= remark.first + 1
        able = [build for build in turned if follows or not build.goes_on] or turned
        ways = [_best(ways, build, rank) for rank, build in enumerate(able)]
        told_to = remark.last if remark.part == NARRATIVE else -1
    return min(ways, key=attrgetter("cost")).builds


class _Way(NamedTuple):
    """One way to tell the remarks so far.

    `cost` is how much its sentences sound alike; `kinds` are how they are built, and `opening` is the first
    word of the last one.
    """

    cost: int
    builds: tuple[Build, ...]
    kinds: tuple[str, ...]
    opening: str


def _best(ways: list[_Way], build: Build, rank: int) -> _Way:
    """Return the cheapest way that ends with a build; `rank` is what the build itself costs.

    It costs most that two neighbours are built alike, then that they open with one word, then that a kind of
    sentence comes back at all.
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
    """Return the first word of a sentence in small letters."""
    return text.split(maxsplit=1)[0].lower()


def _order(remark: Remark) -> int:
    """Return what orders the remarks of one part: their first note, or the place of their topic."""
    if remark.part == NARRATIVE:
        return remark.first
    return remark.topic.summary_place if remark.part == SUMMARY else LAST
