"""What a player shows of a track, written into its file.

Keys are written as ID3's TKEY has them: tonic, sharp or flat, "m" for minor. Nothing written depends on the
clock or on chance.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from types import MappingProxyType

from shedbook.sound.audio.id3_frames import ChapterFrame, id3_tag, without_id3
from shedbook.sound.audio.tables.formats import FORMATS, FormatRow
from shedbook.sound.audio.vorbis_comments import flac_with, opus_with
from shedbook.table_index import need
from shedbook.theory.key import Key

_MADE_WITH = "shedbook"
_RIFF_HEADER_BYTES = 12


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
        content: the file as it was encoded, or as it was tagged before: older tags are taken away.
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


def _id3(tags: Tags) -> bytes:
    """Return an ID3 tag; what is not known is left out."""
    place = f"{tags.number}/{tags.of}" if tags.of else str(tags.number)
    texts = (
        ("TIT2", tags.title),
        ("TALB", tags.album),
        ("TPE1", tags.artist),
        ("TRCK", place if tags.number else ""),
        ("TBPM", str(tags.bpm) if tags.bpm else ""),
        ("TKEY", key_text(tags.key) if tags.key else ""),
        ("TSSE", _MADE_WITH),
    )
    return id3_tag(texts, tags.sound, [_chapter_frame(chapter) for chapter in tags.chapters])


def _chapter_frame(chapter: Chapter) -> ChapterFrame:
    """Return a chapter with its times in milliseconds, its title and its key."""
    key = key_text(chapter.key) if chapter.key is not None else ""
    texts = (("TIT2", chapter.title), ("TKEY", key))
    return ChapterFrame(round(1000 * chapter.start_s), round(1000 * chapter.end_s), texts)


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
    return _id3(tags) + without_id3(content)


def _wav(content: bytes, tags: Tags) -> bytes:
    """Return a WAV file with a last chunk "id3 " (RIFF: a chunk takes an even number of bytes)."""
    content = _without_tag(content)
    tag = _id3(tags)
    chunk = b"id3 " + len(tag).to_bytes(4, "little") + tag + b"\0" * (len(tag) % 2)
    body = content[_RIFF_HEADER_BYTES:] + chunk
    return b"RIFF" + (len(body) + 4).to_bytes(4, "little") + b"WAVE" + body


def _without_tag(content: bytes) -> bytes:
    """Return a WAV file without the chunk "id3 " that was written last into it."""
    at = _RIFF_HEADER_BYTES
    while at + 8 <= len(content):
        if content[at : at + 4] == b"id3 ":
            return content[:at]
        size = int.from_bytes(content[at + 4 : at + 8], "little")
        at += 8 + size + size % 2
    return content


def _flac(content: bytes, tags: Tags) -> bytes:
    return flac_with(content, _comments(tags))


def _opus(content: bytes, tags: Tags) -> bytes:
    return opus_with(content, _comments(tags))


_WRITERS: Mapping[str, Callable[[bytes, Tags], bytes]] = MappingProxyType(
    {".wav": _wav, ".flac": _flac, ".mp3": _mp3, ".opus": _opus}
)
"""Ending of a file to what writes tags into its bytes."""

check_writers(FORMATS)
