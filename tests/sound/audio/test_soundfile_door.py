"""Files of samples: their length, their samples, their tags; the same bytes each time."""

from __future__ import annotations

import io
import wave
from pathlib import Path

import mutagen
import numpy as np
import pytest
import soundfile
from mutagen.id3 import ID3

from shedbook.errors import OutputError, SoundError
from shedbook.sound.audio.file_tags import Chapter, Tags, key_text, tagged
from shedbook.sound.audio.formats import format_of
from shedbook.sound.audio.soundfile_door import decode, encode, read_recording
from shedbook.sound.audio.tables.formats import FORMATS, RATE_HZ, FormatRow
from shedbook.theory.key import Key
from sound.studio import sine

AUDIO = tuple(row for row in FORMATS if row.container)
EVERY_FORMAT = pytest.mark.parametrize("row", AUDIO, ids=lambda row: row.name)
TAGS = Tags("Nebel über dem Moor", "Ten phrases", "A. N. Other", 3, 12, 132, Key.parse("Bb minor"), "a synth")
SECONDS = 3.21


def tone() -> np.ndarray[tuple[int, int], np.dtype[np.float32]]:
    return np.concatenate([sine(SECONDS - 1, 440, -12), sine(1, 660, -12)])


@EVERY_FORMAT
def test_the_length_is_kept(row: FormatRow) -> None:
    """Within 5 ms for what loses nothing and 60 ms for MP3; libsndfile counts MP3 and Opus to the sample."""
    samples = tone()
    found = soundfile.info(io.BytesIO(tagged(encode(samples, row), row, TAGS)))
    assert found.channels == 2
    assert found.samplerate == RATE_HZ
    assert abs(found.frames - len(samples)) / RATE_HZ <= (0.005 if row.lossless else 0.060)


@pytest.mark.parametrize("row", [row for row in AUDIO if row.lossless], ids=lambda row: row.name)
def test_what_loses_nothing_gives_back_the_samples(row: FormatRow) -> None:
    samples = tone()
    assert np.abs(decode(encode(samples, row)) - samples).max() <= 0.5 / 32768 + 1e-7


def test_a_wav_file_is_read_by_the_standard_library() -> None:
    row = format_of(".wav")
    with wave.open(io.BytesIO(tagged(encode(tone(), row), row, TAGS))) as file:
        assert (file.getnchannels(), file.getsampwidth(), file.getframerate()) == (2, 2, RATE_HZ)
        assert file.getnframes() == len(tone())


@EVERY_FORMAT
def test_the_same_samples_give_the_same_bytes(row: FormatRow) -> None:
    once, again = (tagged(encode(tone(), row), row, TAGS) for _ in range(2))
    assert once == again


@EVERY_FORMAT
def test_the_tone_is_still_there(row: FormatRow) -> None:
    heard = decode(tagged(encode(tone(), row), row, TAGS))[RATE_HZ // 2 : RATE_HZ * 3 // 2, 0]
    peak = np.argmax(np.abs(np.fft.rfft(heard * np.hanning(len(heard)))))
    assert peak == 440
    assert np.abs(heard).max() == pytest.approx(10 ** (-12 / 20), rel=0.05)


@pytest.mark.parametrize("ending", [".opus", ".mp3"])
def test_minutes_can_be_written(ending: str) -> None:
    """A minute written in one call ends the process in libsndfile's Ogg encoders."""
    row = format_of(ending)
    silence = np.zeros((150 * RATE_HZ, 2), np.float32)
    assert abs(soundfile.info(io.BytesIO(encode(silence, row))).frames - len(silence)) < 0.06 * RATE_HZ


@EVERY_FORMAT
def test_tags_as_another_library_reads_them(row: FormatRow) -> None:
    """libsndfile knows title, artist, album and number; of WAV files it reads other tags than ID3."""
    content = tagged(encode(tone(), row), row, TAGS)
    if row.ending == ".wav":
        assert content[content.index(b"id3 ") + 8 :].startswith(b"ID3\3")
        return
    with soundfile.SoundFile(io.BytesIO(content)) as file:
        assert (file.title, file.artist, file.album) == (TAGS.title, TAGS.artist, TAGS.album)
        assert file.tracknumber in ("3", "3/12")


def id3_text(content: bytes, frame: str) -> str:
    """Return a frame's text as ID3v2.3 has it (4.2: identifier, size, flags, encoding 1 for UTF-16, text)."""
    at = content.index(frame.encode())
    size = int.from_bytes(content[at + 4 : at + 8], "big")
    body = content[at + 10 : at + 10 + size]
    assert body[:1] == b"\1"
    return body[1:].decode("utf-16").rstrip("\0")


@EVERY_FORMAT
def test_tempo_and_key_stand_in_the_file(row: FormatRow) -> None:
    """ID3v2.3, 4.2.1: TBPM a number, TKEY as "Bbm"; Vorbis comments: NAME=value in UTF-8."""
    content = tagged(encode(tone(), row), row, TAGS)
    if row.ending in (".wav", ".mp3"):
        found = [id3_text(content, frame) for frame in ("TBPM", "TKEY", "TRCK", "TPE1", "TALB")]
        assert found == ["132", "Bbm", "3/12", TAGS.artist, TAGS.album]
        return
    for text in (b"bpm=132", b"key=Bbm", b"initialkey=Bbm", b"tracknumber=3", b"tracktotal=12"):
        assert text.lower() in content.lower()


@EVERY_FORMAT
def test_a_tag_that_is_not_known_is_left_out(row: FormatRow) -> None:
    content = tagged(encode(tone(), row), row, Tags("Tuning note")).lower()
    assert b"bpm" not in content
    assert b"tkey" not in content
    assert b"initialkey" not in content


@pytest.mark.parametrize(("key", "text"), [("F# minor", "F#m"), ("Bb", "Bb"), ("C major", "C")])
def test_keys_as_id3_writes_them(key: str, text: str) -> None:
    assert key_text(Key.parse(key)) == text


def test_midi_carries_no_such_tags() -> None:
    assert tagged(b"MThd", format_of(".mid"), TAGS) == b"MThd"


@pytest.mark.parametrize("ending", [".MP3", ".wav", ".mid"])
def test_formats_are_found_by_ending(ending: str) -> None:
    assert format_of(ending).ending == ending.lower()


@pytest.mark.parametrize(("ending", "hint"), [("", ".mid, .wav"), (".mp4", '".mp3"'), (".ogg", ".opus")])
def test_an_unknown_ending_is_an_error_that_lists_the_known(ending: str, hint: str) -> None:
    with pytest.raises(OutputError) as caught:
        format_of(ending)
    assert hint in caught.value.hint


# Recordings of the author's.


@pytest.mark.parametrize(
    ("rate", "channels", "ending"), [(44_100, 1, "wav"), (48_000, 2, "flac"), (22_050, 6, "wav")]
)
def test_recordings_come_at_our_rate_in_stereo(tmp_path: Path, rate: int, channels: int, ending: str) -> None:
    time_s = np.arange(rate * 2) / rate
    wave_of_a = 0.5 * np.sin(2 * np.pi * 440 * time_s)
    path = tmp_path / f"mine.{ending}"
    soundfile.write(path, np.repeat(wave_of_a[:, None], channels, axis=1), rate)
    samples = read_recording(path)
    assert samples.shape == (2 * RATE_HZ, 2)
    heard = samples[:RATE_HZ, 1]
    assert np.argmax(np.abs(np.fft.rfft(heard * np.hanning(RATE_HZ)))) == 440


@pytest.mark.parametrize("content", [b"", b"no sound at all", None], ids=["empty", "text", "missing"])
def test_a_recording_that_cannot_be_read_is_an_error(tmp_path: Path, content: bytes | None) -> None:
    path = tmp_path / "mine.wav"
    if content is not None:
        path.write_bytes(content)
    with pytest.raises(SoundError, match=r"mine\.wav"):
        read_recording(path)


def test_a_recording_without_a_sample_is_an_error(tmp_path: Path) -> None:
    soundfile.write(tmp_path / "mine.wav", np.zeros((0, 1)), 44_100)
    with pytest.raises(SoundError, match="is empty"):
        read_recording(tmp_path / "mine.wav")


CHAPTERS = (
    Chapter(0.0, 12.5, "C major", Key.parse("C")),
    Chapter(12.5, 62.25, "F minor", Key.parse("F minor")),
)


def test_chapters_of_mp3_and_wav() -> None:
    """ID3v2 Chapter Frame Addendum 1.0: CHAP with times in milliseconds, CTOC in order; read by mutagen."""
    silent = encode(np.zeros((RATE_HZ, 2), np.float32), format_of(".mp3"))
    read = ID3(io.BytesIO(tagged(silent, format_of(".mp3"), Tags("x", chapters=CHAPTERS))))
    chapters = sorted(read.getall("CHAP"), key=lambda frame: frame.start_time)
    assert [(one.start_time, one.end_time) for one in chapters] == [(0, 12500), (12500, 62250)]
    assert [one.sub_frames["TIT2"].text for one in chapters] == [["C major"], ["F minor"]]
    assert [one.sub_frames["TKEY"].text for one in chapters] == [["C"], ["Fm"]]
    assert read.getall("CTOC")[0].child_element_ids == [one.element_id for one in chapters]


@pytest.mark.parametrize("ending", [".flac", ".opus"])
def test_chapters_of_vorbis_comments(ending: str) -> None:
    """CHAPTERnnn and CHAPTERnnnNAME, from memory."""
    silent = encode(np.zeros((RATE_HZ, 2), np.float32), format_of(ending))
    content = tagged(silent, format_of(ending), Tags("x", chapters=CHAPTERS))
    read = mutagen.File(io.BytesIO(content))
    assert (read["chapter002"], read["chapter002name"]) == (["00:00:12.500"], ["F minor"])
