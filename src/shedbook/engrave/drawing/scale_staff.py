"""A scale written out on a staff of its own: heads without stems and metre, with the degree under each.

A note shows an accidental where it needs one by the rule of the bar, the whole scale being one bar.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import NamedTuple

from shedbook.engrave.drawing.above_staff import SYMBOL_RISE
from shedbook.engrave.drawing.below_staff import DEGREE_FALL
from shedbook.engrave.drawing.outlined_words import PlacedWord, degree_word, symbol_word
from shedbook.engrave.drawing.picture import (
    PADDING,
    Drawing,
    LetteredSystem,
    PictureSize,
    assembled,
)
from shedbook.engrave.engraver import verovio_door
from shedbook.engrave.engraver.verovio_svg import HALF_HEAD, DrawnPage, DrawnScore, read_verovio_svg
from shedbook.engrave.notation.mei_score import CLEFS, document, with_ids
from shedbook.engrave.notation.score_notes import ScoreNote
from shedbook.engrave.notation.score_style import CHORD_EM, DEGREE_EM, ScoreStyle
from shedbook.errors import RenderError
from shedbook.phrase.accidentals import MEI_ACCIDENTALS, AccidentalReader
from shedbook.phrase.model import Value
from shedbook.theory.chord import Chord
from shedbook.theory.chord_symbol import symbol_parts
from shedbook.theory.pitch import Pitch

_CLEF_WIDTH = 900
_NOTE_WIDTH = 560
_SYMBOL_GAP = 150
_SYMBOL_BASE = -480
"""The base line of the chord symbols, where no note reaches higher."""
_QUARTER = Value(4)


@dataclass(frozen=True, slots=True)
class ScaleStaff:
    """A scale to write out: its notes from the root to the octave, their degrees over the chord, the chord.

    `pitches` and `degrees` are equally long. Without a chord no chord symbol is drawn.
    """

    pitches: tuple[Pitch, ...]
    degrees: tuple[str, ...]
    chord: Chord | None = None


def draw_scales(rows: Sequence[ScaleStaff], style: ScoreStyle) -> tuple[Drawing, ...]:
    """Draw scales, each as a picture of its own, in the order of `rows`.

    All that are drawn together are equally long, and in them the chord symbols stand equally high over the
    staff, and the degrees equally low. Scales with the same number of notes share a page of Verovio's.

    Raises:
        RenderError: if Verovio fails, or does not draw every note.
    """
    found: dict[int, _Traced] = {}
    width = _CLEF_WIDTH + _NOTE_WIDTH * max((len(row.pitches) for row in rows), default=0)
    for count in sorted({len(row.pitches) for row in rows}):
        page = [index for index, row in enumerate(rows) if len(row.pitches) == count]
        found.update(zip(page, _traced([rows[index] for index in page], width, style), strict=True))
    if not found:
        return ()
    systems = [one.score.systems[0] for one in found.values()]
    frame = _Frame(
        symbols=min(_SYMBOL_BASE, min(math.floor(system.upper) - _SYMBOL_GAP for system in systems)),
        degrees=max([y for system in systems for _, _, y in system.degrees], default=0),
        lower=math.ceil(max(system.lower for system in systems)),
    )
    return tuple(_lettered(row, found[index], frame, style) for index, row in enumerate(rows))


class _Traced(NamedTuple):
    """A scale that Verovio has drawn."""

    score: DrawnScore
    trace: DrawnPage


class _Frame(NamedTuple):
    """What is the same in scales that stand side by side: the base lines of their words, their lowest ink."""

    symbols: int
    degrees: int
    lower: int


def _traced(rows: Sequence[ScaleStaff], width: int, style: ScoreStyle) -> list[_Traced]:
    """Return scales as Verovio has drawn them, `width` long; all have the same number of notes."""
    notes = [
        {
            f"n{index}": ScoreNote(_QUARTER, pitch, f"n{index}", index)
            for index, pitch in enumerate(row.pitches)
        }
        for row in rows
    ]
    movements = [with_ids(_movement(row, style), f"k{number}-") for number, row in enumerate(rows)]
    traced = read_verovio_svg(verovio_door.svg(document(movements), width=width), notes, style.prefix)
    for written, score in zip(notes, traced.scores, strict=True):
        if written.keys() - score.drawn or len(score.systems) != 1:
            raise RenderError("Notes of a scale are missing in the engraved score.")
    return [_Traced(score, traced) for score in traced.scores]


def _lettered(row: ScaleStaff, traced: _Traced, frame: _Frame, style: ScoreStyle) -> Drawing:
    """Return the picture of a scale, with degrees under the heads and the chord symbol over the first."""
    system = traced.score.systems[0]
    words = []
    for note, x, _ in system.degrees:
        word = degree_word(row.degrees[note], "sans", DEGREE_EM)
        words.append(PlacedWord(word, x + HALF_HEAD - word.width / 2, frame.degrees))
    if row.chord is not None and row.chord.root is not None:
        symbol = symbol_word(symbol_parts(row.chord), CHORD_EM)
        words.append(PlacedWord(symbol, system.places.get(0, 0), frame.symbols))
    lower = max(frame.lower, frame.degrees + DEGREE_FALL)
    size = PictureSize(traced.trace.width + PADDING, frame.symbols - SYMBOL_RISE, lower + PADDING)
    music = {code: traced.trace.outlines[code] for code in sorted(traced.score.music)}
    return assembled([LetteredSystem(system.parts, words, 0)], music, size, style)


def _movement(row: ScaleStaff, style: ScoreStyle) -> str:
    return (
        f'<mdiv><score><scoreDef><staffGrp><staffDef n="1" lines="5" {CLEFS[style.clef]}/></staffGrp>'
        '</scoreDef><section><sb/><measure metcon="false" right="invis"><staff n="1"><layer n="1">'
        f"{_notes(row.pitches)}</layer></staff></measure></section></score></mdiv>"
    )


def _notes(pitches: Sequence[Pitch]) -> str:
    reader = AccidentalReader()
    out = []
    for index, pitch in enumerate(pitches):
        sign = MEI_ACCIDENTALS[pitch.alteration]
        accidental = f' accid="{sign}"' if reader.needs(pitch) else ""
        out.append(
            f'<note xml:id="n{index}" dur="4" stem.visible="false" pname="{pitch.letter.lower()}" '
            f'oct="{pitch.octave}"{accidental}><verse n="1"><syl>nn</syl></verse></note>'
        )
    return "".join(out)
