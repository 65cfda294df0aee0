"""The bytes of a Standard MIDI File become notes, texts, tempos, metres and keys; nothing is trusted.

The format is Standard MIDI Files 1.0 (MIDI Manufacturers Association, RP-001). Each error has the offset of
the wrong byte. Memory and time are bounded: a file may have at most `MOST_BYTES` bytes and `MOST_NOTES`
notes, and each byte is looked at once. What is odd but harmless (a note that never ends, a tempo of zero) is
mended, and `remarks` says so.

Conventions: times are ticks from the beginning of the file; channels count from 0, as they do in the bytes.
"""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass, field
from typing import TypeVar

from shedbook.errors import ReadError
from shedbook.exchange.midi.events import (
    TRACK_NAME,
    KeyEvent,
    MetreEvent,
    MidiFile,
    MidiNote,
    MidiTrack,
    TempoEvent,
    TextEvent,
)

_T = TypeVar("_T")

MOST_BYTES = 8 * 1024 * 1024
MOST_NOTES = 100_000
MOST_TRACKS = 1024
MOST_TEXTS = 10_000
"""How many texts a track may have at most, and how many tempos, metres and keys."""

LATEST_TICK = 2**40
_LONGEST_TEXT = 1000
_PEDAL = 64

_END, _TEMPO, _METRE, _KEY = 0x2F, 0x51, 0x58, 0x59
_KEPT_TEXTS = range(1, 10)
_LENGTHS = {0xA0: 2, 0xB0: 2, 0xC0: 1, 0xD0: 1, 0xE0: 2}
_SMPTE_RATES = (24, 25, 29, 30)


@dataclass(slots=True)
class _Reading:
    """What has been read of one track so far."""

    data: bytes
    base: int
    """The offset of `data` in the file, which errors need."""
    notes: list[MidiNote] = field(default_factory=list)
    sounding: dict[tuple[int, int], list[tuple[int, int]]] = field(default_factory=dict)
    texts: list[TextEvent] = field(default_factory=list)
    tempos: list[TempoEvent] = field(default_factory=list)
    metres: list[MetreEvent] = field(default_factory=list)
    keys: list[KeyEvent] = field(default_factory=list)
    programs: dict[int, int] = field(default_factory=dict)
    odd: Counter[str] = field(default_factory=Counter)
    bends: int = 0
    pedals: int = 0
    ended: bool = False


def parse_midi(data: bytes) -> MidiFile:
    """Return what the bytes of a Standard MIDI File say.

    Raises:
        ReadError: if they cannot be read; `start` is the offset of the wrong byte.
    """
    if len(data) > MOST_BYTES:
        raise _error(
            f"This MIDI file has {len(data):,} bytes; at most {MOST_BYTES:,} are read.",
            MOST_BYTES,
            "Save the one line you want as a file of its own.",
        )
    format_, count, per_quarter, per_second, place = _header(data)
    tracks: list[MidiTrack] = []
    odd: Counter[str] = Counter()
    notes = 0
    while len(tracks) < count:
        start, place, is_track = _chunk(data, place, len(tracks), count)
        if is_track:
            reading = _Reading(data[start:place], start)
            tracks.append(_track(reading, MOST_NOTES - notes))
            notes += len(tracks[-1].notes)
            odd += reading.odd
    if place < len(data):
        odd["{} bytes after the last track were passed over"] += len(data) - place
    remarks = tuple(text.format(f"{number:,}") for text, number in odd.items())
    return MidiFile(format_, per_quarter, per_second, tuple(tracks), remarks)


def _error(message: str, offset: int, hint: str = "") -> ReadError:
    return ReadError(f"{message} (Byte {offset}.)", hint=hint or _BROKEN, start=offset)


_BROKEN = "The file is broken or cut short; save it again from the program that made it."


def _header(data: bytes) -> tuple[int, int, int, int, int]:
    """Return format, number of tracks, ticks a quarter, ticks a second, and the offset of the first chunk."""
    if data[:4] != b"MThd":
        raise _error("This is not a Standard MIDI File: it does not begin with MThd.", 0)
    if len(data) < 14:
        raise _error("The header of this MIDI file is cut short.", len(data))
    length = int.from_bytes(data[4:8], "big")
    if length < 6 or 8 + length > len(data):
        raise _error(f"The header of this MIDI file gives its length as {length:,} bytes.", 4)
    format_, count, division = (int.from_bytes(data[at : at + 2], "big") for at in (8, 10, 12))
    if format_ > 1:
        raise _error(
            f"This MIDI file has format {format_}; formats 0 and 1 are read.",
            8,
            "Save it as format 1 (several tracks, played together).",
        )
    if not 1 <= count <= MOST_TRACKS or (format_ == 0 and count > 1):
        raise _error(f"A MIDI file of format {format_} cannot have {count} tracks here.", 10)
    if division & 0x8000:
        rate, ticks = 256 - (division >> 8), division & 0xFF
        if rate not in _SMPTE_RATES or not ticks:
            raise _error(f"This MIDI file counts {ticks} ticks in a frame, {rate} frames a second.", 12)
        return format_, count, 0, rate * ticks, 8 + length
    if not division:
        raise _error("This MIDI file divides the quarter note into no ticks.", 12)
    return format_, count, division, 0, 8 + length


def _chunk(data: bytes, place: int, found: int, count: int) -> tuple[int, int, bool]:
    """Return where the content of a chunk begins and ends, and whether the chunk is a track."""
    if place + 8 > len(data):
        raise _error(f"This MIDI file says that it has {count} tracks, and ends after {found}.", len(data))
    length = int.from_bytes(data[place + 4 : place + 8], "big")
    start = place + 8
    if start + length > len(data):
        raise _error(
            f"A part of this MIDI file should have {length:,} bytes, and {len(data) - start:,} are left.",
            place + 4,
        )
    return start, start + length, data[place : place + 4] == b"MTrk"


def _track(reading: _Reading, most_notes: int) -> MidiTrack:
    """Read one track."""
    try:
        end = _events(reading, most_notes)
    except IndexError:
        raise _error(
            "A track of this MIDI file breaks off in the middle of an event.",
            reading.base + len(reading.data),
        ) from None
    if not reading.ended:
        reading.odd["{} tracks have no end-of-track event"] += 1
    for (channel, key), starts in reading.sounding.items():
        for start, velocity in starts:
            reading.odd["{} notes never end; they were ended with their track"] += 1
            reading.notes.append(MidiNote(start, end, key, velocity, channel))
    reading.notes.sort()
    names = [text.text for text in reading.texts if text.kind == TRACK_NAME]
    return MidiTrack(
        names[0] if names else "",
        tuple(reading.notes),
        tuple(reading.texts),
        tuple(reading.tempos),
        tuple(reading.metres),
        tuple(reading.keys),
        tuple(sorted(reading.programs.items())),
        reading.bends,
        end,
        reading.pedals,
    )


def _events(reading: _Reading, most_notes: int) -> int:
    """Read the events of a track in order and return the tick at which it ends."""
    data, size = reading.data, len(reading.data)
    place = tick = running = 0
    while place < size and not reading.ended:
        delta = data[place]
        place += 1
        if delta & 0x80:
            delta, place = _long_number(reading, place - 1)
        tick += delta
        status = data[place]
        if status & 0x80:
            place += 1
        elif running:
            status = running
        else:
            raise _error("A MIDI event has no status byte, and none before it holds.", reading.base + place)
        if status >= 0xF0:
            place, running = _special(reading, status, place, tick), 0
            continue
        running = status
        if status < 0xA0:
            _note(reading, status, data[place], data[place + 1], tick, place)
            place += 2
        else:
            place = _other(reading, status, place)
        if len(reading.notes) > most_notes:
            raise _too_many(reading, place)
    if tick > LATEST_TICK:
        raise _error("A track of this MIDI file lasts longer than any music.", reading.base + place)
    return tick


def _too_many(reading: _Reading, place: int) -> ReadError:
    return _error(
        f"This MIDI file holds more than {MOST_NOTES:,} notes.",
        reading.base + place,
        "Save the one line you want as a file of its own.",
    )


def _long_number(reading: _Reading, place: int) -> tuple[int, int]:
    """Return a number of variable length (at most four bytes), and the offset behind it."""
    number = 0
    for at in range(place, place + 4):
        byte = reading.data[at]
        number = number << 7 | byte & 0x7F
        if byte < 0x80:
            return number, at + 1
    raise _error("A number in this MIDI file is longer than four bytes.", reading.base + place)


def _note(reading: _Reading, status: int, key: int, velocity: int, tick: int, place: int) -> None:
    """Begin or end a note; a note-on event with velocity 0 ends a note (RP-001)."""
    if (key | velocity) & 0x80:
        raise _error("A note of this MIDI file has a byte above 127.", reading.base + place)
    channel = status & 0x0F
    starts = reading.sounding.get((channel, key))
    if status >= 0x90 and velocity:
        if starts is None:
            starts = reading.sounding[channel, key] = []
        if len(starts) >= 64:
            raise _error(f"Note {key} is begun more than 64 times and never ended.", reading.base + place)
        starts.append((tick, velocity))
    elif starts:
        start, loud = starts.pop(0)
        reading.notes.append(MidiNote(start, tick, key, loud, channel))
    else:
        reading.odd["{} endings of notes that had not begun were passed over"] += 1


def _other(reading: _Reading, status: int, place: int) -> int:
    """Pass over a channel event that is no note; keep programs, and count pitch bends and pedals."""
    kind, channel = status & 0xF0, status & 0x0F
    length = _LENGTHS[kind]
    first, last = reading.data[place], reading.data[place + length - 1]
    if (first | last) & 0x80:
        raise _error("An event of this MIDI file has a byte above 127.", reading.base + place)
    if kind == 0xC0:
        reading.programs.setdefault(channel, first)
    elif kind == 0xE0:
        reading.bends += (first, last) != (0, 64)
    elif kind == 0xB0 and first == _PEDAL:
        reading.pedals += last > 0
    return place + length


def _special(reading: _Reading, status: int, place: int, tick: int) -> int:
    """Read a meta or system-exclusive event, and return the offset behind it."""
    start = place - 1
    kind = -1
    if status == 0xFF:
        kind = reading.data[place]
        place += 1
    elif status not in (0xF0, 0xF7):
        raise _error(f"A MIDI file cannot hold the status byte {status:#x}.", reading.base + start)
    length, place = _long_number(reading, place)
    if place + length > len(reading.data):
        raise _error(
            f"An event should have {length:,} bytes; {len(reading.data) - place:,} are left in its track.",
            reading.base + start,
        )
    if kind >= 0:
        _meta(reading, kind, reading.data[place : place + min(length, _LONGEST_TEXT)], tick, start)
    return place + length


def _meta(reading: _Reading, kind: int, content: bytes, tick: int, start: int) -> None:
    """Keep what a meta event says. An event of an unknown kind is passed over, as the format demands."""
    if kind == _END:
        reading.ended = True
    elif kind in _KEPT_TEXTS:
        _bounded(reading, reading.texts, start).append(TextEvent(tick, kind, _text(content)))
    elif kind == _TEMPO:
        microseconds = int.from_bytes(content[:3], "big")
        if len(content) < 3 or not microseconds:
            reading.odd["{} tempos of zero were passed over"] += 1
        else:
            _bounded(reading, reading.tempos, start).append(TempoEvent(tick, microseconds))
    elif kind == _METRE:
        if len(content) < 2 or not content[0] or content[1] > 6:
            reading.odd["{} metres that cannot be were passed over"] += 1
        else:
            _bounded(reading, reading.metres, start).append(MetreEvent(tick, content[0], 2 ** content[1]))
    elif kind == _KEY:
        signature = int.from_bytes(content[:1], "big", signed=True)
        if len(content) < 2 or not -7 <= signature <= 7 or content[1] > 1:
            reading.odd["{} key signatures that cannot be were passed over"] += 1
        else:
            _bounded(reading, reading.keys, start).append(KeyEvent(tick, signature, content[1] == 1))


def _bounded(reading: _Reading, values: list[_T], start: int) -> list[_T]:
    """Return the list, unless it has as many items as a track may have."""
    if len(values) >= MOST_TEXTS:
        raise _error(
            f"A track of this MIDI file holds more than {MOST_TEXTS:,} events of one kind that are no notes.",
            reading.base + start,
        )
    return values


def _text(content: bytes) -> str:
    """Return a text, decoded as UTF-8 or else as Latin-1; what cannot be printed becomes a space."""
    try:
        text = content.decode("utf-8")
    except UnicodeDecodeError:
        text = content.decode("latin-1")
    return " ".join("".join(one if one.isprintable() else " " for one in text).split())
