"""Tags of sound files, read back by mutagen, which had no part in writing them."""

from __future__ import annotations

import io

import mutagen
import pytest
from mutagen.flac import FLAC
from mutagen.mp3 import MP3
from mutagen.ogg import OggPage
from mutagen.oggopus import OggOpus
from mutagen.wave import WAVE

from shedbook.errors import SoundError
from shedbook.sound.audio.file_tags import Tags, tagged
from shedbook.sound.audio.formats import format_of
from shedbook.sound.audio.soundfile_door import encode
from shedbook.sound.audio.vorbis_comments import flac_with, opus_with
from shedbook.theory.key import Key
from sound.studio import sine

ODD = Tags("Nebel über dem Moor", "Ten", "A. N. Other", 3, 12, 132, Key.parse("Bb minor"), "a synth ♯")
LONG = Tags("y" * 70_000, "Ten phrases", "", 3, 0, 0, None, "")
"""Longer than one Ogg page can hold (255 segments of 255 bytes: RFC 3533)."""


def file_with(ending: str, tags: Tags) -> bytes:
    row = format_of(ending)
    return tagged(encode(sine(0.4, 440, -12), row), row, tags)


@pytest.mark.parametrize(("ending", "reader"), [(".mp3", MP3), (".wav", WAVE)])
def test_id3_as_another_library_reads_it(ending: str, reader: type) -> None:
    """ID3v2.3: the frames' names and texts; the comment has a language and no heading."""
    read = reader(io.BytesIO(file_with(ending, ODD))).tags
    assert read.version == (2, 3, 0)
    texts = {name: str(read[name]) for name in ("TIT2", "TALB", "TPE1", "TRCK", "TBPM", "TKEY", "TSSE")}
    assert texts == {
        "TIT2": ODD.title, "TALB": "Ten", "TPE1": "A. N. Other", "TRCK": "3/12", "TBPM": "132", "TKEY": "Bbm",
        "TSSE": "shedbook",
    }  # fmt: skip
    assert str(read["COMM::eng"]) == "a synth ♯"
    assert len(read) == 8


@pytest.mark.parametrize(("ending", "reader"), [(".flac", FLAC), (".opus", OggOpus)])
def test_vorbis_comments_as_another_library_reads_them(ending: str, reader: type) -> None:
    read = reader(io.BytesIO(file_with(ending, ODD))).tags
    assert dict(read.items()) == {
        "title": [ODD.title], "album": ["Ten"], "artist": ["A. N. Other"], "tracknumber": ["3"],
        "tracktotal": ["12"], "bpm": ["132"], "key": ["Bbm"], "initialkey": ["Bbm"], "comment": ["a synth ♯"],
        "encoded-by": ["shedbook"],
    }  # fmt: skip
    assert read.vendor  # the encoder's own name stays


@pytest.mark.parametrize("ending", [".mp3", ".wav", ".flac", ".opus"])
def test_long_texts_and_what_is_left_out(ending: str) -> None:
    read = mutagen.File(io.BytesIO(file_with(ending, LONG))).tags
    name = {".mp3": "TIT2", ".wav": "TIT2"}.get(ending, "title")
    found = read[name]
    assert "".join(found if isinstance(found, list) else found.text) == LONG.title
    assert len(read) == 4  # title, album, number, what it was made with


@pytest.mark.parametrize("tags", [ODD, LONG], ids=["short", "long"])
def test_every_ogg_page_is_as_the_standard_says(tags: Tags) -> None:
    """RFC 3533: each page has its checksum, its number and one serial number; mutagen computes its own."""
    content, at, number = file_with(".opus", tags), 0, 0
    file = io.BytesIO(content)
    while at < len(content):
        page = OggPage(file)
        assert (page.sequence, page.serial) == (number, 1)
        assert page.write() == content[at : file.tell()]
        at, number = file.tell(), number + 1
    assert number > 2


@pytest.mark.parametrize("ending", [".mp3", ".flac", ".opus"])
def test_tagging_twice_is_tagging_once(ending: str) -> None:
    once = file_with(ending, ODD)
    assert tagged(once, format_of(ending), ODD) == once
    assert tagged(tagged(once, format_of(ending), LONG), format_of(ending), ODD) == once


def test_a_wav_file_says_its_size() -> None:
    """RIFF: the size in the header is that of all that follows, and every chunk begins at an even place."""
    for title in ("even", "odds!"):
        content = file_with(".wav", Tags(title))
        assert int.from_bytes(content[4:8], "little") == len(content) - 8
        assert len(content) % 2 == 0


def test_a_flac_file_begins_with_its_stream() -> None:
    """RFC 9639, 8.1: STREAMINFO is the first block, exactly one block is marked as the last."""
    blocks = FLAC(io.BytesIO(file_with(".flac", ODD))).metadata_blocks
    assert [block.code for block in blocks] == sorted({block.code for block in blocks})
    assert blocks[0].code == 0


@pytest.mark.parametrize("content", [b"", b"RIFF", b"OggS" + bytes(40), b"OggS"])
def test_what_the_encoder_must_not_give_is_an_error(content: bytes) -> None:
    with pytest.raises(SoundError):
        opus_with(content, {})
    with pytest.raises(SoundError):
        flac_with(content, {})
