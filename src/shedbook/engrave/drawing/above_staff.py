"""What stands above a system: chord symbols on one line, the names of scales over them, feel and tempo.

Sizes are in drawing units (180 to a staff space); ordinates count downwards from the top line of the staff.
"""

from __future__ import annotations

import math
from collections.abc import Iterable

from shedbook.engrave.drawing.outlined_words import (
    OutlinedWord,
    PlacedWord,
    symbol_word,
    tempo_word,
    text_word,
)
from shedbook.engrave.engraver.svg_paths import curve_points
from shedbook.engrave.engraver.verovio_svg import DrawnSystem
from shedbook.engrave.notation.score_style import (
    CHORD_EM,
    QUIET_TEMPO_EM,
    SCALE_EM,
    TEMPO_EM,
    ScoreStyle,
)
from shedbook.engrave.notation.study_marks import StudyMarks
from shedbook.phrase.feels import feel_row
from shedbook.phrase.model import Phrase
from shedbook.theory.chord_symbol import symbol_parts

SYMBOL_RISE = 350
"""How far a chord symbol rises above its base line."""
_SCALE_ROW = 330
"""The height of one row of scale names."""
_SCALE_BASE = 105
"""How far the base line of the lowest scale names lies above the chord symbols."""
_SCALE_STEP, _SCALE_GAP = 310, 160
"""How far one row of scale names lies above another, and the least white between two names in a row."""
_SLANT = 25
"""How far a slanted letter reaches beyond its width."""
_SLUR_CLEARANCE = 120
"""The least distance between a chord symbol and a slur."""


def symbol_base(phrase: Phrase, system: DrawnSystem) -> int:
    """Return the base line of the chord symbols: Verovio's, or higher where a slur would cross a symbol."""
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


def symbols(phrase: Phrase, system: DrawnSystem, base: float) -> Iterable[PlacedWord]:
    """Yield the chord symbols of a system, all on one base line."""
    for change, x, _ in system.symbols:
        yield PlacedWord(symbol_word(symbol_parts(phrase.changes[change].chord), CHORD_EM), x, base)


def scale_names(
    marks: StudyMarks, system: DrawnSystem, base: float, width: int
) -> tuple[list[PlacedWord], int]:
    """Return the names of scales over their chord symbols, and the height of all their rows together.

    A name may reach over the next chord. Where it would meet the next name, the next name goes a row higher.
    A name that would reach beyond the end of the system begins further left.

    Args:
        marks: the study marks of the phrase.
        system: the system.
        base: the base line of its chord symbols.
        width: the length of the system.
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
        placed.append(PlacedWord(word, left, base - SYMBOL_RISE - _SCALE_BASE - row * _SCALE_STEP))
    return placed, _SCALE_ROW + (len(ends) - 1) * _SCALE_STEP if ends else 0


def tempo_mark(phrase: Phrase, style: ScoreStyle) -> OutlinedWord:
    """Return the words for feel and tempo, such as "Swing, quarter note = 132".

    The note is the beat that players tap: the quarter; the dotted quarter in 6/8, 9/8 and 12/8; the half in
    metres over 2; the eighth in other metres over 8 (common practice). A phrase of a feel
    without a steady beat has no number.
    """
    metre = phrase.metre
    dotted = metre.unit == 8 and metre.beats % 3 == 0 and metre.beats > 3
    note = "half" if metre.unit == 2 else "eighth" if metre.unit >= 8 and not dotted else "quarter"
    feel = style.feel or phrase.feel[:1].upper() + phrase.feel[1:]
    font, size = ("sans", QUIET_TEMPO_EM) if style.quiet else ("serif-semibold", TEMPO_EM)
    if not feel_row(phrase.feel).steady:
        return text_word(feel, font, size)
    return tempo_word(feel, note, dotted, phrase.tempo_bpm, font, size)
