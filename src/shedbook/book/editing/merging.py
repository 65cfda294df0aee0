"""Two changes of one text that did not know of each other: joined where they touch different bars. Pure."""

from __future__ import annotations

from shedbook.book.ground.toml_edits import Value

BY_BARS = ("line", "changes", "scales")
"""Keys whose text is divided by bar lines."""


def merged(
    name: str, base: Value | None, mine: Value | None, theirs: Value | None
) -> tuple[bool, Value | None]:
    """Return whether two changes of a value go together, and the value that has both.

    Args:
        name: the key of the phrase.
        base: the value from which both began; None where there was none.
        mine: what one made of it.
        theirs: what the other made of it.
    """
    if mine == theirs or theirs == base:
        return True, mine
    if mine == base:
        return True, theirs
    if name in BY_BARS and isinstance(base, str) and isinstance(mine, str) and isinstance(theirs, str):
        return _by_bars(base, mine, theirs)
    return False, None


def _by_bars(base: str, mine: str, theirs: str) -> tuple[bool, str | None]:
    """Merge bar by bar, where no bar came or went."""
    before, ours, others = base.split("|"), mine.split("|"), theirs.split("|")
    if not len(before) == len(ours) == len(others):
        return False, None
    found = []
    for one, my, their in zip(before, ours, others, strict=True):
        if one.split() == their.split() or my.split() == their.split():
            found.append(my)
        elif one.split() == my.split():
            found.append(their)
        else:
            return False, None
    return True, "|".join(found)
