"""Phrases played the way a person plays them, for the tests of reading MIDI; and MIDI bytes put together."""

from __future__ import annotations

import random
from collections import defaultdict
from collections.abc import Iterable, Sequence
from fractions import Fraction

from shedbook.exchange.rhythm.beat_grids import GRAINS
from shedbook.exchange.rhythm.onsets import RecordedNote
from shedbook.phrase.model import Phrase, sounding_notes

HALF = Fraction(1, 2)


def bent(place: Fraction, off_beat: Fraction, even: frozenset[int]) -> Fraction:
    """Return where a place in quarters falls when the halves of its beat are long and short."""
    beat, inside = divmod(place, 1)
    if beat in even or not inside:
        return place
    if inside <= HALF:
        return beat + inside * 2 * off_beat
    return beat + off_beat + (inside - HALF) * 2 * (1 - off_beat)


def even_beats(phrase: Phrase) -> frozenset[int]:
    """Return the beats that are not bent: those of triplets and of four sixteenths."""
    onsets: dict[int, set[Fraction]] = defaultdict(set)
    for note in sounding_notes(phrase):
        beat, inside = divmod(note.start, 1)
        onsets[int(beat)].add(inside)
    plain = {Fraction(0), Fraction(1, 4), HALF, Fraction(3, 4)}
    quarters = {Fraction(1, 4), Fraction(3, 4)}
    return frozenset(beat for beat, places in onsets.items() if not places <= plain or quarters <= places)


def played(
    phrase: Phrase,
    *,
    ratio: Fraction = Fraction(1),
    jitter_ms: int = 0,
    shortest_share: float = 1.0,
    tempo_qpm: int,
    dice: random.Random,
    first_bar: int = 1,
) -> list[RecordedNote]:
    """Return a phrase as played, from the start of the bar that `first_bar` counts down from bar 1."""
    off_beat = ratio / (ratio + 1)
    even = even_beats(phrase) if phrase.metre.unit == 4 else frozenset(range(-64, 4096))
    found: list[RecordedNote] = []
    shift = first_bar * phrase.metre.bar_quarters
    a_ms = Fraction(tempo_qpm * GRAINS, 60000)
    for note in sounding_notes(phrase):
        start = bent(note.start, off_beat, even)
        length = (bent(note.end, off_beat, even) - start) * Fraction(dice.uniform(shortest_share, 1.0))
        late = dice.uniform(-jitter_ms, jitter_ms) * a_ms if jitter_ms else 0
        begin = int((start + shift) * GRAINS + late)
        if found and begin <= found[-1].start:
            begin = found[-1].start + 1
        end = max(begin + 1, int((start + shift + length) * GRAINS + late))
        if found and found[-1].end > begin:
            found[-1] = found[-1]._replace(end=begin)
        found.append(RecordedNote(begin, end, note.pitch.midi))
    return found


def number(value: int) -> bytes:
    """Return a number of variable length."""
    parts = [value & 0x7F]
    while value := value >> 7:
        parts.append(value & 0x7F | 0x80)
    return bytes(reversed(parts))


def meta(kind: int, content: bytes) -> bytes:
    """Return a meta event without its time."""
    return bytes((0xFF, kind)) + number(len(content)) + content


def track(events: Iterable[tuple[int, bytes]]) -> bytes:
    """Return a track of events with their ticks, ended."""
    content = b""
    before = 0
    for tick, event in sorted(events, key=lambda one: one[0]):
        content += number(tick - before) + event
        before = tick
    content += b"\0" + meta(0x2F, b"")
    return b"MTrk" + len(content).to_bytes(4, "big") + content


def midi_file(tracks: Sequence[bytes], *, form: int = 1, division: int = 480) -> bytes:
    """Return a file of tracks."""
    numbers = b"".join(one.to_bytes(2, "big") for one in (form, len(tracks), division))
    return b"MThd\0\0\0\6" + numbers + b"".join(tracks)


def phrase_file(phrase: Phrase, *, division: int = 960, chords: int = 6, form: int = 1) -> bytes:
    """Return the plain MIDI file of a phrase: its line as written, chord symbols as texts of a kind."""
    bar = phrase.metre.bar_quarters
    shift = bar if phrase.bars[0].number == 0 else Fraction(0)
    head = [
        (0, meta(3, phrase.title.encode())),
        (0, meta(0x51, (500_000).to_bytes(3, "big"))),
        (0, meta(0x58, bytes((phrase.metre.beats, phrase.metre.unit.bit_length() - 1, 24, 8)))),
    ]
    for change in phrase.changes:
        tick = round((phrase.change_start(change) + shift) * division)
        head.append((tick, meta(chords, change.chord.text.encode())))
    end = round((phrase.full_bars * bar + shift) * division)
    line: list[tuple[int, bytes]] = []
    for note in sounding_notes(phrase):
        start, stop = (round((at + shift) * division) for at in (note.start, note.end))
        line += [(start, bytes((0x90, note.pitch.midi, 80))), (stop, bytes((0x80, note.pitch.midi, 0)))]
    # An ending before a beginning of the same tick.
    line.sort(key=lambda one: (one[0], one[1][0]))
    last = (end, meta(1, b""))
    if form == 0:
        return midi_file([track([*head, *line, last])], form=0, division=division)
    return midi_file([track([*head, last]), track([(0, meta(3, b"line")), *line])], division=division)
