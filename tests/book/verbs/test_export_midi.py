"""A phrase as a plain MIDI file, read back with mido. The round trip is tested in tests/exchange/midi."""

from __future__ import annotations

import io
from typing import Any

import mido
import pytest

from shedbook.book.verbs.export_midi import plain_midi
from shedbook.phrase.fields import phrase_from_fields

FIELDS = {"title": "Low tide", "changes": "Cmaj7", "tempo": 120}
Sounded = tuple[int, int, int, int]


def file_of(line: str, **fields: object) -> Any:
    phrase = phrase_from_fields({**FIELDS, "line": line, **fields})
    return mido.MidiFile(file=io.BytesIO(plain_midi(phrase)))


def sounded(file: Any) -> list[Sounded]:
    """Return when each note begins and how long it sounds in ticks, its MIDI number, its velocity."""
    found, begun = [], dict[int, tuple[int, int]]()
    now = 0
    for message in file.tracks[1]:
        now += message.time
        if message.type == "note_on" and message.velocity:
            begun[message.note] = (now, message.velocity)
        elif message.type in ("note_on", "note_off"):
            start, velocity = begun.pop(message.note)
            found.append((start, now - start, message.note, velocity))
    assert not begun
    return sorted(found)


# A quarter is 960 ticks. A grace note sounds for 60 ms, 115 ticks at 120; it takes its time from the note
# before, at most half of it, and begins where no written note could. Source: the head of the module, by hand.
C, E, G = (0, 960, 72, 90), (960, 960, 76, 90), (1920, 1920, 79, 90)
ROWS = [
    pytest.param("1/4 c5 e 1/2 g", {}, [C, E, G], id="as written"),
    pytest.param(
        "1/4 c5.staccato e.accent 1/2 g.ghost", {},
        [(0, 509, 72, 90), (960, 960, 76, 110), (1920, 1920, 79, 50)], id="shorter, louder, softer",
    ),
    pytest.param(
        "1/4 c5 | 1/1 e5", {"pickup": "1/4"},
        [(2880, 960, 72, 90), (3840, 3840, 76, 90)], id="a bar before a pick-up",
    ),
    pytest.param(
        "grace:b4 1/1 c5", {},
        [(3725, 115, 71, 80), (3840, 3840, 72, 90)], id="a bar before a grace note at the very beginning",
    ),
    pytest.param(
        "grace:b4 1/4 c5 | 1/1 e5", {"pickup": "1/4"},
        [(2765, 115, 71, 80), (2880, 960, 72, 90), (3840, 3840, 76, 90)], id="one before a pick-up has room",
    ),
    pytest.param("1/4 c5 - grace:f#5 1/2 g", {}, [C, (1805, 115, 78, 80), G], id="one in a silence"),
    pytest.param(
        "1/2 c5 grace:b4 c5", {},
        [(0, 1805, 72, 90), (1805, 115, 71, 80), (1920, 1920, 72, 90)], id="one cuts the note before it",
    ),
    pytest.param(
        "1/2 c5 grace:b4 c5", {"tempo": 240},
        [(0, 1690, 72, 90), (1690, 230, 71, 80), (1920, 1920, 72, 90)], id="as many ms at another tempo",
    ),
    pytest.param(
        "1/16 c5 grace:c#5 grace:d grace:d# e 1/8 g 1/4 c 1/2 g", {},
        [(0, 123, 72, 90), (123, 39, 73, 80), (162, 39, 74, 80), (201, 39, 75, 80),
         (240, 240, 76, 90), (480, 480, 79, 90), (960, 960, 72, 90), G], id="three share half of one note",
    ),
]  # fmt: skip


@pytest.mark.parametrize(("line", "fields", "expected"), ROWS)
def test_every_note_sounds_where_and_as_it_is_written(
    line: str, fields: dict[str, object], expected: list[Sounded]
) -> None:
    changes = "Cmaj7 | Cmaj7" if "|" in line and "pickup" not in fields else "Cmaj7"
    assert sounded(file_of(line, changes=changes, **fields)) == expected


def test_the_file_says_what_is_played() -> None:
    """Source: Standard MIDI Files 1.0: names, tempo, metre, key; markers are the chord symbols."""
    file = file_of("1/2. d5 | 1/4 d5 e f", changes="Dm7 | G7", metre="3/4", key="F", tempo=90)
    said = {one.type: one for one in file.tracks[0]}
    assert file.ticks_per_beat == 960
    assert said["track_name"].name == "Low tide"
    assert said["set_tempo"].tempo == 666_667  # microseconds a quarter: 60 s in 90
    assert (said["time_signature"].numerator, said["time_signature"].denominator) == (3, 4)
    assert said["key_signature"].key == "F"
    assert sum(one.time for one in file.tracks[0]) == 2 * 3 * 960  # to the end of the last bar
    now, marks = 0, []
    for one in file.tracks[0]:
        now += one.time
        if one.type == "marker":
            marks.append((now, one.text))
    assert marks == [(0, "Dm7"), (3 * 960, "G7")]


def test_however_many_grace_notes_there_are_each_sounds() -> None:
    """Half of a thirty-second is 60 ticks: too few for 62 grace notes, which sound for a tick each."""
    graces = "grace:d5 grace:e5 " * 31
    found = sounded(file_of(f"1/32 c5 {graces}f5 1/16 g 1/8 c 1/4 c c c"))
    assert [length for _, length, _, velocity in found if velocity == 80] == [1] * 62
