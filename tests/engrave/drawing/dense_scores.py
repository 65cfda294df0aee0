"""Scores with much in little room, and study marks for any of them."""

from __future__ import annotations

import pytest

from shedbook.engrave.notation.study_marks import StudyMarks
from shedbook.phrase.model import Phrase, sounding_notes

DEGREES = ("b13", "#11", "b9", "#9", "13", "b7", "5", "3")

EIGHTHS = ("1/8 f4 ab c5 eb d f ab g | b4 ab d5 f ab g eb d | c eb f# g ab b c6 b5 | d eb c d b4 c5 ab4 g",
           "Dm7b5 | G7b9 | Cm6 | %")  # fmt: skip

DENSE = [
    pytest.param(*EIGHTHS, id="four bars of eighths"),
    pytest.param(
        "1/8 f#4 a# c#5 e d# f# a# g# | b4 a d5 f a g e d",
        "C#m7b5 F#7(b9,#11) Bbmaj7#11/D Bbmaj7#11 | Gbm(maj7)/Bb Ab13(#9,b5) Dbdim7 EbΔ7",
        id="four chords a bar",
    ),
    pytest.param(
        "1/8 e6 f g a g f e d | 1/4 c6 b5 g#5 e | 1/8 f3 g ab a bb3 b c4 c# | 1/1 f3",
        "Ebmaj7#11 Ebm7b5 Ab7b9 D7#9 | C Fm7b5 Gm7b5 A7b9 | Bb B C7#9b13 Db9 | E7(b9,#11)", id="ledger lines",
    ),
    pytest.param("1/1 c5 | d", "C7alt F7#9b13 Bb13(b9,#11) Eb7(b9,#11) | Am7b5 D7b9", id="few notes"),
    pytest.param(
        "1/1 - | 1/2 - d5", "C7alt F7#9b13 Bb13(b9,#11) Eb7(b9,#11) | Am7b5@1 D7b9@4.5", id="over rests"
    ),
    pytest.param(
        "1/4 (c5 d e f | g a b c6 | c b a g | f e d c | d e f g | a b c6 1/4 b)",
        "C | Fmaj7#11 | G7b9 | Fm7b5 | Cm7b5 | F7", id="a long slur",
    ),
    pytest.param("1/16 c6 d e f g a b c5 d e f g a b c6 b | 1/1 c", "Cm7b5 F7b9 | Bbm6", id="sixteenths"),
    pytest.param(
        "1/8t c5 e g bb g e c6 b bb a ab g | 1/4t c6 d e 1/2 c.accent", "C7b9 F7#11 | Bm7b5 E7b9",
        id="triplets",
    ),
]  # fmt: skip


def degrees(phrase: Phrase) -> StudyMarks:
    count = len(sounding_notes(phrase))
    names = {index: "half-whole diminished" for index in range(0, len(phrase.changes), 2)}
    return StudyMarks({index: DEGREES[index % 8] for index in range(count)}, names)
