"""Drills as they are asked for: a scale and a pattern, a scale and a cell, or a pattern through changes."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import lru_cache

from shedbook.draft.stock import FILE as STOCK_FILE
from shedbook.draft.stock import changes_meant, stock_names
from shedbook.draft.tables.drill_patterns import PATTERNS, PatternRow
from shedbook.errors import UnknownNameError, nearest
from shedbook.table_index import by_names
from shedbook.theory.scale import scale_row

FILE = "src/shedbook/draft/tables/drill_patterns.py"

_BY_NAME = by_names(PATTERNS, what="a pattern", file=FILE)
_OWN_CELL = re.compile(r"[1-9](?: [1-9]){2,7}")


@dataclass(frozen=True, slots=True)
class DrillName:
    """A drill as it is asked for: a scale or a progression, and a pattern.

    Attributes:
        scale: the name of the scale; "" where chords of a progression are played.
        pattern: the row.
        progression: the changes; "" for one scale.
        through: the progression as it was called.
    """

    scale: str
    pattern: PatternRow
    progression: str = ""
    through: str = ""


@lru_cache(maxsize=256)
def drill_named(text: str) -> DrillName:
    """Read a drill: "mixolydian in thirds", "dorian 1 3 2 5", or "1 2 3 5 through ii-V-I".

    Raises:
        UnknownNameError: if the scale, the pattern or the progression is not known.
    """
    words = " ".join(text.split())
    before, _, after = words.partition(" through ")
    if after:
        changes = changes_meant(after)
        if changes == after and "|" not in after:
            raise UnknownNameError(
                f'There is no progression "{after[:40]}".',
                hint=nearest(after, stock_names())
                or f"Write changes, or a name of {STOCK_FILE.rpartition('/')[2]}.",
            )
        return DrillName("", _pattern(before), changes, after)
    parts = words.split(" ")
    for size in range(len(parts) - 1, 0, -1):
        try:
            row = scale_row(" ".join(parts[:size]))
        except UnknownNameError:
            continue
        return DrillName(row.name, _pattern(" ".join(parts[size:])))
    raise UnknownNameError(
        f'"{text[:60]}" does not begin with a scale and end with a pattern.',
        hint='Write a scale and a pattern: "mixolydian in thirds". ' + _known(),
    )


def _pattern(text: str) -> PatternRow:
    found = _BY_NAME.get(text.lower())
    if found is not None:
        return found
    if _OWN_CELL.fullmatch(text):
        cell = tuple(int(one) - 1 for one in text.split())
        return PatternRow(text, (), cell, 1, "cells", 2, 2, 3, "the author's own")
    raise UnknownNameError(
        f'There is no pattern "{text[:40]}".', hint=nearest(text, [row.name for row in PATTERNS]) or _known()
    )


def _known() -> str:
    return f"Patterns are {', '.join(row.name for row in PATTERNS)}, or steps of your own: 1 3 2 4."
