"""Tags read from sound files. Source: mutagen reads and writes the same tags independently."""

from __future__ import annotations

import io

import mutagen
import numpy as np
import pytest

from shedbook.sound.audio.file_tags import Chapter, Tags, tagged
from shedbook.sound.audio.formats import format_of
from shedbook.sound.audio.read_tags import FileTags, tags_in
from shedbook.sound.audio.soundfile_door import encode
from shedbook.theory.key import Key

CHAPTERS = (Chapter(0.0, 1.5, "F minor", Key.parse("F minor")), Chapter(1.5, 2.0, "B♭ minor"))
TAGS = Tags("Low tide: demonstration, E♭", "Tides", "A. N.", 3, 12, 132, Key.parse("Eb minor"), "", CHAPTERS)


def file(ending: str, tags: Tags = TAGS) -> bytes:
    row = format_of(ending)
    return tagged(encode(np.zeros((4800, 2), np.float32), row), row, tags)


@pytest.mark.parametrize("ending", [".mp3", ".wav", ".flac", ".opus"])
def test_what_is_written_is_read(ending: str) -> None:
    assert tags_in(file(ending)) == FileTags(
        "Low tide: demonstration, E♭", "3/12", "Ebm", "132", ((0.0, "F minor"), (1.5, "B♭ minor"))
    )


@pytest.mark.parametrize("ending", [".flac", ".opus"])
def test_comments_that_another_library_wrote(ending: str) -> None:
    content = io.BytesIO(file(ending, Tags("x")))
    found = mutagen.File(content)
    found["title"], found["bpm"], found["key"] = "Other", "90", "C"
    content.seek(0)
    found.save(content)
    assert tags_in(content.getvalue()) == FileTags("Other", "", "C", "90")


def test_frames_that_another_library_wrote() -> None:
    content = io.BytesIO(file(".mp3", Tags("x")))
    found = mutagen.File(content)
    found.tags.add(mutagen.id3.TIT2(encoding=0, text="Other"))
    found.tags.add(mutagen.id3.TKEY(encoding=1, text="F#m"))
    content.seek(0)
    found.save(content, v2_version=3)
    assert (tags_in(content.getvalue()).title, tags_in(content.getvalue()).key) == ("Other", "F#m")


def test_a_file_without_tags_and_a_broken_one() -> None:
    assert tags_in(b"RIFF\0\0\0\0WAVE") == tags_in(b"") == FileTags()
    with pytest.raises(ValueError, match="cannot be read"):
        tags_in(b"OggS\0")
