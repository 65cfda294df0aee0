"""What stands above a system: chord symbols on one line, names of scales over them, feel and tempo."""

from __future__ import annotations

import math
from collections.abc import Iterable

from shedbook.engrave.lettering import Placed, Word, symbol_word, tempo_word, text_word
from shedbook.engrave.reach import curve_points
from shedbook.engrave.score import Marks
from shedbook.engrave.style import CHORD_EM, QUIET_TEMPO_EM, SCALE_EM, TEMPO_EM, Style
from shedbook.engrave.trace import System
from shedbook.phrase.feels import feel_row
from shedbook.phrase.model import Phrase
from shedbook.theory.chord_symbol import symbol_parts

SYMBOL_RISE = 350
"""How far a chord symbol rises over its base line."""
_SCALE_ROW = 330
_SCALE_BASE = 105
"""How far the base line of the scale names lies over the symbols."""
_SCALE_STEP, _SCALE_GAP = 310, 160
"""How far one row of scale names lies over another, and the white between two names in a row."""
_SLANT = 25
"""How far a slanted letter reaches beyond its width."""
_SLUR_CLEARANCE = 120


def symbol_base(phrase: Phrase, system: System) -> int:
    """Return the base line of the chord symbols: Verovio's, or higher where a slur would cross one."""
    base = min((y for _, _, y in system.symbols), default=0)
    curves = [point for data in system.slurs for point in curve_points(data)]
    if not curves:
        return base
    spans = [
        (x, x + symbol_word(symbol_parts(phrase.changes[change].chord), CHORD_EM).width)
        for change, x, _ in system.symbols
    ]
    near = [
        y
        for x, y in curves
        if any(left - _SLUR_CLEARANCE < x < right + _SLUR_CLEARANCE for left, right in spans)
    ]
    if near and min(near) < base + _SLUR_CLEARANCE:
        return round(min(near)) - _SLUR_CLEARANCE
    return base


def symbols(phrase: Phrase, system: System, base: float) -> Iterable[Placed]:
    """Place the chord symbols on one base line."""
    for change, x, _ in system.symbols:
        yield Placed(symbol_word(symbol_parts(phrase.changes[change].chord), CHORD_EM), x, base)


def scale_names(marks: Marks, system: System, base: float, width: int) -> tuple[list[Placed], int]:
    """Place the names of scales over their symbols, and return how high their rows are together.

    A name may stand over the next chord too; where it would meet the next name, that goes a row higher. A
    name that would run out of the system at its end begins further left.
    """
    ends: list[float] = []
    placed = []
    for change, x, _ in system.symbols:
        name = marks.scales.get(change)
        if not name:
            continue
        word = text_word(name, "serif-italic", SCALE_EM)
        left = max(0, min(x, math.floor(width - word.width - _SLANT)))
        row = next((row for row, end in enumerate(ends) if end + _SCALE_GAP <= left), len(ends))
        ends[row : row + 1] = [left + word.width]
        placed.append(Placed(word, left, base - SYMBOL_RISE - _SCALE_BASE - row * _SCALE_STEP))
    return placed, _SCALE_ROW + (len(ends) - 1) * _SCALE_STEP if ends else 0


def tempo_mark(phrase: Phrase, style: Style) -> Word:
    """Return feel and tempo, counting the beat that players tap."""
    metre = phrase.metre
    dotted = metre.unit == 8 and metre.beats % 3 == 0 and metre.beats > 3
    note = "half" if metre.unit == 2 else "eighth" if metre.unit >= 8 and not dotted else "quarter"
    feel = style.feel or phrase.feel[:1].upper() + phrase.feel[1:]
    font, size = ("sans", QUIET_TEMPO_EM) if style.quiet else ("serif-semibold", TEMPO_EM)
    if not feel_row(phrase.feel).steady:
        return text_word(feel, font, size)
    return tempo_word(feel, note, dotted, phrase.tempo_bpm, font, size)
