"""A line played in on a keyboard against a click, written down by the optimiser that reads MIDI files."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from fractions import Fraction
from io import BytesIO
from typing import Any, NamedTuple

from shedbook.errors import ReadError
from shedbook.phrase.fields import read_metre, read_tempo
from shedbook.phrase.line_text import print_line
from shedbook.phrase.model import Bar, Event
from shedbook.phrase.value_text import print_length

TICKS_A_QUARTER = 480
_MOST_NOTES = 2_000


class PlayedKey(NamedTuple):
    """One key that was struck: MIDI number, velocity, and when it went down and up, in seconds from bar 1."""

    midi: int
    velocity: int
    start_s: float
    end_s: float


def played_line(keys: Sequence[PlayedKey], fields: Mapping[str, Any], *, tempo_bpm: int) -> str:
    """Return what was played as the text of a line, in whole bars of the phrase's metre.

    Args:
        keys: what was played; the click's first beat of bar 1 is at 0 s.
        fields: the keys of the phrase, of which changes, key and metre are used.
        tempo_bpm: the tempo of the click, in beats of the metre a minute.

    Raises:
        ReadError: if nothing was played, or no line can be made of it.
    """
    from shedbook.exchange.midi.reader import read_midi  # noqa: PLC0415 - loaded only where it is needed

    if not keys:
        raise ReadError("Nothing was played.", hint="Play along with the click, and stop.")
    metre = read_metre(fields.get("metre", "4/4"))
    qpm = Fraction(read_tempo(tempo_bpm)) * metre.beat_quarters
    data = midi_on_beats(keys[:_MOST_NOTES], qpm, metre.beats, metre.unit)
    found = read_midi(
        data,
        "played in",
        split=frozenset(),
        changes=str(fields.get("changes", "")),
        tempo_qpm=qpm,
        metre=metre,
    )
    if not found.pieces:
        raise ReadError("No line could be made of what was played.", hint="Play one note at a time.")
    phrase = found.pieces[0].phrase
    return print_line(_without_pickup(phrase.bars, metre.bar_quarters))


def _without_pickup(bars: tuple[Bar, ...], full: Fraction) -> tuple[Bar, ...]:
    """Return bars without a pick-up; rests before its notes make it a bar."""
    if bars[0].number:
        return bars
    from shedbook.phrase.value_text import read_values  # noqa: PLC0415 - hardly ever needed

    missing = print_length(full - bars[0].quarters)
    rest = [Event(None, read_values(missing))] if missing else []
    first = Bar(1, (*rest, *bars[0].events))
    return (first, *(Bar(bar.number + 1, bar.events) for bar in bars[1:]))


def midi_on_beats(keys: Sequence[PlayedKey], qpm: Fraction, beats: int, unit: int) -> bytes:
    """Return what was played as a Standard MIDI File 1.0 at a tempo, bar 1 at its beginning."""
    from mido import MetaMessage, MidiFile, MidiTrack  # noqa: PLC0415 - loaded only where it is needed
    from mido.messages import Message  # noqa: PLC0415

    per_second = float(qpm) / 60 * TICKS_A_QUARTER
    messages = []
    for key in keys:
        start = max(0, round(key.start_s * per_second))
        end = max(start + 1, round(key.end_s * per_second))
        velocity = min(max(1, key.velocity), 127)
        messages.append((start, 1, Message("note_on", note=key.midi & 127, velocity=velocity)))
        messages.append((end, 0, Message("note_off", note=key.midi & 127)))
    track = MidiTrack()
    track.append(MetaMessage("set_tempo", tempo=round(60_000_000 / float(qpm))))
    track.append(MetaMessage("time_signature", numerator=beats, denominator=unit))
    before = 0
    for tick, _, message in sorted(messages, key=lambda one: one[:2]):
        track.append(message.copy(time=tick - before))
        before = tick
    file = MidiFile(type=0, ticks_per_beat=TICKS_A_QUARTER)
    file.tracks.append(track)
    out = BytesIO()
    file.save(file=out)
    return out.getvalue()
