"""One key's score as a picture: Verovio's drawing made small and clean, with our own lettering in it.

What comes out is a self-contained SVG of outlines: no text, no fonts, no style sheet, black as
`currentColor`. Its user units are Verovio's drawing units (180 to a staff space), so that all numbers
stay whole; width and height are in millimetres. Every written note is a group named by the style's prefix
and `heads.Head.id`, counting struck notes as `phrase.model.sounding_notes` does.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from shedbook.engrave import verovio_door
from shedbook.engrave.heads import Head, heads_of
from shedbook.engrave.layout import lay_out
from shedbook.engrave.lettering import (
    GlyphKey,
    Word,
    degree_word,
    glyph_definition,
    note_name_word,
    symbol_word,
    tempo_word,
    text_word,
)  # fmt: skip
from shedbook.engrave.score import NO_MARKS, Marks, mei
from shedbook.engrave.style import (
    CHORD_EM,
    DEGREE_EM,
    LABEL_EM,
    NUMBER_EM,
    SCALE_EM,
    SPACE,
    TEMPO_EM,
    Style,
)  # fmt: skip
from shedbook.engrave.trace import MUSIC_SCALE, System, Trace, curve_points, trace
from shedbook.errors import RenderError
from shedbook.phrase.model import Phrase
from shedbook.theory.chord_symbol import symbol_parts

_SYMBOL_RISE = 350
"""How far a chord symbol rises over its base line."""
_PLACEHOLDER_RISE = 185
"""What Verovio keeps above that line for the placeholder."""
_SCALE_ROW = 330
_SCALE_BASE = 105
"""How far the base line of the scale names lies over the symbols."""
_TEMPO_GAP = 150
_TEMPO_RISE = 320
_HALF_HEAD = 113
_DEGREE_CLEARANCE = 340
_DEGREE_GAP = 45
_SLUR_CLEARANCE = 120
_PADDING = 12
_DEFAULT = Style()


@dataclass(frozen=True, slots=True)
class Drawing:
    """A score as SVG with its size in millimetres."""

    svg: str
    width_mm: float
    height_mm: float


@dataclass(frozen=True, slots=True)
class _Placed:
    word: Word
    x: float
    y: float


def draw(phrase: Phrase, marks: Marks = NO_MARKS, style: Style = _DEFAULT) -> Drawing:
    """Draw the score of a phrase in the key in which it stands.

    Raises:
        RenderError: if Verovio fails, or does not draw every note of the phrase.
    """
    layout = lay_out(phrase, marks, style)
    bars = heads_of(phrase)
    text = mei(
        phrase, marks, clef=style.clef, signature=style.signature, courtesy=style.courtesy,
        per_system=layout.per_system, room=layout.room, bars=bars,
    )  # fmt: skip
    picture = verovio_door.svg(text, width=layout.width, stretch_last=layout.stretch_last)
    heads = {head.id: head for bar in bars for head in bar.heads if head.pitch is not None}
    traced = trace(picture, heads, style.prefix)
    _check(phrase, heads, traced)
    row = _SCALE_ROW if marks.scales else 0
    bases = [_symbol_base(phrase, system) for system in traced.systems]
    words: list[list[_Placed]] = []
    shifts = [0]
    for index, system in enumerate(traced.systems):
        drop = _degree_drop(system)
        lift = max((y for _, _, y in system.symbols), default=0) - bases[index]
        if index:
            shifts[-1] += lift + _SYMBOL_RISE - _PLACEHOLDER_RISE + row
        shifts.append(shifts[-1] + drop)
        placed = [*_symbols(phrase, marks, system, bases[index]), *_degrees(marks, system, drop)]
        if index:
            number = text_word(str(index * layout.per_system + 1), "sans", NUMBER_EM)
            placed.append(_Placed(number, 0, system.staff_top - 1.45 * SPACE))
        words.append(placed)
    first = traced.systems[0]
    top = min(0, bases[0] - _SYMBOL_RISE - row) if first.symbols else 0
    if style.tempo:
        words[0].append(_Placed(_tempo(phrase), 0, top - _TEMPO_GAP))
        top -= _TEMPO_GAP + _TEMPO_RISE
    words[0] += _label(style, first)
    return _assembled(traced, words, style, top, shifts)


def _check(phrase: Phrase, heads: dict[str, Head], traced: Trace) -> None:
    missing = heads.keys() - traced.drawn
    if missing or not traced.systems:
        raise RenderError(
            f'{len(missing)} of {len(heads)} notes of "{phrase.title}" are missing in the engraved score.',
            hint="This is a fault of shedbook; please report the phrase.",
        )


def _symbol_base(phrase: Phrase, system: System) -> int:
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


def _symbols(phrase: Phrase, marks: Marks, system: System, base: float) -> Iterable[_Placed]:
    """Place the chord symbols on one base line, and the names of scales on another above it."""
    for change, x, _ in system.symbols:
        yield _Placed(symbol_word(symbol_parts(phrase.changes[change].chord), CHORD_EM), x, base)
        name = marks.scales.get(change)
        if name:
            yield _Placed(text_word(name, "serif-italic", SCALE_EM), x, base - _SYMBOL_RISE - _SCALE_BASE)


def _degree_drop(system: System) -> int:
    """Return how far the degrees must go down to clear the tuplet numbers."""
    if not system.degrees:
        return 0
    return max(0, system.tuplet_floor + _DEGREE_CLEARANCE - max(y for _, _, y in system.degrees))


def _degrees(marks: Marks, system: System, drop: int) -> list[_Placed]:
    """Centre the degrees under their heads, on one base line; neighbours too near move apart a little."""
    base = max((y for _, _, y in system.degrees), default=0) + drop
    placed: list[_Placed] = []
    for note, x, _ in system.degrees:
        word = degree_word(marks.under[note], "sans", DEGREE_EM)
        left = x + _HALF_HEAD - word.width / 2
        if placed:
            before = placed[-1]
            missing = before.x + before.word.width + _DEGREE_GAP - left
            if missing > 0:
                placed[-1] = _Placed(before.word, before.x - missing / 2, before.y)
                left += missing / 2
        placed.append(_Placed(word, left, base))
    return placed


def _tempo(phrase: Phrase) -> Word:
    """Return feel and tempo, counting the beat that players tap."""
    metre = phrase.metre
    dotted = metre.unit == 8 and metre.beats % 3 == 0 and metre.beats > 3
    note = "half" if metre.unit == 2 else "eighth" if metre.unit >= 8 and not dotted else "quarter"
    feel = phrase.feel[:1].upper() + phrase.feel[1:]
    if phrase.feel == "free":
        return text_word(feel, "serif-semibold", TEMPO_EM)
    return tempo_word(feel, note, dotted, phrase.tempo_bpm, "serif-semibold", TEMPO_EM)


def _label(style: Style, system: System) -> Iterable[_Placed]:
    """Place the key's name in the margin: the tonic large at the middle of the staff, its mode below."""
    if not style.label or style.label_mm <= 0:
        return
    tonic, _, mode = style.label.partition(" ")
    left = -style.label_mm / style.mm
    word = note_name_word(tonic, "sans-semibold", LABEL_EM)
    middle = system.staff_top + 2 * SPACE
    yield _Placed(word, left, middle + (0.33 * LABEL_EM if not mode else 0.12 * LABEL_EM))
    if mode:
        yield _Placed(text_word(mode, "sans", SCALE_EM), left, middle + 0.12 * LABEL_EM + 1.15 * SCALE_EM)


def _assembled(
    trace: Trace, words: list[list[_Placed]], style: Style, top: float, shifts: list[int]
) -> Drawing:
    """Put definitions, systems and lettering together.

    Each system moves down by its shift; the last shift is the whole picture's.
    """
    prefix = style.prefix
    glyphs: set[GlyphKey] = set()
    body = []
    for index, (system, placed) in enumerate(zip(trace.systems, words, strict=True)):
        shift = f' transform="translate(0 {shifts[index]})"' if index else ""
        body.append(f"<g{shift}>")
        body += system.parts
        for item in placed:
            glyphs |= item.word.glyphs
            body.append(f'<g transform="translate({item.x:.0f} {item.y:.0f})">{item.word.svg}</g>')
        body.append("</g>")
    left, upper = -round(style.label_mm / style.mm), round(top)
    width = trace.width + _PADDING - left
    height = trace.height + shifts[-1] + _PADDING - upper
    definitions = [
        f'<path id="{prefix}{code}" transform="scale({MUSIC_SCALE:g} -{MUSIC_SCALE:g})" d="{data}"/>'
        for code, data in trace.music.items()
    ]
    definitions += [glyph_definition(key, prefix) for key in sorted(glyphs)]
    svg = (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{width * style.mm:.3f}mm" '
        f'height="{height * style.mm:.3f}mm" viewBox="{left} {upper} {width} {height}" fill="currentColor">'
        f"<defs>{''.join(definitions)}</defs>{''.join(body).replace('{p}', prefix)}</svg>"
    )
    return Drawing(svg, width * style.mm, height * style.mm)
