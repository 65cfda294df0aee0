"""What stands above a system: chord symbols on one line, the names of scales over them, feel and tempo.

Sizes are in drawing units (180 to a staff space); ordinates count downwards from the top line of the staff.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from fractions import Fraction
from types import MappingProxyType

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
_SCALE_STEP, _SCALE_GAP = 295, 100
"""How far the first line of a name lies above its second, and the least white before the next chord."""
_SLANT = 25
"""How far a slanted letter reaches beyond its width."""
_BEATS: Mapping[Fraction, tuple[str, bool]] = MappingProxyType({
    Fraction(2): ("half", False), Fraction(3, 2): ("quarter", True), Fraction(1): ("quarter", False),
    Fraction(1, 2): ("eighth", False),
})  # fmt: skip
"""The note, and whether it has a dot, of a beat that players tap, in quarters."""
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
    """Return the names of scales over their chord symbols, and the height that they take together.

    A name begins over its chord symbol and ends before the next one, so that it is plain to which chord it
    belongs. Where it is too long its shorter form stands, else either of them on two lines; what is too long
    even so is left to the written-out scale, which has the name too.

    Args:
        marks: the study marks of the phrase.
        system: the system.
        base: the base line of its chord symbols.
        width: the length of the system.
    """
    ordered = sorted(system.symbols, key=lambda one: one[1])
    ends = [x - _SCALE_GAP for _, x, _ in ordered[1:]] + [width - _SLANT]
    found = [
        (x, lines)
        for (change, x, _), end in zip(ordered, ends, strict=True)
        if (name := marks.scales.get(change)) and (lines := _within(name, marks, end - x))
    ]
    rows = max((len(lines) for _, lines in found), default=0)
    placed = [
        PlacedWord(word, x, base - SYMBOL_RISE - _SCALE_BASE - (len(lines) - 1 - row) * _SCALE_STEP)
        for x, lines in found
        for row, word in enumerate(lines)
    ]
    return placed, _SCALE_ROW + (rows - 1) * _SCALE_STEP if rows else 0


def _within(name: str, marks: StudyMarks, room: float) -> tuple[OutlinedWord, ...]:
    """Return the lines of the longest form of a name that fits, none where none does."""
    short = marks.shorter.get(name, name)
    ways = [(name,), (short,), *(_halves(one) for one in (name, short) if " " in one)]
    for way in ways:
        lines = tuple(text_word(line, "serif-italic", SCALE_EM) for line in way)
        if all(line.width <= room for line in lines):
            return lines
    return ()


def _halves(name: str) -> tuple[str, str]:
    """Return a name in two lines, as alike in length as its words allow."""
    words = name.split()
    cut = min(range(1, len(words)), key=lambda at: max(len(" ".join(words[:at])), len(" ".join(words[at:]))))
    return " ".join(words[:cut]), " ".join(words[cut:])


def tempo_mark(phrase: Phrase, style: ScoreStyle) -> OutlinedWord:
    """Return the words for feel and tempo, such as "Swing, quarter note = 132".

    The note is the beat that players tap. A phrase of a feel without a steady beat has no number.
    """
    note, dotted = _BEATS[phrase.metre.tapped_quarters]
    feel = style.feel or phrase.feel[:1].upper() + phrase.feel[1:]
    font, size = ("sans", QUIET_TEMPO_EM) if style.quiet else ("serif-semibold", TEMPO_EM)
    if not feel_row(phrase.feel).steady:
        return text_word(feel, font, size)
    return tempo_word(feel, note, dotted, phrase.tempo_bpm, font, size)
