"""Lines of guide tones: sevenths that fall to thirds, and one third or seventh for each chord in a row."""

from __future__ import annotations

from dataclasses import dataclass
from typing import NamedTuple

from shedbook.analysis.account import Account
from shedbook.analysis.account.figures import FALLING_GUIDES
from shedbook.analysis.account.melodic_links import CHANGE
from shedbook.analysis.account.note_account import NoteAccount

_GUIDES = frozenset(("3", "b3", "b7", "7", "bb7"))
"""The degrees that say what a chord is [common practice]; a sixth chord's sixth does what a seventh does."""

FEWEST_CHORDS = 3
"""Over how many chords a line of guide tones goes at least: two are a crossing."""


@dataclass(frozen=True, slots=True)
class GuideFall:
    """A seventh or fourth, the note `guide`, that falls by step to the third `goal` of the next chord.

    `late` says that one other note stands between them.
    """

    guide: int
    goal: int
    late: bool


def guide_falls(account: Account) -> tuple[GuideFall, ...]:
    """Return the guide tones that fall by step at a change of chord, in order."""
    found = []
    for link in account.links:
        if link.kind != CHANGE or link.guide not in FALLING_GUIDES or link.guide_note is None:
            continue
        if link.after is None or account.notes[link.after].midi == account.notes[link.guide_note].midi:
            continue
        found.append(GuideFall(link.guide_note, link.after, link.guide_note != link.before))
    return tuple(found)


def guide_line(account: Account) -> tuple[int, ...]:
    """Return the longest line with one accented third or seventh for each of at least three chords in a row.

    Each note of it is a whole step from the one before at the most, and they do not all stay. A note counts
    that stands on a strong beat or is the first over its chord. Of equally long lines the one that moves
    least is taken, then the earliest; the answer is () where there is none.
    """
    best = _Line((), 0)
    before: list[_Line] = []
    for notes in _accented_guides(account):
        now = []
        for note in notes:
            ways = [_Line((note,), 0), *(line.on(note) for line in before if line.reaches(note))]
            now.append(max(ways, key=_Line.rank))
        best = max([best, *now], key=_Line.rank)
        before = now
    moves = len({note.midi for note in best.notes}) > 1
    long = len(best.notes) >= FEWEST_CHORDS
    return tuple(note.index for note in best.notes) if long and moves else ()


class _Line(NamedTuple):
    """Guide tones in a row, and by how many semitones they move in all."""

    notes: tuple[NoteAccount, ...]
    moved: int

    def on(self, note: NoteAccount) -> _Line:
        """Return the line with one note more."""
        return _Line((*self.notes, note), self.moved + abs(note.midi - self.notes[-1].midi))

    def reaches(self, note: NoteAccount) -> bool:
        """Whether a note is a whole step away at the most."""
        return abs(note.midi - self.notes[-1].midi) <= 2

    def rank(self) -> tuple[int, int]:
        """Return what is larger for a better line."""
        return len(self.notes), -self.moved


def _accented_guides(account: Account) -> list[list[NoteAccount]]:
    """Return the accented guide tones over each span."""
    found: list[list[NoteAccount]] = [[] for _ in account.spans]
    for landing in account.landings:
        note, span = account.notes[landing.note], account.spans[landing.span]
        guide = note.degree in _GUIDES or (note.degree == "6" and span.heard.seventh == "6")
        if guide and note.in_chord and note.span.index == landing.span:
            found[landing.span].append(note)
    return found
