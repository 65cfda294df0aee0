"""Vorbis comments, the tags of FLAC and Opus files, and the blocks and pages that carry them.

Sources: the Vorbis I specification, section 5 (comments); RFC 9639, section 8 (FLAC's metadata blocks);
RFC 3533, section 6 (Ogg pages); RFC 7845, section 5 (the header packets of Opus).
"""

from __future__ import annotations

import zlib
from collections.abc import Iterator, Mapping
from typing import NamedTuple

from shedbook.errors import SoundError

_FLAC_COMMENTS = 4
_FLAC_LAST = 0x80
_PAGE_HEADER_BYTES = 27
_CONTINUED = 0x01
_MOST_SEGMENTS = 255
_NO_PACKET_ENDS = (1 << 64) - 1
_OPUS_HEADER = b"OpusHead"
_OPUS_COMMENTS = b"OpusTags"
_SERIAL = 1
"""The serial number of every file: the encoder takes one by chance, but the same track is the same bytes."""
_BITS_TURNED = bytes(int(f"{byte:08b}"[::-1], 2) for byte in range(256))


def flac_with(content: bytes, comments: Mapping[str, str]) -> bytes:
    """Return a FLAC file whose only comments are those given.

    Raises:
        SoundError: if the bytes are no FLAC file.
    """
    if content[:4] != b"fLaC":
        raise SoundError("The FLAC encoder gave something that is no FLAC file.")
    kept, vendor, at, last = [], b"", 4, False
    while not last:
        kind, last = content[at] & ~_FLAC_LAST, bool(content[at] & _FLAC_LAST)
        size = int.from_bytes(content[at + 1 : at + 4], "big")
        body = content[at + 4 : at + 4 + size]
        if kind == _FLAC_COMMENTS:
            vendor = _vendor(body)
        else:
            kept.append((kind, body))
        at += 4 + size
    # The stream's own description must stay the first block, so the comments come last.
    kept.append((_FLAC_COMMENTS, _block(vendor, comments)))
    blocks = [
        bytes([kind | (_FLAC_LAST if number == len(kept) else 0)]) + len(body).to_bytes(3, "big") + body
        for number, (kind, body) in enumerate(kept, 1)
    ]
    return b"fLaC" + b"".join(blocks) + content[at:]


def opus_with(content: bytes, comments: Mapping[str, str]) -> bytes:
    """Return an Opus file whose only comments are those given, with a serial number that is always the same.

    Raises:
        SoundError: if the bytes are no Opus file in Ogg.
    """
    pages = tuple(_pages(content))
    if not pages or not pages[0].body.startswith(_OPUS_HEADER):
        raise SoundError(
            "The Opus encoder gave an empty file." if not pages else "The Opus file has no header."
        )
    first_of_sound = 2
    while first_of_sound < len(pages) and pages[first_of_sound].kind & _CONTINUED:
        first_of_sound += 1
    old = b"".join(page.body for page in pages[1:first_of_sound])
    if not old.startswith(_OPUS_COMMENTS):
        raise SoundError("The Opus file has no comments where its standard puts them.")
    packet = _OPUS_COMMENTS + _block(_vendor(old[len(_OPUS_COMMENTS) :]), comments)
    made = (pages[0], *_packet_pages(packet), *pages[first_of_sound:])
    return b"".join(_page_bytes(page, number) for number, page in enumerate(made))


def _block(vendor: bytes, comments: Mapping[str, str]) -> bytes:
    """Return comments with their counts: little-endian, NAME=value in UTF-8, no framing bit."""
    rows = [f"{name}={text}".encode() for name, text in comments.items()]
    return b"".join(
        (_counted(vendor), len(rows).to_bytes(4, "little"), *(_counted(row) for row in rows)),
    )


def _counted(text: bytes) -> bytes:
    return len(text).to_bytes(4, "little") + text


def _vendor(block: bytes) -> bytes:
    """Return the name of the encoder, which stands first in a block of comments."""
    return block[4 : 4 + int.from_bytes(block[:4], "little")]


class _Page(NamedTuple):
    """One page of an Ogg file: its flags, the time of its last whole packet, its lacing values, its bytes."""

    kind: int
    granule: int
    segments: bytes
    body: bytes


def _pages(content: bytes) -> Iterator[_Page]:
    at = 0
    while at < len(content):
        head = content[at : at + _PAGE_HEADER_BYTES]
        if head[:4] != b"OggS" or len(head) < _PAGE_HEADER_BYTES:
            raise SoundError("The Opus encoder gave something that is no Ogg file.")
        at += _PAGE_HEADER_BYTES
        segments = content[at : at + head[26]]
        at += head[26]
        yield _Page(head[5], int.from_bytes(head[6:14], "little"), segments, content[at : at + sum(segments)])
        at += sum(segments)


def _packet_pages(packet: bytes) -> Iterator[_Page]:
    """Return the pages of a packet that ends where its last page ends."""
    lacing = bytes([255] * (len(packet) // 255) + [len(packet) % 255])
    for first in range(0, len(lacing), _MOST_SEGMENTS):
        segments = lacing[first : first + _MOST_SEGMENTS]
        body = packet[first * 255 : first * 255 + sum(segments)]
        ends = first + _MOST_SEGMENTS >= len(lacing)
        yield _Page(_CONTINUED if first else 0, 0 if ends else _NO_PACKET_ENDS, segments, body)


def _page_bytes(page: _Page, number: int) -> bytes:
    head = (
        b"OggS\0" + bytes([page.kind]) + page.granule.to_bytes(8, "little")
        + _SERIAL.to_bytes(4, "little") + number.to_bytes(4, "little")
    )  # fmt: skip
    tail = bytes([len(page.segments)]) + page.segments + page.body
    return head + _checksum(head + bytes(4) + tail).to_bytes(4, "little") + tail


def _checksum(page: bytes) -> int:
    """Return Ogg's checksum: the polynomial 0x04C11DB7, most significant bit first, beginning with 0.

    zlib's has the same polynomial with the bits in the other order, begins with ones and ends inverted.
    """
    turned = zlib.crc32(page.translate(_BITS_TURNED), 0xFFFFFFFF) ^ 0xFFFFFFFF
    return int.from_bytes(turned.to_bytes(4, "little").translate(_BITS_TURNED), "big")
