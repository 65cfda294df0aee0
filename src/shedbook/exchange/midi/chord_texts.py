"""Chord symbols, the feel and the maker, found among the texts of a MIDI file.

A text is a chord where it can be read as one. Some words of lyrics look like chords ("A", "Be"), and so do
rehearsal letters. For this reason a kind of text is believed only where most of its texts are chords, and
markers that go through the alphabet are not.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from shedbook.errors import ChordSymbolError
from shedbook.exchange.ground.tables.own_fields import MIDI_MAKER
from shedbook.exchange.midi.events import CUE, LYRIC, MARKER, TEXT, MidiFile, TextEvent
from shedbook.phrase.feels import FEEL_NAMES
from shedbook.theory.chord import Chord
from shedbook.theory.chord_symbol import parse_chord

_KINDS = {MARKER: "markers", LYRIC: "lyrics", TEXT: "texts", CUE: "cue points"}
"""The kinds of text in which chords are looked for, the likeliest first."""
_LETTERS = "ABCDEFGH"


class TimedChord(NamedTuple):
    """A chord with the tick of its text."""

    tick: int
    chord: Chord


class FoundChanges(NamedTuple):
    """The chords that were found among the texts of a file.

    Attributes:
        chords: the chords in order, at most one at a tick.
        said_by: what musicians call the texts that are chords, such as "markers"; "" for none.
        headings: the markers that are no chords.
        kind: the kind of the texts that are chords, by its number in the format; 0 for none.
    """

    chords: tuple[TimedChord, ...]
    said_by: str
    headings: tuple[TextEvent, ...]
    kind: int = 0


def changes_of(file: MidiFile) -> FoundChanges:
    """Return the chords among the texts of a file; none where no kind of text can be believed."""
    texts = sorted({text for track in file.tracks for text in track.texts if text.kind in _KINDS})
    markers = [text for text in texts if text.kind == MARKER]
    if not is_ours(file) and _is_rehearsal(markers):
        texts = [text for text in texts if text.kind != MARKER]
    for kind, said_by in _KINDS.items():
        of_kind = [text for text in texts if text.kind == kind]
        chords = [
            TimedChord(text.tick, chord)
            for text in of_kind
            if (chord := chord_in_text(text.text)) is not None
        ]
        if chords and (kind == MARKER or 2 * len(chords) > len(of_kind)):
            headings = [text for text in markers if chord_in_text(text.text) is None]
            return FoundChanges(_one_a_tick(chords), said_by, tuple(headings), kind)
    return FoundChanges((), "", tuple(markers))


def is_ours(file: MidiFile) -> bool:
    """Tell whether a file says that shedbook wrote it."""
    return any(text == (text.tick, TEXT, MIDI_MAKER) for track in file.tracks for text in track.texts)


def _is_rehearsal(markers: Sequence[TextEvent]) -> bool:
    """Tell whether the only chords among markers are letters in the order of the alphabet."""
    letters = [text.text for text in markers if text.text in tuple(_LETTERS)]
    bare = [text for text in markers if chord_in_text(text.text) is not None]
    return bool(letters) and len(bare) == len(letters) and "".join(letters) == _LETTERS[: len(letters)]


def chord_in_text(text: str) -> Chord | None:
    """Return the chord that a text is; None where it is no chord."""
    bare = text.strip()
    try:
        return parse_chord(bare) if bare else None
    except ChordSymbolError:
        return None


def _one_a_tick(chords: Sequence[TimedChord]) -> tuple[TimedChord, ...]:
    """Return the chords in order; of several at one tick only the last is kept."""
    found: dict[int, TimedChord] = {}
    for one in chords:
        found[one.tick] = one
    return tuple(found[tick] for tick in sorted(found))


def feel_of(file: MidiFile) -> str:
    """Return the first feel that a text of a file names; "" for none."""
    for track in file.tracks:
        for text in track.texts:
            found = feel_named(text.text)
            if found:
                return found
    return ""


def feel_named(text: str) -> str:
    """Return the feel whose name or alias a text is; "" for none."""
    return FEEL_NAMES.get(text.lower(), "")
