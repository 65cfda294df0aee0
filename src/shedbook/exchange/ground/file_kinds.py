"""What kind of file some bytes are, where a file is not what its owner takes it for.

A MIDI file may stand inside a RIFF file. ABC notation, pages, pictures and recordings are recognised only so
that their owners are told what to do. No library was found that reads ABC notation well enough
(docs/exchange.md says what was looked at).
"""

from __future__ import annotations

import re

from shedbook.errors import ReadError

_RIFF, _MIDI_IN_RIFF, _DATA = b"RIFF", b"RMID", b"data"
_MOST_CHUNKS = 64
_SIGNATURES: tuple[tuple[bytes, str], ...] = (
    (b"%PDF", "a PDF: a picture of notes"),
    (b"\x89PNG", "a picture"),
    (b"\xff\xd8\xff", "a picture"),
    (_RIFF, "a recording"),
    (b"fLaC", "a recording"),
    (b"OggS", "a recording"),
    (b"ID3", "a recording"),
)
"""The first bytes of files that hold no notes, as the standard of each format gives them (from memory)."""

_LOOKED_AT_FOR_ABC = 4096
_ABC_TUNE = re.compile(rb"\A(?:\xef\xbb\xbf)?%abc\b|^X:[ \t]*[0-9]+[ \t\r]*$", re.MULTILINE)
_ABC_KEY = re.compile(rb"^K:", re.MULTILINE)


def midi_inside(data: bytes) -> bytes:
    """Return the Standard MIDI File that a RIFF file (.rmi) holds; return any other bytes unchanged.

    Args:
        data: the bytes of a file. At most 64 chunks of a RIFF file are searched.
    """
    if data[:4] != _RIFF or data[8:12] != _MIDI_IN_RIFF:
        return data
    place = 12
    for _ in range(_MOST_CHUNKS):
        length = int.from_bytes(data[place + 4 : place + 8], "little")
        if data[place : place + 4] == _DATA:
            return data[place + 8 : place + 8 + length if length else None]
        place += 8 + length + length % 2
    return data


def refuse_others(data: bytes, name: str) -> None:
    """Raise the error that the owner of a page, a picture or a recording needs.

    Args:
        data: the bytes of a file.
        name: what the error calls the file.

    Raises:
        ReadError: if the bytes are a PDF, a picture or sound.
    """
    head = data[:1024].lstrip()
    for begin, what in _SIGNATURES:
        if head.startswith(begin):
            raise ReadError(
                f"{name} is {what}, and holds no notes that can be read.",
                hint="Export it as MusicXML or MIDI from the program that wrote it.",
            )


def is_abc(data: bytes) -> bool:
    """Tell whether bytes begin as ABC notation does: with its version or a tune's number, and a key.

    Only the first 4096 bytes are looked at. The fields are those of the ABC notation standard 2.1, sections
    2.2.2 and 3.1 (from memory).
    """
    head = data[:_LOOKED_AT_FOR_ABC]
    if head.lstrip().startswith(b"<"):
        return False
    return _ABC_TUNE.search(head) is not None and _ABC_KEY.search(head) is not None


def refuse_abc(data: bytes, name: str) -> None:
    """Raise the error that the owner of an ABC file needs.

    Args:
        data: the bytes of a file.
        name: what the error calls the file.

    Raises:
        ReadError: if the bytes are ABC notation.
    """
    if is_abc(data):
        raise ReadError(
            f"{name} is ABC notation, which is not read.",
            hint="Convert it to MusicXML with the program you write ABC with, and import that.",
        )
