"""Landings: what stands on the strong beats, what the first note over each chord is, and how firm it is."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from shedbook.analysis.heard import OUTSIDE
from shedbook.analysis.notes import NoteAccount
from shedbook.analysis.reasons import (
    BLUE, ENCLOSURE, LEANING, PASSING, PEDAL, SUSPENSION, UNACCOUNTED,
)  # fmt: skip

STRENGTHS = (
    "outside", "to pass through", "colour", "root", "fifth", "seventh", "third", "minor third",
)  # fmt: skip
"""How firm a landing is, weakest first: the third of a minor chord is the firmest of all."""

_A_BEAT = 1
"""How long a passing note may lean on a strong beat, in quarters."""

_NUMBERS = {
    "1": "root", "5": "fifth", "b5": "fifth", "#5": "fifth", "b7": "seventh", "7": "seventh",
    "bb7": "seventh", "6": "seventh", "3": "third", "b3": "third", "4": "third",
}  # fmt: skip


@dataclass(frozen=True, slots=True)
class Landing:
    """A note that stands on a strong beat, or is the first over its chord.

    `bar` and `beat` say where it stands, which is later than where it is struck if it is struck early.
    `strength` is one of STRENGTHS; `excuse` names what an accented outside note is, "" where none is
    needed and "unaccounted" where there is none.
    """

    note: int
    bar: int
    beat: Fraction
    on_strong_beat: bool
    first_over_chord: bool
    strength: str
    excuse: str

    @property
    def rank(self) -> int:
        """The strength as a number, 0 for outside to 7 for the third of a minor chord."""
        return STRENGTHS.index(self.strength)


def landings(
    notes: tuple[NoteAccount, ...], bar_quarters: Fraction, beat_quarters: Fraction
) -> tuple[Landing, ...]:
    """Return the landings of a line in order; lengths in quarters."""
    found = []
    for note in notes:
        if not note.landing:
            continue
        first = note.index == 0 or notes[note.index - 1].span.index != note.span.index
        bar, rest = divmod(note.arrival, bar_quarters)
        found.append(
            Landing(
                note.index,
                int(bar) + 1,
                rest / beat_quarters + 1,
                note.strong,
                first,
                strength(note),
                excuse(notes, note),
            )
        )
    return tuple(found)


def strength(note: NoteAccount) -> str:
    """Return how firm a note stands over its chord."""
    if note.membership == OUTSIDE:
        return "outside"
    if note.passes_through:
        return "to pass through"
    span = note.span
    if note.midi % 12 not in span.core:
        return "colour"
    if note.degree == "b3" and span.chord.family == "minor":
        return "minor third"
    return _NUMBERS.get(note.degree, "colour")


def excuse(notes: tuple[NoteAccount, ...], note: NoteAccount) -> str:
    """Return what excuses an accented outside note, "" for an inside one, "unaccounted" for none.

    Excused are a suspension, a leaning note, a passing note inside a run of half steps, the start of an
    enclosure, a blue note, and a pedal.
    """
    if note.inside:
        return note.role if note.role in (SUSPENSION, LEANING) else ""
    if note.role in (SUSPENSION, LEANING, BLUE, PEDAL):
        return note.role
    if note.role == ENCLOSURE and (note.index == 0 or notes[note.index - 1].group != note.group):
        return "start of an enclosure"
    if note.role == PASSING and _moves_on(notes, note.index):
        return note.role
    return UNACCOUNTED


def _moves_on(notes: tuple[NoteAccount, ...], index: int) -> bool:
    """Whether a passing note comes and goes by half step, or goes by half step as soon as a leaning one."""
    if index == 0 or index + 1 >= len(notes):
        return False
    before, note, after = notes[index - 1 : index + 2]
    short = note.quarters <= _A_BEAT
    return abs(after.midi - note.midi) == 1 and (short or abs(note.midi - before.midi) == 1)
