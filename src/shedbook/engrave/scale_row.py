"""A scale written out: stemless heads on one staff, without metre, with the degree under each.

Every note that needs one carries its accidental; the widths are those of the book's other scores.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from shedbook.engrave import verovio_door
from shedbook.engrave.drawing import Drawing, Lettered, Size, assembled
from shedbook.engrave.heads import Head
from shedbook.engrave.lettering import Placed, degree_word, symbol_word
from shedbook.engrave.score import CLEFS, document, with_ids
from shedbook.engrave.style import CHORD_EM, DEGREE_EM, Style
from shedbook.engrave.trace import Score, Trace, trace
from shedbook.errors import RenderError
from shedbook.phrase.accidentals import SIGNS, Reader
from shedbook.phrase.model import Value
from shedbook.theory.chord import Chord
from shedbook.theory.chord_symbol import symbol_parts
from shedbook.theory.pitch import Pitch

_CLEF_WIDTH = 900
_NOTE_WIDTH = 560
_HALF_HEAD = 113
_DEGREE_FALL = 60
_SYMBOL_GAP = 190
_SYMBOL_RISE = 350
_PADDING = 12
_QUARTER = Value(4)


@dataclass(frozen=True, slots=True)
class ScaleRow:
    """A scale to write out: its notes from root to octave, their degrees over the chord, the chord."""

    pitches: tuple[Pitch, ...]
    degrees: tuple[str, ...]
    chord: Chord | None = None


def draw_scales(rows: Sequence[ScaleRow], style: Style) -> tuple[Drawing, ...]:
    """Draw scales, each on a staff of its own; those with as many notes share a page of Verovio's.

    Raises:
        RenderError: if Verovio fails, or does not draw every note.
    """
    drawings: dict[int, Drawing] = {}
    for count in sorted({len(row.pitches) for row in rows}):
        page = [index for index, row in enumerate(rows) if len(row.pitches) == count]
        drawings.update(zip(page, _drawn([rows[index] for index in page], style), strict=True))
    return tuple(drawings[index] for index in range(len(rows)))


def _drawn(rows: Sequence[ScaleRow], style: Style) -> list[Drawing]:
    """Draw scales with equally many notes."""
    heads = [
        {f"n{index}": Head(_QUARTER, pitch, f"n{index}", index) for index, pitch in enumerate(row.pitches)}
        for row in rows
    ]
    movements = [with_ids(_movement(row, style), f"k{number}-") for number, row in enumerate(rows)]
    width = _CLEF_WIDTH + _NOTE_WIDTH * len(heads[0])
    traced = trace(verovio_door.svg(document(movements), width=width), heads, style.prefix)
    for written, score in zip(heads, traced.scores, strict=True):
        if written.keys() - score.drawn or len(score.systems) != 1:
            raise RenderError("Notes of a scale are missing in the engraved score.")
    return [_lettered(row, score, traced, style) for row, score in zip(rows, traced.scores, strict=True)]


def _lettered(row: ScaleRow, score: Score, traced: Trace, style: Style) -> Drawing:
    """Set the degrees under the heads and the chord's symbol over the first."""
    system = score.systems[0]
    base = max((y for _, _, y in system.degrees), default=0)
    words = []
    for note, x, _ in system.degrees:
        word = degree_word(row.degrees[note], "sans", DEGREE_EM)
        words.append(Placed(word, x + _HALF_HEAD - word.width / 2, base))
    upper = system.upper
    if row.chord is not None and row.chord.root is not None:
        symbol = symbol_word(symbol_parts(row.chord), CHORD_EM)
        words.append(Placed(symbol, system.places.get(0, 0), upper - _SYMBOL_GAP))
        upper -= _SYMBOL_GAP + _SYMBOL_RISE
    lower = max(system.lower, base + _DEGREE_FALL)
    size = Size(traced.width + _PADDING, math.floor(upper), math.ceil(lower) + _PADDING)
    music = {code: traced.outlines[code] for code in sorted(score.music)}
    return assembled([Lettered(system.parts, words, 0)], music, size, style)


def _movement(row: ScaleRow, style: Style) -> str:
    return (
        f'<mdiv><score><scoreDef><staffGrp><staffDef n="1" lines="5" {CLEFS[style.clef]}/></staffGrp>'
        '</scoreDef><section><sb/><measure metcon="false" right="invis"><staff n="1"><layer n="1">'
        f"{_notes(row.pitches)}</layer></staff></measure></section></score></mdiv>"
    )


def _notes(pitches: Sequence[Pitch]) -> str:
    reader = Reader()
    out = []
    for index, pitch in enumerate(pitches):
        sign = SIGNS[pitch.alteration]
        accidental = f' accid="{sign}"' if reader.needs(pitch) else ""
        out.append(
            f'<note xml:id="n{index}" dur="4" stem.visible="false" pname="{pitch.letter.lower()}" '
            f'oct="{pitch.octave}"{accidental}><verse n="1"><syl>nn</syl></verse></note>'
        )
    return "".join(out)
