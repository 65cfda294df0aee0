"""The score of a phrase as a picture: Verovio's drawing, with our own lettering and study marks set into it.

Every written note of the picture is a group; its id is the prefix of the style and then `ScoreNote.id`, so
that a program can find the note that `phrase.model.sounding_notes` counts.
"""

from __future__ import annotations

import contextlib
import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace
from typing import NamedTuple

from shedbook.editions.fingering.tab import Tab
from shedbook.engrave.drawing.above_staff import (
    SYMBOL_RISE,
    scale_names,
    symbol_base,
    symbols,
    tempo_mark,
)
from shedbook.engrave.drawing.below_staff import (
    degree_drop,
    degrees_below,
    degrees_floor,
    marks_below,
)
from shedbook.engrave.drawing.line_layout import LineLayout, lay_out
from shedbook.engrave.drawing.outlined_words import (
    PlacedWord,
    note_name_word,
    text_word,
)
from shedbook.engrave.drawing.picture import (
    PADDING,
    Drawing,
    LetteredSystem,
    PictureSize,
    ScoreLine,
    assembled,
)
from shedbook.engrave.drawing.tab_staff import tab_staff
from shedbook.engrave.engraver import verovio_door
from shedbook.engrave.engraver.verovio_svg import (
    HALF_HEAD,
    DrawnPage,
    DrawnScore,
    DrawnSystem,
    read_verovio_svg,
)
from shedbook.engrave.notation.mei_score import document, movement
from shedbook.engrave.notation.score_notes import ScoreBar, ScoreNote, score_bars
from shedbook.engrave.notation.score_style import (
    LABEL_EM,
    NUMBER_EM,
    SCALE_EM,
    SPACE,
    ScoreStyle,
)
from shedbook.engrave.notation.study_marks import NO_STUDY_MARKS, StudyMarks
from shedbook.engrave.notation.system_breaks import first_bars
from shedbook.errors import RenderError
from shedbook.phrase.model import Phrase

_PLACEHOLDER_RISE = 185
"""How much room Verovio keeps over the base line of a chord symbol for its placeholder."""
_TEMPO_GAP = 150
_TEMPO_RISE = 320
_LABEL_FALL = 800
"""How far a label reaches below the top line of the staff."""
_SYSTEMS_ON_A_PAGE = 60
"""How many systems go on one page of Verovio's, so that it is not higher than Verovio can bear."""
_DOUBLE_BAR = SPACE
"""Strokes of a bar line that stand closer than this are one bar line."""
_NUMBER_ROOF = -2.2 * SPACE
"""How high the number of a system's first bar reaches, from the top line of its staff."""
_DEFAULT = ScoreStyle()


class Written(NamedTuple):
    """A score before it is drawn; `notes` are its score notes by name, `tab` is None without tablature."""

    phrase: Phrase
    layout: LineLayout
    bars: tuple[ScoreBar, ...]
    notes: Mapping[str, ScoreNote]
    tab: Tab | None


def draw(
    phrase: Phrase,
    marks: StudyMarks = NO_STUDY_MARKS,
    style: ScoreStyle = _DEFAULT,
    tab: Tab | None = None,
    *,
    shown: StudyMarks | None = None,
) -> Drawing:
    """Draw the score of a phrase in the key in which it stands.

    Args:
        phrase: the phrase, spelled as it is to be read.
        marks: the study marks to draw into the score.
        style: the look and the real sizes.
        tab: the strings and frets of its notes, where tablature stands under the staff.
        shown: those of the marks under the staff that are seen. The others keep their room, so that a score
            that is built up mark by mark stands still.

    Raises:
        RenderError: if Verovio fails, or does not draw every note of the phrase.
    """
    return _drawn([write(phrase, marks, style, tab)], marks, style, shown)[0]


def draw_all(
    phrases: Iterable[Phrase],
    marks: StudyMarks = NO_STUDY_MARKS,
    style: ScoreStyle = _DEFAULT,
    tabs: Iterable[Tab | None] | None = None,
) -> tuple[Drawing, ...]:
    """Draw several scores with the same marks, such as a phrase in all its keys; quicker than one by one.

    Each comes out exactly as `draw` draws it. Verovio spends two fifths of its time on the page round a
    score; so several scores are drawn on one page and then cut apart.

    Args:
        phrases: the phrases, spelled as they are to be read.
        marks: the study marks of every one.
        style: the look of every one.
        tabs: the strings and frets of each phrase, one to one, or None for no tablature at all.

    Raises:
        RenderError: if one cannot be drawn; the message names its key.
    """
    every = tuple(phrases)
    written = [
        write(phrase, marks, style, tab)
        for phrase, tab in zip(every, tabs or (None,) * len(every), strict=True)
    ]
    drawings: dict[int, Drawing] = {}
    for page in _pages(written):
        scores = [written[number] for number in page]
        drawings.update(zip(page, _together(scores, marks, style), strict=True))
    return tuple(drawings[number] for number in range(len(written)))


def write(phrase: Phrase, marks: StudyMarks, style: ScoreStyle, tab: Tab | None = None) -> Written:
    """Return what a score holds, and how its lines are laid out."""
    bars = score_bars(phrase)
    notes = {note.id: note for bar in bars for note in bar.notes if note.pitch is not None}
    return Written(phrase, lay_out(phrase, marks, style), bars, notes, tab)


def _pages(written: Sequence[Written]) -> list[list[int]]:
    """Share scores out on pages, as indexes of the sequence; all on one page have lines of one length."""
    pages: dict[tuple[int, bool, float, int], list[int]] = {}
    systems = 0
    for place, one in enumerate(written):
        layout = one.layout
        systems += len(layout.systems)
        kind = (layout.width, layout.stretch_last, layout.looseness, systems // _SYSTEMS_ON_A_PAGE)
        pages.setdefault(kind, []).append(place)
    return list(pages.values())


def _together(scores: Sequence[Written], marks: StudyMarks, style: ScoreStyle) -> list[Drawing]:
    """Draw a page of scores. When that fails, draw each alone, to find the one that cannot be drawn."""
    with contextlib.suppress(RenderError):
        return _drawn(scores, marks, style)
    found = []
    for one in scores:
        try:
            found += _drawn([one], marks, style)
        except RenderError as error:
            raise RenderError(f"In {one.phrase.key}: {error}", hint=error.hint) from error
    return found


def _drawn(
    scores: Sequence[Written], marks: StudyMarks, style: ScoreStyle, shown: StudyMarks | None = None
) -> list[Drawing]:
    movements = [notated(one, marks, style, opening=f"k{number}-") for number, one in enumerate(scores)]
    layout = scores[0].layout
    picture = verovio_door.svg(
        document(movements), width=layout.width, stretch_last=layout.stretch_last, looseness=layout.looseness
    )
    traced = read_verovio_svg(picture, [one.notes for one in scores], style.prefix)
    seen = marks if shown is None else shown
    return [
        lettered(one, score, traced, marks, seen, style)
        for one, score in zip(scores, traced.scores, strict=True)
    ]


def notated(one: Written, marks: StudyMarks, style: ScoreStyle, *, opening: str = "") -> str:
    """Return a score as a movement of an MEI document; `opening` opens the ids in it."""
    return movement(
        one.phrase, marks, clef=style.clef, signature=style.signature, courtesy=style.courtesy,
        systems=one.layout.systems, room=one.layout.room, bars=one.bars, opening=opening,
    )  # fmt: skip


def _check(one: Written, score: DrawnScore) -> None:
    """Refuse a score in which Verovio has left notes out."""
    missing = one.notes.keys() - score.drawn
    if missing or not score.systems:
        raise RenderError(
            f'{len(missing)} of {len(one.notes)} notes of "{one.phrase.title}" are missing in the engraved '
            "score.",
            hint="This is a fault of shedbook; please report the phrase.",
        )


def lettered(
    one: Written,
    score: DrawnScore,
    traced: DrawnPage,
    marks: StudyMarks,
    seen: StudyMarks,
    style: ScoreStyle,
) -> Drawing:
    """Return the picture of one score with our lettering set into it; of the marks there is room for all.

    Where chord symbols or degrees need more room than Verovio kept, all systems from there on move down.

    Raises:
        RenderError: if Verovio has left notes out.
    """
    _check(one, score)
    systems: list[LetteredSystem] = []
    moved = 0
    upper = lower = 0.0
    white: tuple[float, float] = (0, 0)
    first = score.systems[0]
    numbers = first_bars(one.layout.systems)
    for index, system in enumerate(score.systems):
        base, drop = symbol_base(one.phrase, system), degree_drop(system)
        names, rows = scale_names(marks, system, base, traced.width)
        placed = [*symbols(one.phrase, system, base), *names, *degrees_below(marks, seen, system, drop)]
        if index:
            highest = max((y for _, _, y in system.symbols), default=0)
            moved += highest - base + SYMBOL_RISE - _PLACEHOLDER_RISE + rows
            roof = min(system.upper, base - SYMBOL_RISE - rows if system.symbols else 0, _NUMBER_ROOF)
            spare = system.top - first.top + moved + roof - lower - style.most_white * SPACE
            moved -= max(0, round(spare))
            white = (lower, system.top - first.top + moved + roof)
            number = text_word(str(numbers[index]), "sans", NUMBER_EM)
            placed.append(PlacedWord(number, 0, -1.45 * SPACE))
        down = system.top - first.top + moved
        systems.append(LetteredSystem(system.parts, placed, down))
        drawn, words, floor, depth = _below(one, system, (marks, seen), drop, traced.width)
        systems[-1] = LetteredSystem([*system.parts, *drawn], [*placed, *words], down, white)
        lower = down + floor + depth
        moved += drop + depth
        if not index:
            upper = min(first.upper, base - SYMBOL_RISE - rows) if first.symbols else first.upper
    if style.tempo:
        systems[0].words.append(PlacedWord(tempo_mark(one.phrase, style), 0, upper - _TEMPO_GAP))
        upper -= _TEMPO_GAP + _TEMPO_RISE
    systems[0].words.extend(_label(style))
    if style.label:
        lower = max(lower, _LABEL_FALL)
    size = PictureSize(traced.width + PADDING, math.floor(upper), math.ceil(lower) + PADDING)
    music = {code: traced.outlines[code] for code in sorted(score.music)}
    downs = [system.down for system in systems]
    lines = tuple(_lines(one, score, downs))
    return replace(assembled(systems, music, size, style), crowded=one.layout.crowded, lines=lines)


def _lines(one: Written, score: DrawnScore, downs: Sequence[int]) -> Iterable[ScoreLine]:
    """Yield where bars and notes stand, system by system; `downs` are the ordinates of the staves."""
    numbers = first_bars(one.layout.systems)
    for index, (system, down) in enumerate(zip(score.systems, downs, strict=True)):
        edges = [0]
        for x in sorted(x for x, _ in system.bar_lines):
            if x - edges[-1] < _DOUBLE_BAR:  # the second stroke of a final bar line
                edges[-1] = x if len(edges) > 1 else edges[-1]
            else:
                edges.append(x)
        first = one.bars[0].number if not index else numbers[index]
        heads = {note: x + HALF_HEAD for note, x in system.places.items()}
        yield ScoreLine(first, tuple(edges), down, heads)


def _below(
    one: Written, system: DrawnSystem, marks: tuple[StudyMarks, StudyMarks], drop: int, width: int
) -> tuple[list[str], list[PlacedWord], float, int]:
    """Return what stands below a system: SVG elements, words, the ordinate where they begin, their depth.

    `marks` are those for which there is room, and those that are seen.
    """
    floor = degrees_floor(system, drop)
    (room_for, seen) = marks
    drawn, depth = marks_below(room_for, system.places, floor, width)
    if seen is not room_for:
        drawn, _ = marks_below(seen, system.places, floor, width)
    if one.tab is None:
        return list(drawn), [], floor, depth
    staff = tab_staff(one.tab, system, one.notes, round(floor + depth))
    return [*drawn, *staff.parts], list(staff.words), floor, round(depth + staff.depth)


def _label(style: ScoreStyle) -> Iterable[PlacedWord]:
    """Yield the name of the key in the margin: the tonic large at the middle of the staff, its mode below."""
    if not style.label or style.label_mm <= 0:
        return
    tonic, _, mode = style.label.partition(" ")
    left = -style.label_mm / style.mm
    word = note_name_word(tonic, "sans-semibold", LABEL_EM)
    middle = 2 * SPACE
    yield PlacedWord(word, left, middle + (0.33 * LABEL_EM if not mode else 0.12 * LABEL_EM))
    if mode:
        yield PlacedWord(text_word(mode, "sans", SCALE_EM), left, middle + 0.12 * LABEL_EM + 1.15 * SCALE_EM)
