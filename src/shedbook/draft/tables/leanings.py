"""The author's soft rules: what a teacher who writes phrases leans to, in hundredths of a natural logarithm.

Row format: name, by which an order can lean more or less to it; the figure of `draft.figures.SHAPES` that it
is added to; which entries ("*" for all along one index); the weight; source. `READING` weighs whole lines
when a set is chosen of those that were drawn.
"""

from __future__ import annotations

from typing import NamedTuple


class LeaningRow(NamedTuple):
    """One soft rule."""

    name: str
    figure: str
    entries: tuple[tuple[int | str, ...], ...]
    weight: int
    source: str


_TASTE = "the project's design"
_EDITOR = "a music editor's reading of the demonstration book"
_TRADE = "common practice"
_READER = "what a reader of a blind sheet held against drafts"

_UP, _DOWN = (2, 3, 4, 5, 6), (7, 8, 9, 10, 11)
"""The classes of last moves: half step, whole step, third, fourth to fifth, more."""


def _size(*moves: int) -> tuple[tuple[int | str, ...], ...]:
    return tuple(("*", 12 + sign * move) for move in moves for sign in (1, -1))


LEANINGS: tuple[LeaningRow, ...] = (
    LeaningRow("half steps", "moves", _size(1), 0, _TASTE),
    LeaningRow("whole steps", "moves", _size(2), 15, _TASTE),
    LeaningRow("thirds", "moves", _size(3, 4), 5, _TASTE),
    LeaningRow("fourths and fifths", "moves", _size(5, 6, 7), 10, _EDITOR),
    LeaningRow("tritones", "moves", _size(6), -60, _TRADE),
    LeaningRow("wide leaps", "moves", _size(8, 9, 10, 11, 12), -60, _TASTE),
    LeaningRow("there and back", "moves",
               ((2, 11), (7, 13), (3, 10), (8, 14), (4, 9), (4, 8), (9, 15), (9, 16)), -85, _TASTE),
    LeaningRow("arpeggios go on", "moves",
               ((4, 15), (4, 16), (9, 8), (9, 9)), 45, _TRADE),
    LeaningRow("long runs", "runs", ((4, 1), (5, 1), (6, 1)), -70, _EDITOR),
    LeaningRow("a run is a run", "runs", ((1, 1), (2, 1)), 35, _TASTE),
    LeaningRow("notes outside the scale", "standings", ((2, "*"),), -25, _TASTE),
    LeaningRow("chord tones on strong beats", "standings", ((0, 0),), 35, _TRADE),
    LeaningRow("colours off the beat", "standings", ((1, 2),), 15, _TASTE),
    LeaningRow("guide tones at a change", "guides", ((1,),), 55, _TRADE),
    LeaningRow("half steps into a chord", "enters", ((1,),), 10, _TRADE),
    LeaningRow("repeated notes", "moves", _size(0)[:1], -40, _TASTE),
    LeaningRow("edges of the range", "register", ((1,),), -60, _TRADE),
    LeaningRow("awkward fingerings", "fingering", ((0,),), -20, _TRADE),
)  # fmt: skip


class HasteRow(NamedTuple):
    """How long two notes are apart where awkward fingerings weigh: a name, seconds, the source."""

    name: str
    seconds: float
    source: str


HASTE: tuple[HasteRow, ...] = (
    HasteRow("in full", 0.25, "an eighth at 120, the project's design"),
    HasteRow("not at all", 0.75, "three such eighths, the project's design"),
)
"""Awkward fingerings weigh in full up to the first, nothing from the second on, and less and less between."""


class ReadingRow(NamedTuple):
    """What a whole line is worth by: a name, hundredths for each unit, the unit, the source."""

    name: str
    weight: int
    unit: str
    source: str


READING: tuple[ReadingRow, ...] = (
    ReadingRow("motif", 45, "note of the longest cell that comes back", _TASTE),
    ReadingRow("sequence", 80, "cell that comes back on another step at once", _TRADE),
    ReadingRow(
        "peak in the middle", 90, "line whose highest note lies in its third quarter or near it", _TRADE
    ),
    ReadingRow("even steps", -35, "move by step beyond five in six", _TASTE),
    ReadingRow("one pitch", -25, "time that the commonest pitch is struck beyond one in six", _TASTE),
    ReadingRow("last step", 70, "line whose last note is come to by step or third", _TRADE),
    ReadingRow("home", 160, "line that ends on the root, third or fifth of its last chord", _TRADE),
    ReadingRow("leaps to no chord tone", -100, "leap of a fourth or more that ends off the chord", _READER),
    ReadingRow("wide leaps", -70, "leap of a sixth or more", _READER),
    ReadingRow(
        "tensions left hanging", -80, "b9, #9, #11 or b13 of a dominant without a step after it", _READER
    ),
    ReadingRow("long tensions", -40, "b9, #9, #11 or b13 of a dominant, longer than an eighth", _READER),
    ReadingRow("held on the way", -80, "note longer than an eighth that its chord only lets pass", _TRADE),
    ReadingRow("stops off the chord", -60, "note before a rest that is no chord tone", _READER),
    ReadingRow("back at the end", -60, "line whose last note is the last but two", _TASTE),
    ReadingRow("guide tones", 40, "third or seventh that a chord is entered on", _TRADE),
    ReadingRow("variety of moves", 30, "size of move that the line uses", _TASTE),
)
"""What makes one of the lines that were drawn better than another, when a set is chosen."""


class AnswerRow(NamedTuple):
    """What a note of an answer weighs: a name, hundredths of a natural logarithm, the source."""

    name: str
    weight: int
    source: str


ANSWERS: tuple[AnswerRow, ...] = (
    AnswerRow("as it was", 0, _TRADE),
    AnswerRow("a half step off", -110, _TASTE),
    AnswerRow("a whole step off", -190, _TASTE),
    AnswerRow("farther", -420, _TASTE),
    AnswerRow("guide tones", 110, _TRADE),
    AnswerRow("notes kept", 250, _TRADE),
    AnswerRow("something changed", 150, _TRADE),
)
"""How an answer is pulled to what it answers, and every line to thirds and sevenths where a chord begins."""

SHIFTS: tuple[tuple[int, int], ...] = (
    (0, 90), (-1, 60), (-2, 80), (1, 40), (2, 70), (-3, 30), (3, 40), (-4, 20), (4, 20), (5, 30), (-5, 20),
)  # fmt: skip
"""Half steps that an answer is moved by, and what each weighs in hundredths: the same notes again, or a
sequence by step, sooner than one by fourths [common practice]."""


class OfferRow(NamedTuple):
    """What a draft must have to be offered: a name, a number, what is lacking else, the source."""

    name: str
    number: float
    lacks: str
    source: str


OFFERED: tuple[OfferRow, ...] = (
    OfferRow("one peak", 1, "its highest note is not struck just once", _TRADE),
    OfferRow("ending", 1, "it does not land and rest", _TRADE),
    OfferRow("chromatic notes", 1, "a note outside the scale does not lead to a chord tone at once", _READER),
    OfferRow("last leap", 5, "its last note is leapt to by more half steps than so many", _READER),
    OfferRow("motif", 3, "no cell of so many notes comes back", _TRADE),
    OfferRow("no hovering", 4, "six notes in a row hold fewer pitches than so many", _TASTE),
    OfferRow("common pitch", 0.24, "one pitch takes more than such a share of the notes", _EDITOR),
    OfferRow("breath", 1, "it has no rest inside, though it is longer than two bars", _EDITOR),
    OfferRow("narrowest", 7, "it spans fewer half steps than so many", "the real lines: lower quartile 9"),
    OfferRow("widest", 19, "it spans more half steps than so many", "the real lines: upper quartile 17"),
    OfferRow("widest of all", 24, "the same for lines of more than sixty notes", _TASTE),
    OfferRow("turns", 0.22, "it turns at fewer than such a share of its notes", _TASTE),
)
"""Figures that a draft must reach; those that ask for motif and breath apply from `LONG_ENOUGH` notes on."""

LONG_ENOUGH = 11
"""Notes from which a draft must have a motif that comes back [the project's design]."""
