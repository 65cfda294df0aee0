"""Empty staves with the changes of a phrase over them, on which the reader writes a line of their own.

All bars of a staff are equally long, and a chord symbol stands where its chord starts in the bar. Verovio is
not needed for these.
"""

from __future__ import annotations

import math

from shedbook.engrave.drawing.above_staff import SYMBOL_RISE
from shedbook.engrave.drawing.outlined_words import PlacedWord, music_word, symbol_word
from shedbook.engrave.drawing.picture import (
    PADDING,
    Drawing,
    LetteredSystem,
    PictureSize,
    assembled,
)
from shedbook.engrave.engraver.verovio_svg import MUSIC_SCALE
from shedbook.engrave.notation.score_style import CHORD_EM, SPACE, ScoreStyle
from shedbook.phrase.model import Phrase
from shedbook.theory.chord_symbol import symbol_parts

QUIET = "#757069"
"""The colour of the lines, on which pencil stands out."""
_STROKE = 12
_STAFF = 4 * SPACE
_SYMBOL_BASE = -380
"""The base line of the chord symbols, high enough for notes on a leger line below them."""
_INDENT = 90
"""How far a chord symbol stands to the right of its bar line."""
_GAP = 90
"""The least white between two chord symbols."""
_PENCIL = 330
"""The room below a staff for notes on leger lines."""
_CLEFS = {
    "G2": ("gclef", 3), "G2-8": ("gclef8", 3), "F4": ("fclef", 1), "F4-8": ("fclef8", 1),
    "C3": ("cclef", 2), "C4": ("cclef", 1),
}  # fmt: skip
"""For each clef its glyph, and the line on which that stands, counted from the top one, which is 0."""
_CLEF_INDENT, _CLEF_ROOM = 90, 720
"""How far a clef stands from the left end, and how much of the line it takes."""


def draw_empty_staves(phrase: Phrase, style: ScoreStyle) -> Drawing:
    """Draw the staves, with at most four bars on each, and fewer where the chord symbols need more room."""
    width = math.floor(style.width_mm / style.mm)
    numbers = [bar.number for bar in phrase.bars if bar.number]
    rows = next(
        (rows for most in (4, 3, 2) if _room(phrase, rows := _rows(numbers, most), width)), _rows(numbers, 1)
    )
    pitch = _STAFF + _PENCIL - _SYMBOL_BASE + SYMBOL_RISE
    roof = _SYMBOL_BASE - SYMBOL_RISE
    systems = []
    for index, row in enumerate(rows):
        down = index * pitch
        words = [
            PlacedWord(symbol_word(symbol_parts(phrase.changes[change].chord), CHORD_EM), x, _SYMBOL_BASE)
            for change, x in _places(phrase, row, width)
        ]
        words.append(_clef(style.clef))
        white = (down + roof, down + roof) if index else (0, 0)
        systems.append(LetteredSystem([_staff(len(row), width)], words, down, white))
    return assembled(
        systems, {}, PictureSize(width + PADDING, roof, (len(rows) - 1) * pitch + _STAFF + _PENCIL), style
    )


def _rows(numbers: list[int], most: int) -> list[list[int]]:
    """Share the numbers of bars out on staves as evenly as possible, with the longer staves first."""
    count = -(-len(numbers) // most)
    rows, start = [], 0
    for row in range(count):
        share = -(-(len(numbers) - start) // (count - row))
        rows.append(numbers[start : start + share])
        start += share
    return rows


def _room(phrase: Phrase, rows: list[list[int]], width: int) -> bool:
    """Say whether every chord symbol ends before the next one and before the end of the staff."""
    for row in rows:
        places = _places(phrase, row, width)
        ends = [*(x for _, x in places[1:]), float(width)]
        for (change, x), end in zip(places, ends, strict=True):
            if x + symbol_word(symbol_parts(phrase.changes[change].chord), CHORD_EM).width + _GAP > end:
                return False
    return True


def _places(phrase: Phrase, row: list[int], width: int) -> list[tuple[int, float]]:
    """Return the indexes of the changes of a staff, each with the x where its symbol begins."""
    bar_width = (width - _CLEF_ROOM) / len(row)
    return [
        (
            index,
            _CLEF_ROOM
            + (row.index(change.bar) + float((change.beat - 1) / phrase.metre.beats)) * bar_width
            + (_INDENT if row.index(change.bar) or change.beat > 1 else 0),
        )
        for index, change in enumerate(phrase.changes)
        if change.bar in row
    ]


def _clef(name: str) -> PlacedWord:
    glyph, line = _CLEFS[name]
    return PlacedWord(music_word(glyph, MUSIC_SCALE), _CLEF_INDENT, line * SPACE)


def _staff(bars: int, width: int) -> str:
    lines = "".join(f"M0 {line * SPACE}H{width}" for line in range(5))
    bar_width = (width - _CLEF_ROOM) / bars
    places = (0, *(round(_CLEF_ROOM + bar_width * bar) for bar in range(1, bars + 1)))
    lines += "".join(f"M{x} 0V{_STAFF}" for x in places)
    return f'<path d="{lines}" fill="none" stroke="{QUIET}" stroke-width="{_STROKE}"/>'
