"""The one module that imports mutagen: what a player shows of a track, written into its file.

Keys are written as ID3's TKEY has them: tonic, sharp or flat, "m" for minor. Nothing written depends on the
clock or on chance.
"""

from __future__ import annotations

import io
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from types import MappingProxyType

from mutagen.flac import FLAC
from mutagen.id3 import ID3, Encoding
from mutagen.id3._frames import CHAP, COMM, CTOC, TALB, TBPM, TIT2, TKEY, TPE1, TRCK, TSSE
from mutagen.id3._specs import CTOCFlags
from mutagen.ogg import OggPage
from mutagen.oggopus import OggOpus
from mutagen.wave import WAVE

from shedbook.errors import SoundError
from shedbook.sound.audio.tables.formats import FORMATS, FormatRow
from shedbook.table_index import need
from shedbook.theory.key import Key

_MADE_WITH = "shedbook"
_SERIAL = 1
_CHAPTER = "key{}"
_NO_OFFSET = 0xFFFFFFFF
"""ID3v2 Chapter Frame Addendum 1.0: places in bytes are not used."""
_ID3 = 3
"""ID3v2.3, which every player reads."""


@dataclass(frozen=True, slots=True)
class Chapter:
    """A part of a track: where it starts and ends in seconds, what it is called, its key."""

    start_s: float
    end_s: float
    title: str
    key: Key | None = None


@dataclass(frozen=True, slots=True)
class Tags:
    """What is written into a track: `number` of `of` in its album (0 for none), beats a minute, the key.

    `sound` says what it was played with: synthesiser and SoundFont, or whose recording it is.
    """

    title: str
    album: str = ""
    artist: str = ""
    number: int = 0
    of: int = 0
    bpm: int = 0
    key: Key | None = None
    sound: str = ""
    chapters: tuple[Chapter, ...] = ()


def tagged(content: bytes, row: FormatRow, tags: Tags) -> bytes:
    """Return the bytes of a file with its tags.

    Args:
        content: the file as it was encoded.
        row: its format; a MIDI file has no tags and is returned as it is.
        tags: what is written into it.
    """
    return _WRITERS[row.ending](content, tags) if row.container else content


def check_writers(rows: Iterable[FormatRow]) -> None:
    """See that tags can be written into every format of audio.

    Raises:
        TableError: if there is a format for which nobody writes them.
    """
    for row in rows:
        need(
            not row.container or row.ending in _WRITERS,
            f'Nobody writes tags into the format "{row.ending}".',
            "Write a function for it into _WRITERS in src/shedbook/sound/audio/file_tags.py.",
        )


def key_text(key: Key) -> str:
    """Return a key as ID3 writes it: "Bb", "F#m"."""
    return f"{key.tonic}{'m' if key.mode == 'minor' else ''}"


def _frames(tags: Tags) -> ID3:
    """Return ID3 frames; what is not known is left out."""
    place = f"{tags.number}/{tags.of}" if tags.of else str(tags.number)
    texts = (
        (TIT2, tags.title),
        (TALB, tags.album),
        (TPE1, tags.artist),
        (TRCK, place if tags.number else ""),
        (TBPM, str(tags.bpm) if tags.bpm else ""),
        (TKEY, key_text(tags.key) if tags.key else ""),
        (TSSE, _MADE_WITH),
    )
    frames = ID3()
    for frame, text in texts:
        if text:
            frames.add(frame(encoding=Encoding.UTF16, text=[text]))
    if tags.sound:
        frames.add(COMM(encoding=Encoding.UTF16, lang="eng", desc="", text=[tags.sound]))
    for number, chapter in enumerate(tags.chapters):
        frames.add(_chapter_frame(number, chapter))
    if tags.chapters:
        names = [_CHAPTER.format(number) for number in range(len(tags.chapters))]
        flags = CTOCFlags.TOP_LEVEL | CTOCFlags.ORDERED
        frames.add(CTOC(element_id="toc", flags=flags, child_element_ids=names, sub_frames=[]))
    return frames


def _chapter_frame(number: int, chapter: Chapter) -> CHAP:
    """Return a chapter as ID3v2's chapter addendum has it: times in milliseconds, no places in bytes."""
    said = [TIT2(encoding=Encoding.UTF16, text=[chapter.title])]
    if chapter.key is not None:
        said.append(TKEY(encoding=Encoding.UTF16, text=[key_text(chapter.key)]))
    return CHAP(
        element_id=_CHAPTER.format(number),
        start_time=round(1000 * chapter.start_s),
        end_time=round(1000 * chapter.end_s),
        start_offset=_NO_OFFSET,
        end_offset=_NO_OFFSET,
        sub_frames=said,
    )


def _clock(seconds: float) -> str:
    """Return a time as the chapters of Vorbis comments have it: 00:01:02.500."""
    whole = round(1000 * seconds)
    return f"{whole // 3_600_000:02d}:{whole // 60_000 % 60:02d}:{whole // 1000 % 60:02d}.{whole % 1000:03d}"


def _comments(tags: Tags) -> dict[str, str]:
    """Return Vorbis comments; the key under both names that are in use."""
    key = key_text(tags.key) if tags.key else ""
    found = {
        "title": tags.title,
        "album": tags.album,
        "artist": tags.artist,
        "tracknumber": str(tags.number) if tags.number else "",
        "tracktotal": str(tags.of) if tags.number and tags.of else "",
        "bpm": str(tags.bpm) if tags.bpm else "",
        "key": key,
        "initialkey": key,
        "comment": tags.sound,
        "encoded-by": _MADE_WITH,
    }
    for number, chapter in enumerate(tags.chapters, start=1):
        found[f"chapter{number:03d}"] = _clock(chapter.start_s)
        found[f"chapter{number:03d}name"] = chapter.title
    return {name: text for name, text in found.items() if text}


def _mp3(content: bytes, tags: Tags) -> bytes:
    file = io.BytesIO(content)
    _frames(tags).save(file, v1=0, v2_version=_ID3)
    return file.getvalue()


def _wav(content: bytes, tags: Tags) -> bytes:
    file = io.BytesIO(content)
    wave = WAVE(file)
    wave.add_tags()
    for frame in _frames(tags).values():
        wave.tags.add(frame)
    file.seek(0)
    wave.save(file, v2_version=_ID3)
    return file.getvalue()


def _flac(content: bytes, tags: Tags) -> bytes:
    file = io.BytesIO(content)
    flac = FLAC(file)
    flac.update(_comments(tags))
    file.seek(0)
    flac.save(file)
    return file.getvalue()


def _opus(content: bytes, tags: Tags) -> bytes:
    file = io.BytesIO(_one_serial(content))
    opus = OggOpus(file)
    opus.tags.clear()
    opus.update(_comments(tags))
    file.seek(0)
    opus.save(file)
    return file.getvalue()


def _one_serial(content: bytes) -> bytes:
    """Return an Ogg file whose serial number is always the same."""
    file, out = io.BytesIO(content), io.BytesIO()
    while file.tell() < len(content):
        page = OggPage(file)
        page.serial = _SERIAL
        out.write(page.write())
    if not out.tell():
        raise SoundError("The Opus encoder gave an empty file.")
    return out.getvalue()


_WRITERS: Mapping[str, Callable[[bytes, Tags], bytes]] = MappingProxyType(
    {".wav": _wav, ".flac": _flac, ".mp3": _mp3, ".opus": _opus}
)
"""Ending of a file to what writes tags into its bytes."""

check_writers(FORMATS)
