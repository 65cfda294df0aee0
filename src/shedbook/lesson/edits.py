"""The author's edits of a text kept when it is made anew, and what changed beneath them. Pure.

Three texts are compared, block by block: as it was made last time, as the author left it, and as it is made
now. Where the author changed nothing the new text stands; where both changed, the author's words stand and
the change beneath them is told.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from difflib import SequenceMatcher
from typing import NamedTuple

from shedbook.lesson.script import HEAD, Block


class Beneath(NamedTuple):
    """What changed beneath the author's words: under which head, what stood there, what would stand there."""

    head: str
    mine: tuple[str, ...]
    before: tuple[str, ...]
    now: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Merged:
    """The text that stands, how many stretches of it are the author's own, and what changed beneath them."""

    blocks: tuple[Block, ...]
    own: int
    beneath: tuple[Beneath, ...]


def merged(base: Sequence[Block], mine: Sequence[Block], now: Sequence[Block]) -> Merged:
    """Return the text of now with the author's edits.

    Args:
        base: the text as it was made last time.
        mine: the same as the author left it.
        now: the text as it is made now.
    """
    found: list[Block] = []
    beneath: list[Beneath] = []
    own = at = mine_at = now_at = 0
    for kept, kept_mine, kept_now in (*_anchors(base, mine, now), (len(base), len(mine), len(now))):
        was, my, new = base[at:kept], mine[mine_at:kept_mine], now[now_at:kept_now]
        changed = list(my) != list(was)
        own += changed
        if changed and list(new) not in (list(was), list(my)):
            beneath.append(Beneath(_head_of(found), _texts(my), _texts(was), _texts(new)))
        found += my if changed else new
        if kept < len(base):
            found.append(base[kept])
        at, mine_at, now_at = kept + 1, kept_mine + 1, kept_now + 1
    return Merged(tuple(found), own, tuple(beneath))


def _anchors(
    base: Sequence[Block], mine: Sequence[Block], now: Sequence[Block]
) -> list[tuple[int, int, int]]:
    """Return where a block stands in all three texts, in order."""
    to_mine, to_now = _same(base, mine), _same(base, now)
    return [(at, to_mine[at], to_now[at]) for at in sorted(to_mine.keys() & to_now.keys())]


def _same(one: Sequence[Block], other: Sequence[Block]) -> dict[int, int]:
    """Return by place which blocks of one text stand in the other too, in the same order."""
    matcher = SequenceMatcher(None, one, other, autojunk=False)
    return {
        block.a + step: block.b + step
        for block in matcher.get_matching_blocks()
        for step in range(block.size)
    }


def _head_of(blocks: Sequence[Block]) -> str:
    """Return the heads under which the end of a text stands."""
    heads: dict[int, str] = {}
    for block in blocks:
        if block.kind == HEAD:
            heads = {level: text for level, text in heads.items() if level < block.level}
            heads[block.level] = block.text
    return " · ".join(heads[level] for level in sorted(heads) if level > 1) or next(iter(heads.values()), "")


def _texts(blocks: Sequence[Block]) -> tuple[str, ...]:
    return tuple(block.text for block in blocks)
