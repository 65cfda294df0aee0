"""The programs of operating systems that play a sound file, and how each is called; the first one is used.

Row format: program; its arguments before the file's name; source.
"""

from __future__ import annotations

from typing import NamedTuple


class ListenerRow(NamedTuple):
    """One program."""

    program: str
    arguments: tuple[str, ...]
    source: str


LISTENERS: tuple[ListenerRow, ...] = (
    ListenerRow("afplay", (), "part of macOS, from memory"),
    ListenerRow("pw-play", (), "Debian's pipewire-bin, from memory"),
    ListenerRow("paplay", (), "Debian's pulseaudio-utils, from memory"),
    ListenerRow("aplay", ("-q",), "Debian's alsa-utils, from memory"),
    ListenerRow("ffplay", ("-nodisp", "-autoexit", "-loglevel", "error"), "Debian's ffmpeg, from memory"),
)
