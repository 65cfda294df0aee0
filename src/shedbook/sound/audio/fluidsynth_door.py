"""The one module that imports FluidSynth's binding.

Traps, each met in trials: a gain that is no float is silently left at 0.2; chorus is on by default; a font
that cannot be loaded gives −1 and then silence; a synthesiser that is used again does not give the same
bytes. So one synthesiser holds the font, and each track gets a new one, to which the font is lent: it must be
taken back before that one goes, which would free it.
"""

from __future__ import annotations

import contextlib
import ctypes
import io
from collections.abc import Iterator, Sequence
from typing import Any

import numpy as np
from numpy.typing import NDArray

from shedbook.errors import SoundError
from shedbook.sound.audio.sound_fonts import SoundFont
from shedbook.sound.audio.tables.formats import RATE_HZ

_GAIN = 0.6
_CHANNELS = 16
_LOG_LEVELS = 5
_GROUPS = 5
"""Channels 0, 1, 2 and 9, the players of a track, are in four different ones of five groups of sound."""
_BLOCK_FRAMES = 4096
_FRAME_BYTES = 4
_DRY = {"synth.audio-groups": _GROUPS, "synth.audio-channels": _GROUPS, "synth.reverb.active": 0}


class Fluid:
    """FluidSynth with one font loaded.

    Raises:
        SoundError: if the system library is missing, or the font cannot be loaded.
    """

    filters = True

    def __init__(self, font: SoundFont) -> None:
        self.font = font
        self._fluid = _library()
        self._holder = self._new()

    @property
    def name(self) -> str:
        """The synthesiser with its version, as reports and tags print it."""
        return fluid_name()

    def render(self, midi: bytes, frames: int) -> NDArray[np.float32]:
        """Return the sound of a MIDI file from its first tick on.

        Args:
            midi: the bytes of the file.
            frames: how many frames of stereo are returned, at `RATE_HZ`; silence follows what is shorter.

        Raises:
            SoundError: if the synthesiser cannot read the file.
        """
        with self._playing(midi) as synth:
            samples = np.zeros((frames, 2), np.float32)
            place = samples.ctypes.data
            self._fluid.fluid_synth_write_float(synth, frames, place, 0, 2, place, 1, 2)
        return samples

    def stems(self, midi: bytes, frames: int, channels: Sequence[int]) -> dict[int, NDArray[np.float32]]:
        """Return each channel of a MIDI file by itself, dry, all in one pass.

        Args:
            midi: the bytes of the file.
            frames: how many frames of stereo each has, at `RATE_HZ`.
            channels: MIDI channels, counted from 0, no two alike modulo `_GROUPS`.

        Raises:
            SoundError: if the synthesiser cannot read the file.
        """
        found = {channel: np.zeros((2, frames), np.float32) for channel in channels}
        self._process(midi, found, frames)
        return {channel: samples.T for channel, samples in found.items()}

    def blocks(
        self, midi: bytes, frames: int, channels: Sequence[int], length: int
    ) -> Iterator[dict[int, NDArray[np.float32]]]:
        """Yield each channel of a MIDI file by itself, as `stems`, block by block: two channels by frames.

        Args:
            midi: the bytes of the file.
            frames: how many frames come in all.
            channels: MIDI channels, as in `stems`.
            length: how many frames a block has; the last may have fewer.

        Raises:
            SoundError: if the synthesiser cannot read the file.
        """
        with self._playing(midi, **_DRY) as synth:
            for first in range(0, frames, length):
                count = min(length, frames - first)
                found = {channel: np.zeros((2, count), np.float32) for channel in channels}
                self._fill(synth, found, count)
                yield found

    def close(self) -> None:
        """Let the font go."""
        self._holder.delete()

    def _process(self, midi: bytes, found: dict[int, NDArray[np.float32]], frames: int) -> None:
        with self._playing(midi, **_DRY) as synth:
            self._fill(synth, found, frames)

    def _fill(self, synth: Any, found: dict[int, NDArray[np.float32]], frames: int) -> None:
        """Add the next frames of each channel to what stands in `found`."""
        unused = np.zeros(_BLOCK_FRAMES, np.float32)  # held: an address alone keeps no array alive
        spare = unused.ctypes.data
        starts = {
            (channel % _GROUPS, side): samples[side].ctypes.data
            for channel, samples in found.items()
            for side in range(2)
        }
        rows = [starts.get((group, side)) for group in range(_GROUPS) for side in range(2)]
        pointers = ctypes.c_void_p * (2 * _GROUPS)
        for first in range(0, frames, _BLOCK_FRAMES):
            count = min(_BLOCK_FRAMES, frames - first)
            at = pointers(*(spare if start is None else start + first * _FRAME_BYTES for start in rows))
            self._fluid.fluid_synth_process(synth, count, 0, None, 2 * _GROUPS, at)

    @contextlib.contextmanager
    def _playing(self, midi: bytes, **settings: int) -> Iterator[Any]:
        """Give a new synthesiser that plays a MIDI file, and the font with it.

        Raises:
            SoundError: if the synthesiser cannot read the file.
        """
        fluid, synth = self._fluid, self._empty(**settings)
        font = fluid.fluid_synth_get_sfont(self._holder.synth, 0)
        fluid.fluid_synth_add_sfont(synth.synth, font)
        player = fluid.new_fluid_player(synth.synth)
        try:
            if fluid.fluid_player_add_mem(player, midi, len(midi)) != 0:
                raise SoundError("The synthesiser cannot read the MIDI file that was made for it.")
            fluid.fluid_player_play(player)
            yield synth.synth
        finally:
            fluid.delete_fluid_player(player)
            fluid.fluid_synth_remove_sfont(synth.synth, font)
            synth.delete()

    def _empty(self, **more: int) -> Any:
        """Return a new synthesiser without a font."""
        settings = {
            "synth.chorus.active": 0,
            "synth.cpu-cores": 1,
            "synth.lock-memory": 0,
            "player.timing-source": "sample",
            **more,
        }
        return self._fluid.Synth(gain=_GAIN, samplerate=float(RATE_HZ), channels=_CHANNELS, **settings)

    def _new(self) -> Any:
        """Return a new synthesiser that holds the font."""
        synth = self._empty()
        if synth.sfload(str(self.font.path)) < 0:
            synth.delete()
            raise SoundError(
                f"FluidSynth cannot load the SoundFont {self.font.path}.",
                hint="Is the file whole? Name another one, or none.",
            )
        return synth


def fluid_name() -> str:
    """Return FluidSynth with its version.

    Raises:
        SoundError: if the system library is missing.
    """
    version = ctypes.cast(_library().fluid_version_str(), ctypes.c_char_p).value or b""
    return f"FluidSynth {version.decode()}".strip()


def _library() -> Any:
    """Load the binding, and bind what it leaves out: floating-point samples and MIDI from memory."""
    try:
        # The binding prints where it found the library when a CI runs it.
        with contextlib.redirect_stdout(io.StringIO()):
            import fluidsynth  # noqa: PLC0415 - without the system library this raises ImportError
    except (ImportError, OSError) as error:
        raise SoundError(
            "The system library of FluidSynth is not there.", hint="apt-get install libfluidsynth3"
        ) from error
    if not hasattr(fluidsynth, "fluid_player_add_mem"):
        _bind(fluidsynth)
    return fluidsynth


def _bind(fluid: Any) -> None:
    """Declare further functions of the library (FluidSynth 2's own header gives the types)."""
    pointer, number = ctypes.c_void_p, ctypes.c_int
    fluid.fluid_synth_write_float = fluid.cfunc(
        "fluid_synth_write_float", number,
        ("synth", pointer, 1), ("len", number, 1),
        ("lout", pointer, 1), ("loff", number, 1), ("lincr", number, 1),
        ("rout", pointer, 1), ("roff", number, 1), ("rincr", number, 1),
    )  # fmt: skip
    fluid.fluid_player_add_mem = fluid.cfunc(
        "fluid_player_add_mem", number,
        ("player", pointer, 1), ("buffer", ctypes.c_char_p, 1), ("len", ctypes.c_size_t, 1),
    )  # fmt: skip
    fluid.fluid_synth_process = fluid.cfunc(
        "fluid_synth_process", number,
        ("synth", pointer, 1), ("len", number, 1),
        ("nfx", number, 1), ("fx", pointer, 1), ("nout", number, 1), ("out", pointer, 1),
    )  # fmt: skip
    fluid.fluid_synth_get_sfont = fluid.cfunc(
        "fluid_synth_get_sfont", pointer, ("synth", pointer, 1), ("num", ctypes.c_uint, 1)
    )
    for name in ("fluid_synth_add_sfont", "fluid_synth_remove_sfont"):
        setattr(fluid, name, fluid.cfunc(name, number, ("synth", pointer, 1), ("sfont", pointer, 1)))
    fluid.fluid_version_str = fluid.cfunc("fluid_version_str", pointer)
    silence = fluid.cfunc(
        "fluid_set_log_function", pointer, ("level", number, 1), ("fun", pointer, 1), ("data", pointer, 1)
    )
    for level in range(_LOG_LEVELS):
        silence(level, None, None)
