"""What kind of file bytes are, where another program's file is not what its owner thinks."""

from __future__ import annotations

from shedbook.errors import ReadError

_RIFF, _MIDI_IN_RIFF, _DATA = b"RIFF", b"RMID", b"data"
_MOST_CHUNKS = 64


def midi_inside(data: bytes) -> bytes:
    """Return the Standard MIDI File that a RIFF file (.rmi) holds; any other bytes as they are."""
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
    """Raise the error that the owner of a page or a recording needs.

    Raises:
        ReadError: if the bytes are a PDF, a picture or sound.
    """
    head = data[:1024].lstrip()
    for begin, what in (
        (b"%PDF", "a PDF: a picture of notes"),
        (b"\x89PNG", "a picture"),
        (b"\xff\xd8\xff", "a picture"),
        (_RIFF, "a recording"),
        (b"fLaC", "a recording"),
        (b"OggS", "a recording"),
        (b"ID3", "a recording"),
    ):
        if head.startswith(begin):
            raise ReadError(
                f"{name} is {what}, and holds no notes that can be read.",
                hint="Export it as MusicXML or MIDI from the program that wrote it.",
            )
