"""The choice of the line among the notes of a MIDI file: one channel of one track, one note at a time."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise

from shedbook.errors import ReadError, UnknownNameError, nearest
from shedbook.exchange.ground.report import Reporter
from shedbook.exchange.midi.events import MidiFile, MidiNote, is_drums

_LINE_WORDS = (
    "line", "melody", "lead", "solo", "theme", "head", "horn", "sax", "trumpet", "trombone", "clarinet",
    "flute", "voice",
)  # fmt: skip
_OTHER_WORDS = ("bass", "drum", "perc", "chord", "comp", "pad", "click", "metronome", "string")
_BASS_PROGRAMS = range(32, 40)
"""General MIDI level 1: programs 33 to 40, counted from 1, are basses."""
_BLOWN_PROGRAMS = range(56, 80)
"""General MIDI level 1: programs 57 to 80 are brass, reeds and pipes, which play one note at a time."""
_LOW = 48
_LOWEST_MIDI, _HIGHEST_MIDI = 21, 108


@dataclass(frozen=True, slots=True)
class TrackVoice:
    """The notes of one channel of one track.

    Attributes:
        number: the number of the track, from 1.
        channel: the number of the channel, from 1.
        name: the name of the track, "" for none.
        program: the program of the channel, from 0.
        notes: the notes in the order of their beginnings.
    """

    number: int
    channel: int
    name: str
    program: int
    notes: tuple[MidiNote, ...]

    @property
    def called(self) -> str:
        """What the report calls it."""
        name = f'"{self.name}", ' if self.name else ""
        return f"{name}track {self.number}, channel {self.channel}"


def line_of(file: MidiFile, part: str, reporter: Reporter, name: str) -> tuple[MidiNote, ...]:
    """Return the notes of the line, one at a time, in order.

    Args:
        file: the file.
        part: the name or number of the track that has the line; "" to find it.
        reporter: told which track was taken, and what was left out.
        name: what errors call the file.

    Raises:
        ReadError: if the file has no notes.
        UnknownNameError: if no track has the name or number in `part`.
    """
    voices = _voices(file)
    if not voices:
        raise ReadError(
            f"{name} holds no notes but those of drums." if _drums(file) else f"{name} holds no notes.",
            hint="Save the track with the line.",
        )
    voice = _named(voices, part) if part.strip() else max(voices, key=_melodic)
    if len(voices) > 1:
        others = ", ".join(one.called for one in voices[:12] if one is not voice)
        reporter.note(f"the line is taken from {voice.called}; not read: {others}")
    if _drums(file):
        reporter.note("drums are left out")
    return _top(_in_compass(voice.notes, reporter), reporter, max(1, file.ticks_per_quarter // 16))


def _voices(file: MidiFile) -> tuple[TrackVoice, ...]:
    """Return each channel of each track that has notes, without drums."""
    found = []
    for number, track in enumerate(file.tracks, 1):
        by_channel: dict[int, list[MidiNote]] = defaultdict(list)
        for note in track.notes:
            if not is_drums(note):
                by_channel[note.channel].append(note)
        programs = dict(track.programs)
        for channel, notes in sorted(by_channel.items()):
            program = programs.get(channel, 0)
            found.append(TrackVoice(number, channel + 1, track.name, program, tuple(notes)))
    return tuple(found)


def _drums(file: MidiFile) -> bool:
    """Tell whether a file has notes of drums."""
    return any(is_drums(note) for track in file.tracks for note in track.notes)


def _named(voices: Sequence[TrackVoice], part: str) -> TrackVoice:
    """Return the voice whose track has a number or a name; of several the most melodic."""
    wanted = part.strip().lower()
    if wanted.isdigit():
        found = [voice for voice in voices if voice.number == int(wanted)]
    else:
        found = [voice for voice in voices if voice.name.lower() == wanted]
        found = found or [voice for voice in voices if wanted in voice.name.lower()]
    if found:
        return max(found, key=_melodic)
    names = [voice.name.lower() for voice in voices if voice.name]
    listed = "; ".join(voice.called for voice in voices[:12])
    raise UnknownNameError(
        f'No track with notes is called "{part.strip()[:40]}".',
        hint=nearest(wanted, names) or f"There are: {listed}.",
    )


def _melodic(voice: TrackVoice) -> tuple[int, Fraction, int]:
    """Return how likely a voice is the line: by its name and sound, and by how many single notes it has."""
    notes = voice.notes
    name = voice.name.lower()
    rank = 0
    if any(word in name for word in _LINE_WORDS):
        rank += 2
    if any(word in name for word in _OTHER_WORDS) or voice.program in _BASS_PROGRAMS:
        rank -= 2
    if sum(note.key for note in notes) < _LOW * len(notes):
        rank -= 1
    rank += 1 if voice.program in _BLOWN_PROGRAMS else 0
    together = sum(1 for one, other in pairwise(notes) if _together(one, other))
    single = Fraction(len(notes) - together, len(notes))
    rank += 1 if single > Fraction(4, 5) else 0
    return rank, Fraction(len(notes)) * single, -voice.number


def _together(one: MidiNote, other: MidiNote) -> bool:
    """Tell whether two notes sound as a chord: they begin together, or share half of the shorter one."""
    shared = min(one.end, other.end) - max(one.start, other.start)
    return one.start == other.start or 2 * shared > min(one.end - one.start, other.end - other.start)


def _in_compass(notes: Sequence[MidiNote], reporter: Reporter) -> list[MidiNote]:
    """Return the notes that the manuscript can write, and report the others."""
    kept = [note for note in notes if _LOWEST_MIDI <= note.key <= _HIGHEST_MIDI]
    if len(kept) < len(notes):
        reporter.note("notes outside A0 to C8 are left out")
    return kept


def _top(notes: Sequence[MidiNote], reporter: Reporter, together: int) -> tuple[MidiNote, ...]:
    """Return one note at a time.

    Of notes that begin together the highest is kept. Each note ends where the next one begins. A note that
    begins under a higher note is left out, unless the two only overlap as a player's legato does.

    Args:
        notes: the notes of a voice.
        reporter: told how many notes are left out.
        together: notes that begin within half as many ticks begin together.
    """
    found: list[MidiNote] = []
    under = 0
    for note in sorted(notes, key=lambda one: (one.start, -one.key)):
        last = found[-1] if found else None
        if last is None or last.end <= note.start:
            found.append(note)
            continue
        if note.start - last.start <= together // 2:
            under += 1
            if note.key > last.key:
                found[-1] = note._replace(start=last.start)
            continue
        covered = min(last.end, note.end) - note.start
        if note.key < last.key and 2 * covered > note.end - note.start and covered > together:
            under += 1
            continue
        found[-1] = last._replace(end=note.start)
        found.append(note)
    if under:
        reporter.note(f"the line is the top one: {under} lower notes sounding with it are left out")
    return tuple(found)
