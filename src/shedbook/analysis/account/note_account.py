"""The account of one note, and how notes are grouped: by explanation, and by span.

Conventions: places and lengths are quarter notes; `beat` counts from 1 in the metre's denominator.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from shedbook.analysis.hearing.chord_spans import CHORD, OUTSIDE, Span
from shedbook.theory.pitch import Pitch


@dataclass(frozen=True, slots=True)
class Rival:
    """The runner-up of a close choice: another role with its detail and target.

    `margin` is by how many points the explanation is dearer than the one that was chosen.
    """

    role: str
    detail: str
    target: int | None
    margin: int


@dataclass(frozen=True, slots=True)
class NoteAccount:
    """Why one note is there.

    `pitch` sounds, and `written` is what the reader's part shows. `span` is the chord and scale that it is
    heard against, `degree` and `membership` are what it is there, `role` and `detail` what it does. `target`
    is the index of the note it leads to. `arrival` is the place it stands for, which is later than `start`
    where it is struck early and held. `accent` is that of the arrival, from 4 on the first beat to 0 between
    half beats. `group` numbers the explanation, which the notes of one enclosure share. `joined` says that
    the next note follows at once.
    """

    index: int
    pitch: Pitch
    written: Pitch
    bar: int
    beat: Fraction
    start: Fraction
    quarters: Fraction
    arrival: Fraction
    span: Span
    degree: str
    membership: str
    role: str
    detail: str
    target: int | None
    landing: bool
    strong: bool
    early: bool
    accent: int
    group: int
    joined: bool
    rival: Rival | None = None

    @property
    def midi(self) -> int:
        """The MIDI number of what sounds."""
        return self.pitch.midi

    @property
    def end(self) -> Fraction:
        """Where the note stops."""
        return self.start + self.quarters

    @property
    def inside(self) -> bool:
        """Whether the note is a chord or scale tone."""
        return self.membership != OUTSIDE

    @property
    def in_chord(self) -> bool:
        """Whether the note is a chord tone."""
        return self.membership == CHORD

    @property
    def passes_through(self) -> bool:
        """Whether it is a scale tone a half step above a chord tone, and no colour."""
        return self.midi % 12 in self.span.pass_through


def explained_together(notes: tuple[NoteAccount, ...], note: NoteAccount) -> tuple[NoteAccount, ...]:
    """Return the notes that share the explanation of a note, such as all of an enclosure, in order."""
    first = last = note.index
    while first > 0 and notes[first - 1].group == note.group:
        first -= 1
    while last + 1 < len(notes) and notes[last + 1].group == note.group:
        last += 1
    return notes[first : last + 1]


def followed_by_step(notes: tuple[NoteAccount, ...], note: NoteAccount) -> bool:
    """Say whether the next note of the line follows at once and lies a half or whole step away."""
    after = notes[note.index + 1] if note.index + 1 < len(notes) else None
    return after is not None and note.joined and 1 <= abs(after.midi - note.midi) <= 2


def notes_by_span(notes: tuple[NoteAccount, ...]) -> dict[int, list[NoteAccount]]:
    """Return the notes heard against each span, by the span's index; a span without notes is left out."""
    found: dict[int, list[NoteAccount]] = {}
    for note in notes:
        found.setdefault(note.span.index, []).append(note)
    return found
