"""The bytes of Standard MIDI Files: what is read, and what is refused with the offset of the byte."""

from __future__ import annotations

import time
import tracemalloc

import pytest

from exchange.playing import meta, midi_file, number, track
from shedbook.errors import ReadError
from shedbook.exchange.midi.events import MidiNote
from shedbook.exchange.midi.file_bytes import MOST_BYTES, MOST_NOTES, MOST_TEXTS, parse_midi

ON, OFF = 0x90, 0x80


def header(form: int = 1, tracks: int = 1, division: int = 480) -> bytes:
    return b"MThd\0\0\0\6" + b"".join(one.to_bytes(2, "big") for one in (form, tracks, division))


def raw_track(content: bytes) -> bytes:
    return b"MTrk" + len(content).to_bytes(4, "big") + content


END = b"\0\xff\x2f\0"

# RP-001, Standard MIDI Files 1.0: the file of its appendix, as format 0 (from memory, shortened): three
# channels, running status, note ons with no velocity for note offs.
EXAMPLE = header(0, 1, 96) + raw_track(
    b"\x00\xff\x58\x04\x04\x02\x18\x08" b"\x00\xff\x51\x03\x07\xa1\x20"
    b"\x00\xc0\x05\x00\xc1\x2e\x00\xc2\x46"
    b"\x00\x92\x30\x60\x00\x3c\x60" b"\x60\x91\x43\x40" b"\x60\x90\x4c\x20"
    b"\x81\x40\x82\x30\x40\x00\x3c\x40" b"\x00\x81\x43\x40" b"\x00\x80\x4c\x40" + END
)  # fmt: skip


def test_example_of_the_standard() -> None:
    found = parse_midi(EXAMPLE)
    (only,) = found.tracks
    assert found.format == 0
    assert found.ticks_per_quarter == 96
    assert found.remarks == ()
    assert only.notes == (
        MidiNote(0, 384, 48, 96, 2),
        MidiNote(0, 384, 60, 96, 2),
        MidiNote(96, 384, 67, 64, 1),
        MidiNote(192, 384, 76, 32, 0),
    )
    assert only.programs == ((0, 5), (1, 46), (2, 70))
    assert [(one.beats, one.unit) for one in only.metres] == [(4, 4)]
    assert [one.microseconds for one in only.tempos] == [500_000]
    assert only.end == 384


# RP-001, "variable-length quantities": the table of examples.
@pytest.mark.parametrize(
    ("value", "content"),
    [
        (0x00, "00"), (0x40, "40"), (0x7F, "7F"), (0x80, "8100"), (0x2000, "C000"), (0x3FFF, "FF7F"),
        (0x4000, "818000"), (0x100000, "C08000"), (0x1FFFFF, "FFFF7F"), (0x200000, "81808000"),
        (0x8000000, "C0808000"), (0xFFFFFFF, "FFFFFF7F"),
    ],
)  # fmt: skip
def test_numbers_of_variable_length(value: int, content: str) -> None:
    assert number(value) == bytes.fromhex(content)
    data = midi_file([raw_track(bytes.fromhex(content) + b"\x90\x40\x40\x10\x40\0" + END)])
    assert parse_midi(data).tracks[0].notes == (MidiNote(value, value + 16, 64, 64, 0),)


REFUSED = [
    pytest.param(b"", 0, id="nothing"),
    pytest.param(b"RIFF\0\0\0\0RMID", 0, id="another container"),
    pytest.param(b"MThd\0\0\0\6\0\1", 10, id="a header cut short"),
    pytest.param(b"MThd\0\0\0\4" + header()[8:], 4, id="a header too short"),
    pytest.param(b"MThd\xff\xff\xff\xff" + header()[8:], 4, id="a header longer than the file"),
    pytest.param(header(2) + raw_track(END), 8, id="format 2"),
    pytest.param(header(1, 0), 10, id="no tracks"),
    pytest.param(header(0, 2) + raw_track(END) * 2, 10, id="two tracks in format 0"),
    pytest.param(header(1, 65535) + raw_track(END), 10, id="65535 tracks"),
    pytest.param(header(division=0) + raw_track(END), 12, id="no ticks in a quarter"),
    pytest.param(header(division=0xE700) + raw_track(END), 12, id="no ticks in a frame"),
    pytest.param(header(division=0x8101) + raw_track(END), 12, id="127 frames a second"),
    pytest.param(header(1, 2) + raw_track(END), 26, id="a track missing"),
    pytest.param(header() + b"MTrk\xff\xff\xff\xff\0", 18, id="a track longer than the file"),
    pytest.param(header() + raw_track(b"\0\x90\x40"), 25, id="cut in a note"),
    pytest.param(header() + raw_track(b"\0\x40\x40"), 23, id="running status that nothing began"),
    pytest.param(header() + raw_track(b"\0\xff\x01\0\0\x40\x40"), 27, id="running status after a text"),
    pytest.param(header() + raw_track(b"\0\x90\x80\x40"), 24, id="a key above 127"),
    pytest.param(header() + raw_track(b"\0\xb0\x07\xff"), 24, id="a control above 127"),
    pytest.param(header() + raw_track(b"\xff\xff\xff\xff\x7f\x90\x40\x40"), 22, id="a number of 5 bytes"),
    pytest.param(header() + raw_track(b"\0\xff\x01\x8f\xff\xff\x7fx"), 23, id="a text longer than all"),
    pytest.param(header() + raw_track(b"\0\xf0\x7f\x01"), 23, id="a dump longer than all"),
    pytest.param(header() + raw_track(b"\0\xf8"), 23, id="a real-time byte"),
    pytest.param(header() + raw_track(b"\0\xff"), 24, id="cut in a meta event"),
]


@pytest.mark.parametrize(("data", "offset"), REFUSED)
def test_refused_with_the_byte(data: bytes, offset: int) -> None:
    with pytest.raises(ReadError) as caught:
        parse_midi(data)
    assert caught.value.start == offset
    assert caught.value.hint


MENDED = [
    pytest.param(b"\0\xff\x51\3\0\0\0" + END, "1 tempos of zero", id="tempo of zero"),
    pytest.param(b"\0\xff\x51\1\7" + END, "1 tempos of zero", id="tempo cut short"),
    pytest.param(b"\0\xff\x58\4\0\2\x18\x08" + END, "1 metres that", id="metre of no beats"),
    pytest.param(b"\0\xff\x58\4\4\x40\x18\x08" + END, "1 metres that", id="metre over 2^64"),
    pytest.param(b"\0\xff\x59\2\x19\0" + END, "1 key signatures", id="25 sharps"),
    pytest.param(b"\0\x90\x40\x40" + END, "1 notes never end", id="a hanging note"),
    pytest.param(b"\0\x80\x40\x40" + END, "1 endings of notes", id="an ending alone"),
    pytest.param(b"\0\x90\x40\x40\x10\x40\0", "1 tracks have no end", id="no end of track"),
    pytest.param(b"\0\xff\x7e\3abc\0\xff\x4b\0" + END, "", id="unknown meta events"),
    pytest.param(b"\0\xf0\3\x7e\x09\xf7\0\xf7\1\xf3" + END, "", id="system exclusive"),
]


@pytest.mark.parametrize(("content", "remark"), MENDED)
def test_mended_and_said(content: bytes, remark: str) -> None:
    found = parse_midi(header() + raw_track(content))
    assert bool(found.remarks) == bool(remark)
    assert all(one.startswith(remark) for one in found.remarks)


def test_overlapping_notes_of_one_key_end_in_order() -> None:
    events = [(0, b"\x90\x40\x40"), (10, b"\x90\x40\x50"), (20, b"\x80\x40\0"), (30, b"\x80\x40\0")]
    (only,) = parse_midi(midi_file([track(events)])).tracks
    assert only.notes == (MidiNote(0, 20, 64, 64, 0), MidiNote(10, 30, 64, 80, 0))


def test_unknown_chunks_and_what_follows_the_last_track_are_passed_over() -> None:
    data = header() + b"XFIH\0\0\0\2ab" + raw_track(END) + b"tail"
    found = parse_midi(data)
    assert len(found.tracks) == 1
    assert found.remarks == ("4 bytes after the last track were passed over",)


def test_film_time() -> None:
    # RP-001: the upper byte is minus the frames a second, the lower the ticks in a frame.
    found = parse_midi(header(division=0xE728) + raw_track(END))
    assert (found.ticks_per_quarter, found.ticks_per_second) == (0, 1000)


def test_texts_are_printable_and_bounded() -> None:
    texts = ["Über\n\x1b[31m".encode(), "Über".encode("latin-1"), b"x" * 5000]
    (only,) = parse_midi(midi_file([track([(0, meta(6, text)) for text in texts])])).tracks
    assert [one.text for one in only.texts] == ["Über [31m", "Über", "x" * 1000]


BOMBS = [
    pytest.param(b"\0" * (MOST_BYTES + 1), id="too many bytes"),
    pytest.param(
        header() + raw_track(b"\0\x90\x40\x40" + b"\1\x40\0\0\x40\x40" * (MOST_NOTES + 1)), id="notes"
    ),
    pytest.param(header() + raw_track(b"\0\xff\x51\3\7\xa1\x20" * (MOST_TEXTS + 1)), id="tempos"),
    pytest.param(header() + raw_track(b"\0\xff\x06\1A" * (MOST_TEXTS + 1)), id="markers"),
    pytest.param(header() + raw_track(b"\0\x90\x40\x40" + b"\0\x40\x40" * 100), id="one key begun for ever"),
]


@pytest.mark.parametrize("data", BOMBS)
def test_bombs_are_refused_soon_and_in_little_memory(data: bytes) -> None:
    tracemalloc.start()
    began = time.process_time()
    try:
        with pytest.raises(ReadError):
            parse_midi(data)
        _, peak = tracemalloc.get_traced_memory()
    finally:
        tracemalloc.stop()
    assert peak < 80_000_000
    assert time.process_time() - began < 20
