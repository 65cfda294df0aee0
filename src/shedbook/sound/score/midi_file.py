"""A performance as a Standard MIDI File 1.0: one conductor's track, then a track and a channel a player.

Pure: values in, bytes out. Every track ends at the last bar line. Pitch bend keeps General MIDI's range of
two half steps either way.
"""

from __future__ import annotations

import math
from io import BytesIO
from typing import Any

from mido import MetaMessage, MidiFile, MidiTrack
from mido.messages import BaseMessage, Message

from shedbook.sound.score.performance import TICKS_A_QUARTER, Performance, PlayedPart, to_ticks
from shedbook.sound.score.tables.mix import VOLUMES
from shedbook.theory.key import Key

_OFF, _CONTROL, _ON = 2, 3, 4
_RELEASE = 64
_BEND_CENTS = 200
_VOLUME, _PAN = 7, 10
_FILTER, _FINE, _COARSE, _NRPN_MIDDLE = ((99, 120), (98, 8)), 38, 6, 8192
_SIGNATURES = ("Cb", "Gb", "Db", "Ab", "Eb", "Bb", "F", "C", "G", "D", "A", "E", "B", "F#", "C#")
_MINOR_SIGNATURES = ("Ab", "Eb", "Bb", "F", "C", "G", "D", "A", "E", "B", "F#", "C#", "G#", "D#", "A#")

Timed = tuple[int, int, type[BaseMessage], dict[str, Any]]
"""A message to be made: its tick, its place among the messages of one tick, its kind and its fields."""


def smf(performance: Performance, *, filters: bool = False) -> bytes:
    """Return a performance as the bytes of a Standard MIDI File 1.0, format 1, with 960 ticks a quarter.

    With `filters` the filter of each stroke of the drums is said too, as SoundFont synthesisers read it
    (SoundFont 2.04, 9.6.2: NRPN 120, generator 8, initialFilterFc, in steps of 2 cents).

    The first track holds name, tempo, metre, keys and signs; then comes a track for each part. The same
    performance gives the same bytes.
    """
    file = MidiFile(type=1, ticks_per_beat=TICKS_A_QUARTER, charset="utf-8")
    file.tracks.append(_track(_conductor(performance), performance.ticks))
    for part in performance.parts:
        file.tracks.append(_track(_player(part, filters=filters), performance.ticks))
    out = BytesIO()
    file.save(file=out)
    return out.getvalue()


def _track(messages: list[Timed], ticks: int) -> MidiTrack:
    """Return a track with times between messages, ended at a tick."""
    track = MidiTrack()
    before = 0
    for tick, _, kind, fields in sorted(messages, key=lambda timed: timed[:2]):
        track.append(kind(**fields, time=tick - before))
        before = tick
    track.append(MetaMessage("end_of_track", time=ticks - before))
    return track


def _conductor(performance: Performance) -> list[Timed]:
    metre = performance.metre
    found: list[Timed] = [
        (0, 0, MetaMessage, {"type": "track_name", "name": performance.title}),
        (0, 1, MetaMessage, {"type": "set_tempo", "tempo": performance.tempo_us}),
        (0, 1, MetaMessage, {
            "type": "time_signature", "numerator": metre.beats, "denominator": metre.unit,
        }),
    ]  # fmt: skip
    found += [
        (row.tick, 1, MetaMessage, {"type": "set_tempo", "tempo": row.tempo_us}) for row in performance.later
    ]
    found += [(0, 1, MetaMessage, {"type": "text", "text": text}) for text in performance.texts]
    for at in performance.keys:
        fields = {"type": "key_signature", "key": signature_text(at.key)}
        found.append((to_ticks(at.start), 2, MetaMessage, fields))
    for sign in performance.signs:
        found.append((to_ticks(sign.start), 3, MetaMessage, {"type": "marker", "text": sign.text}))
    return found


def signature_text(key: Key) -> str:
    """Return the key signature as MIDI can say it: at most seven sharps or flats, "Bb" or "Gm"."""
    place = key.signature
    while place > 7:
        place -= 12
    while place < -7:
        place += 12
    minor = key.mode == "minor"
    return f"{_MINOR_SIGNATURES[place + 7]}m" if minor else _SIGNATURES[place + 7]


def _player(part: PlayedPart, *, filters: bool) -> list[Timed]:
    to = {"channel": part.channel}
    found: list[Timed] = [
        (0, 0, MetaMessage, {"type": "track_name", "name": part.name}),
        (0, 1, Message, {"type": "program_change", "program": part.program, **to}),
        (0, 1, Message, {"type": "control_change", "control": _VOLUME, "value": VOLUMES[part.player], **to}),
        (0, 1, Message, {"type": "control_change", "control": _PAN, "value": part.pan, **to}),
    ]
    for note in part.notes:
        on = {"type": "note_on", "note": note.midi, "velocity": note.velocity, **to}
        off = {"type": "note_off", "note": note.midi, "velocity": _RELEASE, **to}
        found += [(note.start, _ON, Message, on), (note.end, _OFF, Message, off)]
    for bend in part.bends:
        pitch = max(-8192, min(8191, math.floor(bend.cents * 8192 / _BEND_CENTS)))
        found.append((bend.tick, _CONTROL, Message, {"type": "pitchwheel", "pitch": pitch, **to}))
    for row in part.filters if filters else ():
        steps = _NRPN_MIDDLE + round(row.cents / 2)
        for control, value in (*_FILTER, (_FINE, steps & 127), (_COARSE, steps >> 7)):
            fields = {"type": "control_change", "control": control, "value": value, **to}
            found.append((row.tick, _CONTROL, Message, fields))
    return found
