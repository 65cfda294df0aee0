"""The synthesiser: the best one that is there, kept with its font loaded for the next track.

FluidSynth is taken where its system library is; else the synthesiser that comes as a Python package.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import lru_cache
from pathlib import Path
from typing import Protocol

import numpy as np
from numpy.typing import NDArray

from shedbook.errors import SoundError
from shedbook.sound.audio.fluidsynth_door import Fluid, fluid_name
from shedbook.sound.audio.midirenderer_door import WHEEL_NAME, Wheel
from shedbook.sound.audio.sound_fonts import SoundFont, find_font, font_seal


class Synth(Protocol):
    """A synthesiser with one font loaded; each track it renders is the same, whatever came before.

    `filters` says whether it reads what `smf` says of the filter of strokes.
    """

    font: SoundFont
    filters: bool

    def __hash__(self) -> int:
        """Return what tells one from another."""

    @property
    def name(self) -> str:
        """What it is called in reports and tags."""

    def render(self, midi: bytes, frames: int) -> NDArray[np.float32]:
        """Return the sound of a MIDI file from its first tick on.

        Args:
            midi: the bytes of the file.
            frames: how many frames of stereo are returned, at `RATE_HZ`; silence follows what is shorter.

        Raises:
            SoundError: if the file cannot be rendered.
        """

    def stems(self, midi: bytes, frames: int, channels: Sequence[int]) -> dict[int, NDArray[np.float32]]:
        """Return each channel of a MIDI file by itself, as frames by two, dry where the synthesiser can.

        Args:
            midi: the bytes of the file.
            frames: how many frames of stereo each has, at `RATE_HZ`.
            channels: MIDI channels, counted from 0.

        Raises:
            SoundError: if the file cannot be rendered.
        """

    def blocks(
        self, midi: bytes, frames: int, channels: Sequence[int], length: int
    ) -> Iterator[dict[int, NDArray[np.float32]]]:
        """Yield what `stems` returns, block by block as it is rendered: two channels by frames.

        Args:
            midi: the bytes of the file.
            frames: how many frames come in all.
            channels: MIDI channels, counted from 0.
            length: how many frames a block has; the last may have fewer.

        Raises:
            SoundError: if the file cannot be rendered.
        """

    def close(self) -> None:
        """Let the font go."""


def open_synth(font: SoundFont) -> Synth:
    """Return the best synthesiser that is there, with a font loaded.

    Raises:
        SoundError: if none is there, or none can load the font; the hint says what to install.
    """
    try:
        return Fluid(font)
    except SoundError as first:
        try:
            return Wheel(font)
        except SoundError as second:
            raise SoundError(f"{first.message} {second.message}", hint=second.hint or first.hint) from first


def synth_for(named: Path | None = None) -> Synth:
    """Return the synthesiser with the author's font, or the best font; kept until another font is asked for.

    Raises:
        SoundError: as `open_synth` and `fonts.find_font`.
    """
    font = find_font(named)
    return _kept(font, font_seal(font.path))


@lru_cache(maxsize=1)
def _kept(font: SoundFont, seal: str) -> Synth:
    return open_synth(font)


def sound_versions(named: Path | None = None) -> str:
    """Return what besides the notes decides how a track sounds, in one line; "" where nothing can sound.

    No font is loaded for it.
    """
    try:
        font = find_font(named)
    except SoundError:
        return ""
    try:
        synth = fluid_name()
    except SoundError:
        synth = WHEEL_NAME
    return f"{synth}, {font.name} {font_seal(font.path)}"
