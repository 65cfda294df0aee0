"""Scores drawn to be read back: phrases of the demo and a few hard ones, with what they should say."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cache
from pathlib import Path

from shedbook.analysis.account import account
from shedbook.book.ground.words import EN
from shedbook.book.manuscript.opening import open_manuscript
from shedbook.book.manuscript.settings.pages import MarkChoice
from shedbook.book.manuscript.source import PhraseText
from shedbook.book.scores.study import Studied, marks_of
from shedbook.editions.instruments.edition import edition_named
from shedbook.editions.keys.key_cycle import key_cycle
from shedbook.editions.keys.reader_keys import phrase_keys
from shedbook.editions.reader_part import reader_parts
from shedbook.editions.spelling.courtesy_accidentals import courtesies
from shedbook.engrave.drawing.score_drawing import draw, draw_all
from shedbook.engrave.notation.score_style import ScoreStyle
from shedbook.engrave.notation.study_marks import NO_STUDY_MARKS, StudyMarks
from shedbook.phrase.model import Phrase
from shedbook.read_back.comparison import (
    Mismatch,
    bar_lengths,
    degree_mismatches,
    mismatches,
    tempo_mismatches,
)
from shedbook.read_back.reading import ReadScore, read_score
from shedbook.read_back.svg_ink import ink_of_svg

DEMO = Path(__file__).parents[2] / "examples" / "tidewater"
COURTESY = "after-bar"

HARD = (
    ("tuplets", "Dm7b5 | G7b9 | Cm6", "4/4", "",
     "1/8 f4 ab c5 eb d f ab g | 1/16(5:4) ab f d b4 ab 1/4 g 1/8t a b c5 1/4 d | 1/2 eb4 g"),
    ("grace notes", "C7 | F7", "4/4", "",
     "1/4 grace:f#4 g4 grace:bb4 b4 (1/8 c5 d) e.accent f.staccato | 1/4. g.ghost 1/8 a.fall 1/4 bb.scoop "
     "c5.tenuto"),
    ("a pick-up", "CΔ7 | Fø7 | B°7 | N.C.", "4/4", "1/4",
     "1/8 g4 a | 1/4 b c5 d - | 1/1 - | 1/2+1/8 f#5 1/8 eb d c | 1/1 c"),
    ("ties", "C7 | F7 | Bb7 | Eb7 | C7 | F7 | Bb7", "4/4", "",
     "1/2 c4 1/4 e f | + 1/4 g a bb | 1/8. c5 1/16 d 1/8 e f 1/4. g 1/8 a | + 1/2 - | 1/16 c4 d e f g a bb "
     "c5 1/8 d 1/16 e f 1/8. g 1/16 a | 1/2. c5 1/4 db | + 1/1"),
    ("compound", "C7 | F7 | Bb7", "6/8", "", "1/8 c4 d e f g a | 1/4. - c5 | 1/4 d5 1/8 e 1/8 f 1/4 -"),
    ("double accidentals", "Cb7 | F#7#9/A# | G7b9b13", "4/4", "",
     "1/4 cb4 bbb ebb fb | 1/4 c##5 b# a## g# | 1/8 f f# f g gb g# g a"),
    ("marks", "C7 | Eb7 | F7", "4/4", "",
     "1/8 c4.accent d.staccato e.tenuto f.ghost gb5.ghost a.fall bb.scoop c.accent.staccato | 1/4 eb4.scoop "
     "db5.fall 1/2 g.accent.fall | + 1/4 1/8 a.ghost ab.accent.scoop 1/4 b6.tenuto c4.accent.tenuto"),
    ("duplets", "C7", "6/8", "", "1/8(2:3) c4 d 1/8(4:3) e f g a"),
)  # fmt: skip
"""Invented lines: title, changes, metre, pick-up, line."""


@dataclass(frozen=True, slots=True)
class Printed:
    """A drawn score, and the phrase that it should show."""

    svg: str
    phrase: Phrase
    signature: bool = False
    courtesy: str = COURTESY
    under: Mapping[int, str] = field(default_factory=dict)
    feel: str = "Swing"

    def read(self, svg: str = "") -> ReadScore:
        """Read the picture, or another in its place."""
        return read_score(ink_of_svg(svg or self.svg), bar_lengths(self.phrase))

    def wrong(self, svg: str = "") -> list[Mismatch]:
        """Return what is wrong with the picture, or with another in its place."""
        key = self.phrase.key if self.signature else None
        reminders = courtesies(self.phrase, self.courtesy, signature=key)
        score = self.read(svg)
        return [
            *mismatches(score, self.phrase, signature=self.signature, reminders=reminders),
            *degree_mismatches(score, self.phrase, self.under),
            *tempo_mismatches(score, self.phrase, self.feel),
        ]


def hard_phrase(title: str) -> Phrase:
    """Return one of `HARD`."""
    row = next(row for row in HARD if row[0] == title)
    fields = {"title": title, "changes": row[1], "metre": row[2], "line": row[4]}
    return PhraseText(fields | ({"pickup": row[3]} if row[3] else {})).phrase()


def printed(phrase: Phrase, *, signature: bool = False, clef: str = "G2", degrees: bool = False) -> Printed:
    """Draw a phrase, with the degree of every note where that is wanted."""
    style = ScoreStyle(clef=clef, signature=signature, courtesy=COURTESY)
    marks = _degrees(phrase) if degrees else NO_STUDY_MARKS
    feel = phrase.feel[:1].upper() + phrase.feel[1:]
    return Printed(draw(phrase, marks, style).svg, phrase, signature, under=marks.under, feel=feel)


def _degrees(phrase: Phrase) -> StudyMarks:
    return marks_of(Studied(phrase, account(phrase)), MarkChoice(scales=False, sparse=False), EN)


@cache
def demo_scores(
    numbers: tuple[int, ...], keys: tuple[str, ...], *, signature: bool = False
) -> tuple[Printed, ...]:
    """Draw phrases of the demo, counted from 1, in concert keys with these tonics; () for all twelve."""
    found: list[Printed] = []
    edition = edition_named("concert")
    for number in numbers:
        phrase = open_manuscript(DEMO).phrases[number - 1].text.phrase()
        tonics = [key.tonic for key in key_cycle(phrase.key, "fourths")]
        wanted = [tonic for tonic in tonics if not keys or str(tonic) in keys]
        parts = [part.phrase for part in reader_parts(phrase, phrase_keys(phrase, edition, wanted), edition)]
        style = ScoreStyle(signature=signature, courtesy=COURTESY)
        drawings = draw_all(parts, style=style)
        found += [
            Printed(drawing.svg, part, signature, feel=part.feel.capitalize())
            for drawing, part in zip(drawings, parts, strict=True)
        ]
    return tuple(found)
