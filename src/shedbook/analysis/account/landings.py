"""Landings: what stands on the strong beats and first over each chord, and how firmly it stands there."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from shedbook.analysis.account.note_account import NoteAccount
from shedbook.analysis.hearing.chord_spans import OUTSIDE, Span
from shedbook.analysis.hearing.note_places import STRONG_BEAT, accent_at
from shedbook.analysis.roles.role_names import (
    BLUE,
    ENCLOSURE,
    HELD_OVER,
    LEANING,
    PASSING,
    PEDAL,
    SUSPENSION,
    UNACCOUNTED,
)
from shedbook.table_index import Rows
from shedbook.theory.metre import Metre
from shedbook.theory.tables.degrees import FAMILY_DEGREES

STRENGTHS = (
    "outside", "to pass through", "colour", "root", "fifth", "seventh", "third", "minor third",
)  # fmt: skip
"""How firm a landing is, weakest first: the third of a minor chord is the firmest of all."""

_A_BEAT = 1
"""How long a passing note may lean on a strong beat, in quarters."""

_STRENGTH_OF: Rows[str] = Rows(
    "strengths of landings by degree",
    "src/shedbook/analysis/account/landings.py",
    {
        "1": "root",
        "5": "fifth", "b5": "fifth", "#5": "fifth",
        "b7": "seventh", "7": "seventh", "bb7": "seventh", "6": "seventh",
        "3": "third", "b3": "third", "4": "third",
        "b9": "colour", "9": "colour", "#9": "colour", "11": "colour", "#11": "colour",
        "b13": "colour", "13": "colour",
    },
)  # fmt: skip
"""How firm each degree is that belongs to a chord's core [common practice]; a sixth stands for the seventh.

An altered fifth that is heard as a tension (b13, #11), and the second of a suspended chord, are colours.
"""
_STRENGTH_OF.must_have(
    sorted({degree for row in FAMILY_DEGREES.values() for degree in row}),
    "a note can have this degree over a chord",
)

START_OF_ENCLOSURE = "start of an enclosure"

EXCUSES = (SUSPENSION, LEANING, BLUE, PEDAL, PASSING, START_OF_ENCLOSURE)
"""What excuses an accented outside note."""


@dataclass(frozen=True, slots=True)
class Landing:
    """A note that stands on a strong beat, or is the first over its chord.

    `span` is the index of the span it stands over, `bar` and `beat` say where it stands, which is later than
    where it is struck if it is struck early. A suspension that is held over stands where the chord changes.
    `strength` is one of STRENGTHS; `excuse` names what an accented outside note is, "" where none is
    needed and "unaccounted" where there is none.
    """

    note: int
    span: int
    bar: int
    beat: Fraction
    on_strong_beat: bool
    first_over_chord: bool
    strength: str
    excuse: str

    @property
    def place(self) -> tuple[int, Fraction]:
        """The bar, and the beat in the metre's denominator, counted from 1."""
        return self.bar, self.beat

    @property
    def rank(self) -> int:
        """The strength as a number, 0 for outside to 7 for the third of a minor chord."""
        return STRENGTHS.index(self.strength)


def landings(notes: tuple[NoteAccount, ...], metre: Metre) -> tuple[Landing, ...]:
    """Return the landings of a line in order; `metre` is that of its phrase."""
    found = []
    for note in notes:
        first = note.index == 0 or notes[note.index - 1].span.index != note.span.index
        if note.strong or first:
            place = _stands(note, metre)
            said = strength(note), excuse(notes, note)
            found.append(Landing(note.index, note.span.index, *place, note.strong, first, *said))
        held_over = note.role == SUSPENSION and note.detail == HELD_OVER and not note.early
        if held_over and note.target is not None:
            found += _kept_over(note, notes[note.target].span, metre)
    return tuple(found)


def _kept_over(note: NoteAccount, span: Span, metre: Metre) -> Iterator[Landing]:
    """Yield the landing of a suspension that is held into a span, if the span begins on a strong beat."""
    if accent_at(metre, span.start % metre.bar_quarters) < STRONG_BEAT:
        return
    kind = "outside" if span.membership(note.midi % 12) == OUTSIDE else "to pass through"
    yield Landing(note.index, span.index, *_place(span.start, metre), True, False, kind, SUSPENSION)


def _stands(note: NoteAccount, metre: Metre) -> tuple[int, Fraction]:
    """Return the bar and beat for which a note stands: its own, unless it is early or its bar too full."""
    if note.early or not 1 <= note.beat < metre.beats + 1:
        return _place(note.arrival, metre)
    return note.bar, note.beat


def _place(quarters: Fraction, metre: Metre) -> tuple[int, Fraction]:
    """Return the bar and beat of a place in quarters from bar 1."""
    bar, rest = divmod(quarters, metre.bar_quarters)
    return int(bar) + 1, rest / metre.beat_quarters + 1


def strength(note: NoteAccount) -> str:
    """Return how firmly a note stands over its chord: one of STRENGTHS [the project's design]."""
    if note.membership == OUTSIDE:
        return "outside"
    if note.passes_through:
        return "to pass through"
    span = note.span
    if note.midi % 12 not in span.core:
        return "colour"
    if note.degree == "b3" and span.heard.family == "minor":
        return "minor third"
    return _STRENGTH_OF[note.degree]


def excuse(notes: tuple[NoteAccount, ...], note: NoteAccount) -> str:
    """Return what excuses the accent of an outside note: one of EXCUSES, or "unaccounted" if nothing does.

    A passing note is excused inside a run of half steps, and of an enclosure only its first note. A note that
    is inside needs no excuse: the answer is "", unless it is a suspension or leans all the same.
    """
    if note.inside:
        return note.role if note.role in (SUSPENSION, LEANING) else ""
    if note.role in (SUSPENSION, LEANING, BLUE, PEDAL):
        return note.role
    if note.role == ENCLOSURE and (note.index == 0 or notes[note.index - 1].group != note.group):
        return START_OF_ENCLOSURE
    if note.role == PASSING and _moves_on(notes, note.index):
        return note.role
    return UNACCOUNTED


def _moves_on(notes: tuple[NoteAccount, ...], index: int) -> bool:
    """Whether a passing note leaves by half step, and is as short as a leaning note or came by half step."""
    if index == 0 or index + 1 >= len(notes):
        return False
    before, note, after = notes[index - 1 : index + 2]
    short = note.quarters <= _A_BEAT
    return abs(after.midi - note.midi) == 1 and (short or abs(note.midi - before.midi) == 1)
