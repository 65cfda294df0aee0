"""The one module that imports the synthesiser which comes as a Python package.

For machines without FluidSynth. It renders at one rate, in 16 bit, up to the end of the longest track of
the MIDI file; so a track that holds nothing is laid beside the others, as long as what shall still ring.
"""

from __future__ import annotations

import io
import wave
from collections.abc import Iterator, Sequence
from functools import cached_property

import numpy as np
from mido import MetaMessage, MidiFile, MidiTrack
from numpy.typing import NDArray

from shedbook.errors import SoundError
from shedbook.sound.audio.sound_fonts import SoundFont
from shedbook.sound.audio.tables.formats import RATE_HZ

WHEEL_NAME = "midirenderer"

_FULL_SCALE = 32768.0
_RING_TICKS = 1 << 14
"""Ticks added at the end: with 960 a quarter, more than 2 s up to 500 quarters a minute."""


class Wheel:
    """The package's synthesiser with one font loaded.

    Raises:
        SoundError: if the package is missing, or the font is of a kind that it cannot read.
    """

    filters = False

    def __init__(self, font: SoundFont) -> None:
        self.font = font
        try:
            from midirenderer import render_wave_from  # noqa: PLC0415 - some machines have no wheel of it
        except ImportError as error:
            raise SoundError(
                "No synthesiser is there.",
                hint="Install one: apt-get install libfluidsynth3, or pip install midirenderer.",
            ) from error
        if font.compressed:
            raise SoundError(
                f"Without FluidSynth the compressed SoundFont {font.path} cannot be played.",
                hint="apt-get install libfluidsynth3, or name a .sf2 font.",
            )
        self._render = render_wave_from

    @property
    def name(self) -> str:
        """The synthesiser, as reports and tags print it."""
        return WHEEL_NAME

    def render(self, midi: bytes, frames: int) -> NDArray[np.float32]:
        """Return the sound of a MIDI file from its first tick on.

        Args:
            midi: the bytes of the file.
            frames: how many frames of stereo are returned, at `RATE_HZ`; silence follows what is shorter.

        Raises:
            SoundError: if the package cannot render the file, or gives another kind of samples than it did.
        """
        try:
            found = self._render(self._bytes, ringing(midi))
        except Exception as error:  # the package raises its own kinds
            raise SoundError(f"The track cannot be rendered with {self.font.path}: {error}.") from error
        with wave.open(io.BytesIO(found)) as file:
            if (file.getframerate(), file.getnchannels(), file.getsampwidth()) != (RATE_HZ, 2, 2):
                raise SoundError("midirenderer gives another kind of samples than it used to.")
            heard = np.frombuffer(file.readframes(min(frames, file.getnframes())), "<i2").reshape(-1, 2)
        samples = np.zeros((frames, 2), np.float32)
        samples[: len(heard)] = heard / _FULL_SCALE
        return samples

    def stems(self, midi: bytes, frames: int, channels: Sequence[int]) -> dict[int, NDArray[np.float32]]:
        """Return each channel of a MIDI file by itself, one pass a channel.

        Args:
            midi: the bytes of the file.
            frames: how many frames of stereo each has, at `RATE_HZ`.
            channels: MIDI channels, counted from 0.

        Raises:
            SoundError: as `render`.
        """
        return {channel: self.render(_only(midi, channel), frames) for channel in channels}

    def blocks(
        self, midi: bytes, frames: int, channels: Sequence[int], length: int
    ) -> Iterator[dict[int, NDArray[np.float32]]]:
        """Yield what `stems` returns in blocks, two channels by frames; all is rendered before the first.

        Args:
            midi: the bytes of the file.
            frames: how many frames come in all.
            channels: MIDI channels, counted from 0.
            length: how many frames a block has; the last may have fewer.

        Raises:
            SoundError: as `render`.
        """
        found = self.stems(midi, frames, channels)
        for first in range(0, frames, length):
            yield {channel: samples[first : first + length].T for channel, samples in found.items()}

    def close(self) -> None:
        """Let the font go."""

    @cached_property
    def _bytes(self) -> bytes:
        return self.font.path.read_bytes()


def _only(midi: bytes, channel: int) -> bytes:
    """Return a MIDI file with what is of no channel, and what is of this one."""
    file = MidiFile(file=io.BytesIO(midi), charset="utf-8")
    for number, track in enumerate(file.tracks):
        others = {message.channel for message in track if not message.is_meta} - {channel}
        if others:
            length = sum(message.time for message in track)
            file.tracks[number] = MidiTrack([MetaMessage("end_of_track", time=length)])
    out = io.BytesIO()
    file.save(file=out)
    return out.getvalue()


def ringing(midi: bytes) -> bytes:
    """Return a MIDI file with one more track, which is empty and longer than the others.

    The package stops with the longest track, and would cut off what still rings.
    """
    file = MidiFile(file=io.BytesIO(midi), charset="utf-8")
    longest = max((sum(message.time for message in track) for track in file.tracks), default=0)
    file.tracks.append(MidiTrack([MetaMessage("end_of_track", time=longest + _RING_TICKS)]))
    out = io.BytesIO()
    file.save(file=out)
    return out.getvalue()
