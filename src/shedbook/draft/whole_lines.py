"""What is seen only of a line as a whole, weighed on top of the notes."""

from __future__ import annotations

from random import Random

from shedbook.draft.lines import Lines


def drawn_by_whole(lines: Lines, dice: Random) -> tuple[int, ...]:
    """Return a line drawn in proportion to its weight."""
    return tuple(lines.drawn(1, dice)[0].tolist())
