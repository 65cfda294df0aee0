"""The formats of tracks.

Row format: ending of the file; name; container and coding as libsndfile calls them; how hard it is
compressed (0 to 1, as libsndfile counts) and how its bit rate is ruled; whether it gives back the very
samples (only such files join without a gap in a loop); source.
"""

from __future__ import annotations

from typing import NamedTuple


class FormatRow(NamedTuple):
    """One format; `container` is "" for MIDI."""

    ending: str
    name: str
    container: str
    coding: str
    level: float | None
    mode: str
    lossless: bool
    source: str


FORMATS: tuple[FormatRow, ...] = (
    FormatRow(".mid", "MIDI", "", "", None, "", True, "Standard MIDI Files 1.0"),
    FormatRow(".wav", "WAV", "WAV", "PCM_16", None, "", True, "16 bit, read by everything"),
    FormatRow(
        ".flac", "FLAC", "FLAC", "PCM_16", 0.5, "", True,
        "measured: level 1 takes 3 times as long for 4 % less",
    ),
    FormatRow(
        ".mp3", "MP3", "MP3", "MPEG_LAYER_III", 0.25, "VARIABLE", False,
        "measured on a trio: about 150 kbit/s, as loud as the original to 0.05 LU, and decoded to the sample",
    ),
    FormatRow(".opus", "Opus", "OGG", "OPUS", 0.75, "", False, "measured on a trio: about 130 kbit/s"),
)  # fmt: skip

RATE_HZ = 48_000
"""Samples a second of every audio format: the one rate at which Opus works (RFC 6716)."""

TARGET_LUFS = -16.0
"""How loud a track is as a whole unless the author says otherwise."""

CEILING_DBTP = -1.0
"""The highest true peak (EBU R 128: −1 dBTP)."""

TAIL_SECONDS = 1.9
"""How long the audio goes on behind the last bar line, for what still rings."""

FADE_SECONDS = 0.9
"""The end of the tail in which what still rings is faded out."""
