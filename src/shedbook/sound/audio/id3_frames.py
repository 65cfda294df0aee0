"""Text frames and chapters of ID3v2.3, the tags of MP3 and WAV files.

Sources: ID3 tag version 2.3.0 (M. Nilsson, 1999): 3.1 the header, 3.3 frames, 4.2 text frames, 4.11 comments;
ID3v2 Chapter Frame Addendum 1.0 (C. Newell, 2005): CHAP, CTOC.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import NamedTuple

_UTF16 = b"\x01"
_MARK = b"\xff\xfe"
_HEADER_BYTES = 10
_FOOTER_FLAG = 0x10
_NO_OFFSET = b"\xff\xff\xff\xff"
"""Places in bytes are not used: times in milliseconds hold (addendum, 3.1)."""
_TOP_LEVEL_IN_ORDER = b"\x03"
_MOST_CHAPTERS = 255


class ChapterFrame(NamedTuple):
    """A chapter: where it starts and ends in milliseconds, and its text frames as `id3_tag` takes them."""

    start_ms: int
    end_ms: int
    texts: tuple[tuple[str, str], ...]


def id3_tag(
    texts: Iterable[tuple[str, str]], comment: str = "", chapters: Sequence[ChapterFrame] = ()
) -> bytes:
    """Return a whole tag: a header and its frames.

    Args:
        texts: identifiers of text frames (four capitals or digits, beginning with T) with their texts; an
            empty text is left out.
        comment: the text of one comment frame in English without a heading; "" for none.
        chapters: the chapters in their order, at most 255.

    Raises:
        ValueError: if there are more chapters than a table of contents can count.
    """
    frames = [_frame(name, _UTF16 + _utf16(text)) for name, text in texts if text]
    if comment:
        frames.append(_frame("COMM", _UTF16 + b"eng" + _MARK + b"\0\0" + _utf16(comment)))
    frames += _chapter_frames(chapters)
    body = b"".join(frames)
    return b"ID3\x03\x00\x00" + _seven_bits(len(body)) + body


def _chapter_frames(chapters: Sequence[ChapterFrame]) -> list[bytes]:
    """Return a frame for each chapter, and the table of contents that names them in order."""
    if len(chapters) > _MOST_CHAPTERS:
        raise ValueError(f"{len(chapters)} chapters are more than an ID3 tag can count.")
    names = [f"key{number}".encode("ascii") + b"\0" for number in range(len(chapters))]
    frames = []
    for name, chapter in zip(names, chapters, strict=True):
        times = chapter.start_ms.to_bytes(4, "big") + chapter.end_ms.to_bytes(4, "big")
        texts = [_frame(row, _UTF16 + _utf16(text)) for row, text in chapter.texts if text]
        frames.append(_frame("CHAP", b"".join([name, times, _NO_OFFSET, _NO_OFFSET, *texts])))
    if frames:
        contents = [b"toc\0", _TOP_LEVEL_IN_ORDER, bytes([len(names)]), *names]
        frames.append(_frame("CTOC", b"".join(contents)))
    return frames


def without_id3(content: bytes) -> bytes:
    """Return the bytes of a file without the ID3v2 tag that may stand before its sound."""
    if content[:3] != b"ID3" or len(content) < _HEADER_BYTES:
        return content
    size = 0
    for byte in content[6:_HEADER_BYTES]:
        size = size << 7 | byte & 0x7F
    footer = _HEADER_BYTES if content[5] & _FOOTER_FLAG else 0
    return content[_HEADER_BYTES + size + footer :]


def _frame(name: str, body: bytes) -> bytes:
    return name.encode("ascii") + len(body).to_bytes(4, "big") + b"\0\0" + body


def _utf16(text: str) -> bytes:
    return _MARK + text.encode("utf-16-le")


def _seven_bits(number: int) -> bytes:
    """Return a number in four bytes of seven bits, so that no byte looks like the beginning of sound."""
    return bytes(number >> shift & 0x7F for shift in (21, 14, 7, 0))
