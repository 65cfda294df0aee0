"""A phrase as a line to listen for, and notes as they were heard."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import NamedTuple

from shedbook.analysis.account.phrase_account import quarters_a_minute
from shedbook.listen.evidence import Evidence
from shedbook.listen.intonation import cents_of, doubt_of
from shedbook.listen.note_search import FoundNote
from shedbook.phrase.model import Phrase, sounding_notes

ONSET_EARLY_S = 0.005
"""The frame at which a beginning is found lies so much behind it (measured on the takes of the weights)."""


class PlayedNote(NamedTuple):
    """A note that was heard, in seconds of the recording, its MIDI number and how far its pitch lay from it.

    `cents` are from equal temperament at A4 = 440 Hz, None where the note is too short to say; `doubt` is how
    little speaks for it: 0 for nothing against it, 1 for as much against as for it.
    """

    start_s: float
    end_s: float
    midi: int
    cents: float | None
    doubt: float


class LineNote(NamedTuple):
    """A note of a phrase: MIDI number, start and end in quarters from bar 1, its bar and its beat."""

    midi: int
    start: Fraction
    end: Fraction
    bar: int
    beat: Fraction


@dataclass(frozen=True, slots=True)
class Line:
    """A phrase as a line to listen for; `beat_quarters` is the length of the beat that players tap."""

    notes: tuple[LineNote, ...]
    beat_quarters: Fraction
    bar_quarters: Fraction
    tempo_bpm: int

    @property
    def midi(self) -> tuple[int, ...]:
        """The MIDI numbers of its notes."""
        return tuple(note.midi for note in self.notes)


def line_of(phrase: Phrase) -> Line:
    """Return a phrase as a line in its own key."""
    notes = tuple(
        LineNote(one.pitch.midi, one.start, one.end, one.bar, one.beat) for one in sounding_notes(phrase)
    )
    tapped = quarters_a_minute(phrase) / phrase.tempo_bpm
    return Line(notes, tapped, phrase.metre.bar_quarters, phrase.tempo_bpm)


def played_notes(found: tuple[FoundNote, ...], evidence: Evidence, start_s: float) -> tuple[PlayedNote, ...]:
    """Return notes that were found in a piece of a recording, in seconds of the recording.

    Args:
        found: the notes.
        evidence: in what they were found.
        start_s: where the piece begins.
    """
    return tuple(
        PlayedNote(
            max(0.0, start_s + note.first * evidence.frame_s - ONSET_EARLY_S),
            start_s + note.end * evidence.frame_s,
            note.midi,
            cents_of(note, evidence),
            doubt_of(note, evidence),
        )
        for note in found
    )
