"""How what was meant is spelled: a note by its chord's letters, a chord by its kind."""

from __future__ import annotations

from shedbook.analysis.account.note_account import NoteAccount
from shedbook.analysis.proof.slips.tables.chord_kinds import (
    DOMINANT,
    HALF_DIMINISHED,
    MAJOR,
    MAJOR_SEVENTH,
    MINOR,
    MINOR_SEVENTH,
)
from shedbook.theory.chord import Chord, name_over, plain_name
from shedbook.theory.chord_symbol import parse_chord
from shedbook.theory.pitch import NoteName, Pitch, spellings

_SUFFIXES = {
    MAJOR_SEVENTH: "maj7", MAJOR: "6", DOMINANT: "7", MINOR_SEVENTH: "m7", MINOR: "m6",
    HALF_DIMINISHED: "m7b5",
}  # fmt: skip
"""How a chord of a kind is written after its root [common practice]."""

_TRIADS = {MAJOR: "", MINOR: "m"}
"""The same where the written chord has no sixth or seventh."""


def meant_pitch(note: NoteAccount, shift: int) -> Pitch:
    """Return the pitch `shift` half steps from a note, by the letters of its chord and scale."""
    midi = note.midi + shift
    names = [*note.span.chord.tones, *(() if note.span.scale is None else note.span.scale.notes)]
    named = next((name for name in names if name.pitch_class == midi % 12), None)
    if named is None:
        chord = note.span.chord
        degree = chord.degree_of(midi % 12)
        named = plain_name(name_over(chord.root, degree)) if chord.root is not None and degree else None
    return spellings(midi)[0] if named is None else _spelled(midi, named)


def _spelled(midi: int, name: NoteName) -> Pitch:
    return next((one for one in spellings(midi) if one.name == name), spellings(midi)[0])


def chord_with_kind(chord: Chord, kind: int) -> Chord:
    """Return a chord on the same root and bass with the quality of a kind."""
    triad = chord.seventh == "" and not chord.tensions
    suffix = _TRIADS.get(kind, _SUFFIXES[kind]) if triad else _SUFFIXES[kind]
    slash = "" if chord.bass is None else f"/{chord.bass}"
    return parse_chord(f"{chord.root}{suffix}{slash}")
