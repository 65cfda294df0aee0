"""One chord or one scale written anew into its text, and the rest left as it stands. Pure."""

from __future__ import annotations

import re
from collections.abc import Sequence

from shedbook.phrase.changes_text import REPEAT, print_scales
from shedbook.phrase.line_edits import Edit
from shedbook.phrase.model import ChangeAt
from shedbook.theory.scale import Scale

_WORD = re.compile(r"[^\s|]+")


def chord_edit(text: str, changes: Sequence[ChangeAt], index: int, symbol: str) -> Edit | None:
    """Return the edit that gives a change another chord symbol; None where its bar only repeats another.

    Args:
        text: the changes as text.
        changes: the same changes as they were read.
        index: which of them is meant.
        symbol: the new symbol; the beat that the old one names stays.
    """
    bar = changes[index].bar
    bars = [piece for piece in re.finditer(r"[^|]+", text) if piece.group().strip()]
    piece = bars[bar - 1]
    words = list(_WORD.finditer(text, piece.start(), piece.end()))
    place = sum(1 for one in changes[:index] if one.bar == bar)
    if place >= len(words) or words[0].group() == REPEAT:
        return None
    word = words[place]
    chord = word.group().partition("@")[0]
    return Edit(word.start(), word.start() + len(chord), symbol)


def scales_with(
    text: str, changes: Sequence[ChangeAt], scales: Sequence[Scale | None], index: int, scale: Scale
) -> str:
    """Return the text of scales with another scale over one change.

    Where the text has a plain place for it, only that place changes; else all of it is printed anew, in the
    normal form.

    Args:
        text: the scales as text, "" where none is named.
        changes: the changes.
        scales: the scales that are named, one to one with the changes.
        index: which change is meant.
        scale: its new scale.
    """
    named = [*scales[:index], scale, *scales[index + 1 :]]
    own = scale.name if scale.root == changes[index].chord.root else str(scale)
    bar = changes[index].bar
    pieces = text.split("|")
    count = max(change.bar for change in changes)
    if len(pieces) == count and not any(REPEAT in piece for piece in pieces[bar - 1 : bar + 1]):
        names = pieces[bar - 1].split(",")
        place = sum(1 for one in changes[:index] if one.bar == bar)
        if len(names) == sum(1 for one in changes if one.bar == bar):
            old = names[place]
            head, tail = old[: len(old) - len(old.lstrip())], old[len(old.rstrip()) :]
            if not old.strip():
                head, tail = " " * (bar > 1 or place > 0), " " * (bar < count and place == len(names) - 1)
            names[place] = f"{head}{own}{tail}"
            pieces[bar - 1] = ",".join(names)
            return "|".join(pieces)
    return print_scales(named, changes, count)
