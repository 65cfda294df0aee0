"""The tags of a sound file read from its bytes: title, key, tempo, chapters.

Sources: ID3 tag version 2.3.0 (M. Nilsson, 1999), its chapter addendum; the Vorbis I specification, section
5; RFC 9639, section 8; RFC 7845, section 5. Shares no code with what writes them.
"""

from __future__ import annotations

import re
import struct
from collections.abc import Iterator
from dataclasses import dataclass

_ID3_CHAPTER_TIMES = 16
_TEXT = re.compile(rb"T[A-Z0-9]{3}")


@dataclass(frozen=True, slots=True)
class FileTags:
    """What a file says of itself; `place` is "3/12", `chapters` are starts in seconds and titles."""

    title: str = ""
    place: str = ""
    key: str = ""
    tempo: str = ""
    chapters: tuple[tuple[float, str], ...] = ()


def tags_in(content: bytes) -> FileTags:
    """Return the tags of an MP3, WAV, FLAC or Opus file; empty ones where it has none.

    Raises:
        ValueError: if they cannot be read.
    """
    try:
        if content[:4] == b"RIFF":
            return _of_frames(_riff_chunk(content, b"id3 "))
        if content[:3] == b"ID3":
            return _of_frames(content)
        if content[:4] == b"fLaC":
            return _of_comments(_flac_comments(content))
        if content[:4] == b"OggS":
            return _of_comments(_ogg_comments(content))
    except (struct.error, IndexError, UnicodeDecodeError) as error:
        raise ValueError(f"its tags cannot be read: {error}") from None
    return FileTags()


def _riff_chunk(content: bytes, name: bytes) -> bytes:
    at = 12
    while at + 8 <= len(content):
        size = struct.unpack_from("<I", content, at + 4)[0]
        if content[at : at + 4] == name:
            return content[at + 8 : at + 8 + size]
        at += 8 + size + size % 2
    return b""


def _of_frames(tag: bytes) -> FileTags:
    if not tag:
        return FileTags()
    size = sum((byte & 0x7F) << shift for byte, shift in zip(tag[6:10], (21, 14, 7, 0), strict=True))
    texts: dict[str, str] = {}
    chapters = []
    for name, body in _frames(tag[10 : 10 + size]):
        if name == b"CHAP":
            _, _, rest = body.partition(b"\0")
            inner = dict(_frames(rest[_ID3_CHAPTER_TIMES:]))
            start_ms = struct.unpack_from(">I", rest)[0]
            chapters.append((start_ms / 1000, _text(inner.get(b"TIT2", b""))))
        elif _TEXT.fullmatch(name):
            texts[name.decode()] = _text(body)
    title, place, key, tempo = (texts.get(name, "") for name in ("TIT2", "TRCK", "TKEY", "TBPM"))
    return FileTags(title, place, key, tempo, tuple(chapters))


def _frames(body: bytes) -> Iterator[tuple[bytes, bytes]]:
    at = 0
    while at + 10 <= len(body) and body[at] != 0:
        size = struct.unpack_from(">I", body, at + 4)[0]
        yield body[at : at + 4], body[at + 10 : at + 10 + size]
        at += 10 + size


def _text(body: bytes) -> str:
    if not body:
        return ""
    return body[1:].decode("utf-16" if body[0] == 1 else "latin-1").rstrip("\0")


def _flac_comments(content: bytes) -> bytes:
    at, last = 4, False
    while not last:
        last, kind = bool(content[at] & 0x80), content[at] & 0x7F
        size = int.from_bytes(content[at + 1 : at + 4], "big")
        if kind == 4:
            return content[at + 4 : at + 4 + size]
        at += 4 + size
    return b""


def _ogg_comments(content: bytes) -> bytes:
    """Return the second packet of an Opus file without the eight bytes that name it."""
    packets, at = [b""], 0
    while len(packets) < 3:
        count = content[at + 26]
        sizes = content[at + 27 : at + 27 + count]
        at += 27 + count
        for size in sizes:
            packets[-1] += content[at : at + size]
            at += size
            if size < 255:
                packets.append(b"")
    return packets[1][8:]


def _of_comments(block: bytes) -> FileTags:
    if not block:
        return FileTags()
    at = 4 + struct.unpack_from("<I", block)[0]
    count = struct.unpack_from("<I", block, at)[0]
    at += 4
    found: dict[str, str] = {}
    for _ in range(count):
        size = struct.unpack_from("<I", block, at)[0]
        name, _, text = block[at + 4 : at + 4 + size].decode().partition("=")
        found[name.lower()] = text
        at += 4 + size
    chapters = []
    for number in range(1, len(found)):
        clock = found.get(f"chapter{number:03d}")
        if clock is None:
            break
        hours, minutes, seconds = clock.split(":")
        start = 3600 * int(hours) + 60 * int(minutes) + float(seconds)
        chapters.append((start, found.get(f"chapter{number:03d}name", "")))
    place = f"{found.get('tracknumber', '')}/{found.get('tracktotal', '')}"
    return FileTags(
        found.get("title", ""), place.strip("/"), found.get("key", ""), found.get("bpm", ""), tuple(chapters)
    )
