"""A phrase as the reader of an edition sees it on the page.

That is: its scores in several widths, why it works, and what any note would be over its changes.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import Any

from shedbook.analysis.account import Account
from shedbook.analysis.telling import notes_of_sentences
from shedbook.book.ground.chord_style import in_style
from shedbook.book.ground.words import Words, words_of
from shedbook.book.practice.inputs import PartInput
from shedbook.book.scores.placing import keys_of, placed_in, reader_explanation
from shedbook.book.scores.spoken_text import score_text
from shedbook.book.scores.study import Studied, study
from shedbook.book.scores.written_scales import written_scales
from shedbook.editions.instruments.edition import Edition
from shedbook.editions.reader_part import ReaderPart
from shedbook.engrave.drawing.line_layout import lay_out
from shedbook.engrave.drawing.picture import Drawing
from shedbook.engrave.drawing.score_drawing import draw_all
from shedbook.engrave.notation.score_style import SPACE, ScoreStyle
from shedbook.engrave.notation.study_marks import NO_STUDY_MARKS
from shedbook.phrase.model import Phrase, sounding_notes
from shedbook.theory.pitch import NoteName, spellings

Json = dict[str, Any]

BARS_A_LINE = (1, 2, 4)
"""How many bars stand in a line: on a phone upright, on one that lies, on a desk."""
_STAFF_MM = 7.0
_WHITE = 2.5
"""The most white between two lines, in staff spaces: a phone has little room."""
_WIDTHS = range(3000, 24_001, 200)
"""Lengths of line that are tried, in drawing units."""
_DEFINED = re.compile(r'<(path|g) id="([^"]+)"')
_BOX = re.compile(r'viewBox="(\S+) (\S+) (\S+) (\S+)"')


def read_part(given: PartInput) -> Json:
    """Return a phrase as it is read in each of its keys, its home key among them.

    Raises:
        ReadError: if the phrase cannot be read; its place is not known.
        RenderError: if a score cannot be drawn.
    """
    words = words_of(given.language.tag, dict(given.language.own))
    studied = study(in_style(given.text.phrase(), given.chord_style))
    keys = keys_of(studied.phrase, given.keys, given.edition)
    wanted = keys.wanted
    home, *parts = placed_in(studied, keys.cycle, (keys.home, *wanted), given.edition)
    glyphs: dict[str, str] = {}
    layouts = _layouts([one.phrase for one in parts], given, glyphs)
    return {
        "glyphs": glyphs,
        "keys": [
            {
                "key": str(part.key.concert),
                "name": words.whole_key(str(part.key.written)),
                "alt": score_text(part.phrase, words, None),
                "midi": _sounding(part, given.edition),
                "layouts": [drawn[place] for drawn in layouts],
            }
            for place, part in enumerate(parts)
        ],
        "home": str(home.key.concert),
        "why": _why(studied, home, given, words),
        "over": _over(home.phrase, given.edition),
    }  # fmt: skip


def _sounding(part: ReaderPart, edition: Edition) -> list[int]:
    """Return the MIDI numbers of what sounds where the reader plays what stands there."""
    above = edition.transposition.semitones
    return [one.pitch.midi - above for one in sounding_notes(part.phrase)]


# Scores.


def _layouts(phrases: Sequence[Phrase], given: PartInput, glyphs: dict[str, str]) -> list[list[Json]]:
    """Return the scores of the keys in each width, those in one width together."""
    style = _style(given)
    found, seen = [], set[tuple[int, ...]]()
    for bars in BARS_A_LINE:
        way = _width(phrases[0], bars, style)
        if way is None or way[1] in seen:
            continue
        units, systems = way
        seen.add(systems)
        drawings = draw_all(phrases, NO_STUDY_MARKS, _style(given, units))
        found.append([_drawing(one, max(systems), glyphs) for one in drawings])
    if not found:  # not even one bar to a line lies well: as close as it goes
        drawings = draw_all(phrases, NO_STUDY_MARKS, _style(given, _WIDTHS[-1]))
        found.append([_drawing(one, phrases[0].full_bars, glyphs) for one in drawings])
    return found


def _style(given: PartInput, units: int = 0) -> ScoreStyle:
    return ScoreStyle(
        staff_mm=_STAFF_MM,
        width_mm=(units or _WIDTHS[0]) * _STAFF_MM / (4 * SPACE),
        clef=given.edition.clef,
        signature=given.signature,
        courtesy=given.courtesy,
        tempo=False,
        fill=True,
        most_white=_WHITE,
    )


def _width(phrase: Phrase, bars: int, style: ScoreStyle) -> tuple[int, tuple[int, ...]] | None:
    """Return the shortest line, in drawing units, that holds so many bars, and how many stand in each line.

    None where no line does: bars that are long beside others stand alone.
    """
    lines = -(-phrase.full_bars // bars)
    for units in _WIDTHS:
        tried = ScoreStyle(
            staff_mm=style.staff_mm, width_mm=units * style.mm, clef=style.clef, signature=style.signature,
            tempo=False, fill=True,
        )  # fmt: skip
        layout = lay_out(phrase, NO_STUDY_MARKS, tried)
        if len(layout.systems) == lines and not layout.crowded:
            return units, layout.systems
    return None


def _drawing(drawing: Drawing, bars: int, glyphs: dict[str, str]) -> Json:
    """Return a score for the page: its inside, its box, and where bars and notes stand, in drawing units."""
    box = _BOX.search(drawing.svg)
    assert box is not None
    head, _, body = drawing.svg.partition("</defs>")
    _gather(head[head.index("<defs>") + len("<defs>") :], glyphs)
    return {
        "bars": bars,
        "box": [round(float(number)) for number in box.groups()],
        "svg": body.removesuffix("</svg>"),
        "lines": [
            [line.first_bar, line.top, list(line.edges), [list(one) for one in line.notes.items()]]
            for line in drawing.lines
        ],
    }


def _gather(definitions: str, glyphs: dict[str, str]) -> None:
    """Add the glyphs of a picture to those of the book; one name stands for one outline everywhere."""
    places = [match.start() for match in _DEFINED.finditer(definitions)]
    for start, end in zip(places, [*places[1:], len(definitions)], strict=True):
        text = definitions[start:end]
        found = _DEFINED.match(text)
        assert found is not None
        assert glyphs.setdefault(found[2], text) == text, found[2]


# Words.


def _why(studied: Studied, home: ReaderPart, given: PartInput, words: Words) -> Json:
    told = reader_explanation(studied, home, words, given.language.tag)
    about = notes_of_sentences(studied.account)
    same = len(told) == len(about)
    shift = given.edition.transposition.semitones
    return {
        "sentences": [[text, list(about[place]) if same else []] for place, text in enumerate(told)],
        "scales": [
            {
                "name": words.named("scale", scale.name) if words.has(f"scale.{scale.name}") else scale.name,
                "chord": scale.chord.text,
                "midi": [pitch.midi - shift for pitch in scale.pitches],
                "names": [words.short_note(pitch.name) for pitch in scale.pitches],
                "degrees": list(scale.degrees),
            }
            for scale in written_scales(studied, home.phrase, given.edition.clef)
        ],
    }  # fmt: skip


# What a note is over each chord, for a line of the reader's own.


def _over(written: Phrase, edition: Edition) -> Json:
    """Return the tables by which a note of one's own is told what it is; pitch classes are written ones."""
    account = study(written).account
    flat = written.key.signature <= 0
    return {
        "clef": edition.clef,
        "shift": edition.transposition.semitones,
        "bars": written.full_bars,
        "bar": float(written.metre.bar_quarters),
        "beat": float(written.metre.beat_quarters),
        "strong": [float((beat - 1) * written.metre.beat_quarters) for beat in written.metre.strong_beats],
        "spans": [
            {
                "chord": span.chord.text,
                "start": float(span.start),
                "end": float(span.end),
                "degrees": list(span.degrees),
                "tones": [span.membership(number) for number in range(12)],
                "names": _names(account, place, flat=flat),
            }
            for place, span in enumerate(account.spans)
        ],
    }  # fmt: skip


def _names(account: Account, place: int, *, flat: bool) -> list[str]:
    """Return what each pitch class is called over a chord: by chord, by scale, else plainly by the key."""
    span = account.spans[place]
    found: dict[int, NoteName] = {}
    for name in (*span.chord.tones, *(span.scale.notes if span.scale else ())):
        if abs(name.alteration) <= 1:
            found.setdefault(name.pitch_class, name)
    return [str(found.get(number) or _plain(number, flat=flat)) for number in range(12)]


def _plain(pitch_class: int, *, flat: bool) -> NoteName:
    ways = [pitch.name for pitch in spellings(60 + pitch_class) if abs(pitch.alteration) <= 1]
    natural = next((one for one in ways if not one.alteration), None)
    return natural or next(one for one in ways if (one.alteration < 0) == flat)
