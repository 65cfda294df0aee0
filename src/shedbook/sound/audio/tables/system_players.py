"""The programs of operating systems that play a sound file, and how each is called; the first one is used.

Row format: program; its arguments before the file's name; its arguments where the sound comes through its
standard input, none where it cannot, and whether it takes a WAV file there or the bare samples (16 bit,
stereo, 48 kHz); source.
"""

from __future__ import annotations

from typing import NamedTuple


class ListenerRow(NamedTuple):
    """One program."""

    program: str
    arguments: tuple[str, ...]
    source: str
    streamed: tuple[str, ...] = ()
    bare: bool = False


LISTENERS: tuple[ListenerRow, ...] = (
    ListenerRow("afplay", (), "part of macOS, from memory"),
    ListenerRow("pw-play", (), "Debian's pipewire-bin, from memory"),
    ListenerRow(
        "paplay", (), "Debian's pulseaudio-utils, from memory",
        ("--raw", "--rate=48000", "--channels=2", "--format=s16le"), bare=True,
    ),
    ListenerRow("aplay", ("-q",), "Debian's alsa-utils, from memory", ("-q", "-")),
    ListenerRow(
        "ffplay", ("-nodisp", "-autoexit", "-loglevel", "error"), "Debian's ffmpeg, from memory",
        ("-nodisp", "-autoexit", "-loglevel", "error", "-i", "-"),
    ),
)  # fmt: skip
