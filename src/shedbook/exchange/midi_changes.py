"""Chord symbols among the texts of a MIDI file: markers, lyrics, cue points, plain texts.

A text counts where it parses as a chord. Lyrics hold words that look like chords ("A", "Be"), and
rehearsal letters are chords by their spelling: a kind of text is believed where most of it are chords, and
letters that go through the alphabet are not.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from shedbook.errors import ChordSymbolError
from shedbook.exchange.midi_bytes import CUE, LYRIC, MARKER, TEXT, MidiFile, TextAt
from shedbook.exchange.tables.own_fields import MIDI_MAKER
from shedbook.phrase.feels import FEEL_NAMES
from shedbook.theory.chord import Chord
from shedbook.theory.chord_symbol import parse_chord

_KINDS = {MARKER: "markers", LYRIC: "lyrics", TEXT: "texts", CUE: "cue points"}
"""The kinds of text that are looked at, the likeliest first."""
_LETTERS = "ABCDEFGH"


class ChordAt(NamedTuple):
    """A chord and the tick at which its text stands."""

    tick: int
    chord: Chord


class FoundChanges(NamedTuple):
    """The chords of a file in order; `kind` and `said_by` name their texts, `headings` are other markers."""

    chords: tuple[ChordAt, ...]
    said_by: str
    headings: tuple[TextAt, ...]
    kind: int = 0


def changes_of(file: MidiFile) -> FoundChanges:
    """Return the changes that a file's texts say; none where no kind of text can be believed."""
    texts = sorted({text for track in file.tracks for text in track.texts if text.kind in _KINDS})
    markers = [text for text in texts if text.kind == MARKER]
    if not is_ours(file) and _is_rehearsal(markers):
        texts = [text for text in texts if text.kind != MARKER]
    for kind, said_by in _KINDS.items():
        of_kind = [text for text in texts if text.kind == kind]
        chords = [
            ChordAt(text.tick, chord) for text in of_kind if (chord := chord_text(text.text)) is not None
        ]
        if chords and (kind == MARKER or 2 * len(chords) > len(of_kind)):
            headings = [text for text in markers if chord_text(text.text) is None]
            return FoundChanges(_one_a_tick(chords), said_by, tuple(headings), kind)
    return FoundChanges((), "", tuple(markers))


def is_ours(file: MidiFile) -> bool:
    """Say whether a file says that shedbook wrote it."""
    return any(text == (text.tick, TEXT, MIDI_MAKER) for track in file.tracks for text in track.texts)


def _is_rehearsal(markers: Sequence[TextAt]) -> bool:
    """Tell whether markers are the letters of the alphabet in order, and so no chords."""
    letters = [text.text for text in markers if text.text in tuple(_LETTERS)]
    bare = [text for text in markers if chord_text(text.text) is not None]
    return bool(letters) and len(bare) == len(letters) and "".join(letters) == _LETTERS[: len(letters)]


def chord_text(text: str) -> Chord | None:
    """Return the chord that a text says, None where it says something else."""
    bare = text.strip()
    try:
        return parse_chord(bare) if bare else None
    except ChordSymbolError:
        return None


def _one_a_tick(chords: Sequence[ChordAt]) -> tuple[ChordAt, ...]:
    """Return the chords without the ones that another at the same tick replaces, or that only repeat."""
    found: dict[int, ChordAt] = {}
    for one in chords:
        found[one.tick] = one
    return tuple(found[tick] for tick in sorted(found))


def feel_of(file: MidiFile) -> str:
    """Return the feel that a text of the file names, "" for none."""
    for track in file.tracks:
        for text in track.texts:
            found = feel_named(text.text)
            if found:
                return found
    return ""


def feel_named(text: str) -> str:
    """Return the feel that a text is the name of, "" for none."""
    return FEEL_NAMES.get(text.lower(), "")
