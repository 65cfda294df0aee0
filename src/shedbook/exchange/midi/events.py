"""What a MIDI file holds, as values: its tracks with their notes, texts, tempos, metres and keys.

Conventions: times are ticks from the beginning of the file; channels count from 0, as they do in the bytes.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import NamedTuple

_DRUM_CHANNEL = 9

TEXT, COPYRIGHT, TRACK_NAME, LYRIC, MARKER, CUE = 1, 2, 3, 5, 6, 7
"""The kinds of text by their numbers in the format."""


class MidiNote(NamedTuple):
    """A note from `start` to `end` in ticks; `key` is its MIDI number."""

    start: int
    end: int
    key: int
    velocity: int
    channel: int


class TextEvent(NamedTuple):
    """A text at a tick; `kind` is the number of its kind in the format."""

    tick: int
    kind: int
    text: str


class TempoEvent(NamedTuple):
    """From the tick on, a quarter lasts so many microseconds."""

    tick: int
    microseconds: int


class MetreEvent(NamedTuple):
    """From the tick on, `beats` notes of the value 1/`unit` make a bar."""

    tick: int
    beats: int
    unit: int


class KeyEvent(NamedTuple):
    """From the tick on, the key signature has so many sharps (flats are negative), in minor or in major."""

    tick: int
    signature: int
    minor: bool


@dataclass(frozen=True, slots=True)
class MidiTrack:
    """One track of a file.

    Attributes:
        name: its name, "" for none.
        notes: its notes in the order of their beginnings.
        texts: its texts of all kinds, in order; likewise `tempos`, `metres` and `keys`.
        programs: (channel, program) for the first program of each channel, both from 0.
        bends: how many pitch bends it has that move the pitch.
        end: the tick at which it ends.
        pedals: how often the sustain pedal is pressed.
    """

    name: str
    notes: tuple[MidiNote, ...]
    texts: tuple[TextEvent, ...]
    tempos: tuple[TempoEvent, ...]
    metres: tuple[MetreEvent, ...]
    keys: tuple[KeyEvent, ...]
    programs: tuple[tuple[int, int], ...]
    bends: int
    end: int
    pedals: int = 0


@dataclass(frozen=True, slots=True)
class MidiFile:
    """A file.

    Attributes:
        format: 0 or 1.
        ticks_per_quarter: how many ticks make a quarter; 0 where the file counts frames of film.
        ticks_per_second: how many ticks make a second in a file that counts frames; else 0.
        tracks: the tracks in order.
        remarks: in words, what was odd and has been mended.
    """

    format: int
    ticks_per_quarter: int
    ticks_per_second: int
    tracks: tuple[MidiTrack, ...]
    remarks: tuple[str, ...]


def is_drums(note: MidiNote) -> bool:
    """Tell whether a note is on channel 10 (9 from 0), which General MIDI level 1 gives to drums."""
    return note.channel == _DRUM_CHANNEL
