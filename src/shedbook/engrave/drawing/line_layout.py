"""How long the lines of a score are and where they break, from the rhythm alone.

The width of a phrase depends on its note values and on the kinds of its chords, never on the key. So the
scores of one phrase end at the same place in all twelve keys, and a note value takes about the same room
throughout a book. All widths are in drawing units (180 to a staff space); they were measured on Verovio's
drawings and chosen by eye.
"""

from __future__ import annotations

import math
from bisect import bisect_right
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from typing import NamedTuple

from shedbook.engrave.drawing.outlined_words import degree_word, symbol_word
from shedbook.engrave.notation.readable_rhythm import parts_of
from shedbook.engrave.notation.score_style import CHORD_EM, DEGREE_EM, ScoreStyle
from shedbook.engrave.notation.study_marks import StudyMarks
from shedbook.engrave.notation.system_breaks import first_bars, shares
from shedbook.phrase.model import Phrase, Value
from shedbook.theory.chord_symbol import SymbolParts, symbol_parts
from shedbook.theory.metre import Metre

HEADER = 1300
"""The width of clef and metre at the start of a line."""
_SIGNATURE, _SIGNATURE_STEP, _MOST_ALTERED = 142, 177, 7
"""What a key signature adds to that: a gap, the width of each accidental, and the most accidentals."""
_LEAST_BAR = 2400
"""The least width of a full bar."""
_BAR_LINE = 240
"""The width that a bar line takes."""
_QUARTER = 640
"""The usual width of a quarter note."""
_SHORT_NOTE, _LEAST_NOTE = 430.0, 400.0
"""The usual and the least width of the shortest notes: a head, and the accidental of the next note."""
_LEAST_GAP = 55
"""The least white between two degrees."""
_GRACE = 260
"""The width of a grace note."""
_REST = 2
"""What stands for a rest in `_Rhythm`."""
_CLOSEST, _LOOSEST = 1.12, 1.3
"""By which factor a line may be too full to keep four bars in it; by which one a phrase of several systems is
set wider than usual."""
_NEARLY_FULL = 0.85
"""A last system that would take more of the line than this share is stretched to fill it."""
_HALF_FULL = 0.6
"""The same share where all lines are to be equally long."""
_WITH_COMPANY = 1.4
"""By which factor a line may be too full so that no bar stands alone in a system."""
_COLUMN_BARS, _COLUMN_CLOSEST = 2, 1.04
"""The most bars of a phrase that is set in a column, and how much closer its notes may stand there."""
_USUAL = 1.1
"""The looseness, a factor on Verovio's closest setting, of eighths in a line of their usual width."""
_CLOSE_QUARTER, _CLOSE_POWER = 606, 0.6
"""The width of a quarter in Verovio's closest setting, and the power of the length by which widths grow."""
_FILLED = 0.94
"""The share of its usual width that a note keeps in a filled line; the rest goes to accidentals."""
_LOOSEST_NOTES = 2.0
"""The greatest looseness."""
_LETTER = 75
"""The width of the placeholder letter "i" in Verovio's text size, as our options set it."""
_GAP = 110
"""The white after a chord symbol."""


@dataclass(frozen=True, slots=True)
class LineLayout:
    """How a score is laid out on lines.

    Attributes:
        systems: the number of full bars in each system.
        width: the length of a line in drawing units.
        stretch_last: whether the last system is stretched to fill the line.
        room: by change, the placeholder that is as wide as its chord symbol.
        looseness: a factor for the distance between notes before stretching, as `verovio_door.svg` takes it.
            It is chosen so that a last system that does not fill its line looks like those that do.
        crowded: whether even a single bar is too long for the line.
    """

    systems: tuple[int, ...]
    width: int
    stretch_last: bool
    room: Mapping[int, str]
    looseness: float = 1.0
    crowded: bool = False


class _Lines(NamedTuple):
    """What `LineLayout` says of the lines, all of which follows from the rhythm."""

    systems: tuple[int, ...]
    width: int
    stretch_last: bool
    looseness: float
    crowded: bool


class _Symbol(NamedTuple):
    """A change with a root as wide as it can become, so that it is the same in every key."""

    bar: int
    beat: Fraction
    parts: SymbolParts


class _Rhythm(NamedTuple):
    """All that the widths of a phrase depend on.

    It is the same in every key, so `_lines_of` keeps its results by it.
    """

    metre: Metre
    bars: tuple[tuple[int, tuple[tuple[tuple[Value, ...], int, int], ...]], ...]
    """For each bar its number and its events: the values; 1 if struck, 0 if tied, or `_REST`; the number of
    grace notes."""
    symbols: tuple[_Symbol, ...]
    degrees: tuple[tuple[int, str], ...]


def lay_out(phrase: Phrase, marks: StudyMarks, style: ScoreStyle) -> LineLayout:
    """Choose how many bars stand in each system of a phrase, and how long its lines are.

    Only the key signature, where `style` prints one, depends on the key.
    """
    parts = [symbol_parts(change.chord) for change in phrase.changes]
    rhythm = _rhythm_of(phrase, marks, parts)
    signature = _signature(_MOST_ALTERED) if style.signature else 0
    most = style.width_mm / style.mm // 10 * 10
    lines = _lines_of(rhythm, most, signature, style.fill)
    if style.column_mm and phrase.bars[-1].number <= _COLUMN_BARS:
        column = style.column_mm / style.mm // 10 * 10
        short = _lines_of(rhythm, column, signature, style.fill)
        if len(short.systems) == 1 and not short.crowded:
            most, lines = column, short
    width = lines.width
    if style.signature and width < most:  # the notes are to stand equally far apart, however many accidentals
        width += _signature(abs(phrase.key.signature)) - _signature(_MOST_ALTERED)
    room = {}
    for index, found in enumerate(parts):
        wide = symbol_word(found, CHORD_EM).width
        room[index] = "i" * math.ceil((wide + _GAP) / _LETTER)
    return LineLayout(lines.systems, width, lines.stretch_last, room, lines.looseness, lines.crowded)


def _rhythm_of(phrase: Phrase, marks: StudyMarks, parts: Sequence[SymbolParts]) -> _Rhythm:
    return _Rhythm(
        phrase.metre,
        tuple([
            (bar.number, tuple([
                (event.values, _REST if event.pitch is None else not event.tie_in, len(event.grace))
                for event in bar.events
            ]))
            for bar in phrase.bars
        ]),
        tuple([
            _Symbol(change.bar, change.beat, _in_any_key(found))
            for change, found in zip(phrase.changes, parts, strict=True)
        ]),
        tuple(marks.under.items()),
    )  # fmt: skip


def _in_any_key(parts: SymbolParts) -> SymbolParts:
    """Return the parts of a chord symbol with root and bass as wide as they can become in any key."""
    if parts.root == "N.C.":
        return parts
    return SymbolParts("Gb", parts.base, parts.raised, "Gb" if parts.bass else "")


def _signature(accidentals: int) -> int:
    """Return the width of a key signature."""
    return _SIGNATURE + accidentals * _SIGNATURE_STEP if accidentals else 0


@lru_cache(maxsize=512)
def _lines_of(rhythm: _Rhythm, most: float, signature: int, fill: bool) -> _Lines:
    """Choose the systems of a rhythm and the width of its lines.

    `most` and `signature`, the widths of the longest line and of the key signature, are in drawing units;
    `fill` says that every line is as long as that.
    """
    rhythm = _as_written(rhythm)
    natural, least = zip(*_bar_widths(rhythm), strict=True)
    numbers = [number for number, _ in rhythm.bars]
    header = HEADER + signature
    way = _way(numbers, natural, least, header, most)
    systems, least_systems = (_widths(numbers, widths, way, header) for widths in (natural, least))
    # A phrase that had to be divided is set wider than usual. A line that is nearly full is filled.
    wanted = max(systems) * (_LOOSEST if len(systems) > 1 else 1)
    width = int(most if fill or wanted > 0.86 * most else math.ceil(wanted / 10) * 10)
    # Where the last system does not fill its line, its notes stand as far apart as those of the fullest
    # system.
    stretched = (width - header) / (max(systems) - header)
    nearly = _HALF_FULL if fill else _NEARLY_FULL
    full = len(systems) == 1 or header + stretched * (systems[-1] - header) >= nearly * width
    own = _USUAL if full else max(_USUAL, _own_looseness(rhythm))
    looseness = min(max(1.0, round(stretched * own, 2)), _LOOSEST_NOTES)
    crowded = max(way) == 1 and max(least_systems) > most
    return _Lines(way, width, full, looseness, crowded)


def _way(
    numbers: list[int], natural: Sequence[float], least: Sequence[float], header: int, most: float
) -> tuple[int, ...]:
    """Choose how many bars stand in each system: none alone, if its neighbours bear it in their line."""

    def fits(way: tuple[int, ...], closest: float, few: float) -> bool:
        usual, close = (max(_widths(numbers, widths, way, header)) for widths in (natural, least))
        return usual <= closest * most and close <= few * most

    ways = shares(numbers[-1])
    found = next((way for way in ways if fits(way, _CLOSEST, 1)), ways[-1])
    if 1 not in found or found == (1,):
        return found
    company = (way for way in ways if 1 not in way and fits(way, _WITH_COMPANY, _COLUMN_CLOSEST))
    return next(company, found)


def _as_written(rhythm: _Rhythm) -> _Rhythm:
    """Return a rhythm with its rests and syncopated notes as the score writes them."""
    bars = []
    for number, events in rhythm.bars:
        length = sum((value.quarters for values, _, _ in events for value in values), Fraction(0))
        start = Fraction(0) if number else rhythm.metre.bar_quarters - length
        parts = parts_of(tuple([(values, kind == _REST) for values, kind, _ in events]), start, rhythm.metre)
        found = events if parts is None else tuple([(part.values, *events[part.event][1:]) for part in parts])
        bars.append((number, found))
    return rhythm._replace(bars=tuple(bars))


def _own_looseness(rhythm: _Rhythm) -> float:
    """Return the looseness with which the notes of a rhythm take their usual widths, all taken together."""
    lengths = [value.quarters for _, events in rhythm.bars for values, _, _ in events for value in values]
    close = sum([_CLOSE_QUARTER * math.pow(quarters, _CLOSE_POWER) for quarters in lengths])
    return _FILLED * sum(map(_note_width, lengths)) / close


def _widths(numbers: list[int], widths: Sequence[float], way: tuple[int, ...], header: int) -> list[float]:
    """Return the width of each system; `widths` are those of the bars with these numbers."""
    firsts = first_bars(way)
    systems = [float(header)] * len(way)
    for number, width in zip(numbers, widths, strict=True):
        systems[max(0, bisect_right(firsts, number) - 1)] += width
    return systems


def _bar_widths(rhythm: _Rhythm) -> list[tuple[float, float]]:
    """Return the usual and the least width of each bar: that of its notes, or of its chord symbols if wider.

    A bar is gone through in spans, one before its first chord symbol and one from each symbol on.
    """
    degrees = dict(rhythm.degrees)
    found = []
    note = -1
    for number, events in rhythm.bars:
        own = [(symbol.beat, _symbol_width(symbol)) for symbol in rhythm.symbols if symbol.bar == number]
        spans = [[0.0, 0.0], *([width, width] for _, width in own)]
        notes = [[0.0, 0.0] for _ in spans]
        place = Fraction(0)
        for values, kind, grace in events:
            struck = kind == 1
            note += struck
            beat = rhythm.metre.beat_at(place)
            span = notes[sum(1 for start, _ in own if start <= beat)]
            degree = _degree_width(degrees.get(note, "")) if struck else 0.0
            for value in values:
                span[0] += max(_note_width(value.quarters), degree + 2 * _LEAST_GAP)
                span[1] += max(_LEAST_NOTE, degree + _LEAST_GAP)
                degree = 0.0
                place += value.quarters
            span[0] += _GRACE * grace
            span[1] += _GRACE * grace
        usual, least = (
            sum(max(span[kind], held[kind]) for span, held in zip(spans, notes, strict=True)) + _BAR_LINE
            for kind in (0, 1)
        )
        found.append((max(_LEAST_BAR if number else 0, usual), least))
    return found


def _degree_width(text: str) -> float:
    return degree_word(text, "sans", DEGREE_EM).width if text else 0.0


def _note_width(quarters: Fraction) -> float:
    return max(_SHORT_NOTE, _QUARTER * math.pow(quarters, 0.45))


def _symbol_width(symbol: _Symbol) -> float:
    return symbol_word(symbol.parts, CHORD_EM).width + 1.6 * _GAP
