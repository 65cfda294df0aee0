"""The one module that imports libsndfile's binding: samples to files in memory, and files to samples.

Traps: a minute written in one call ends the process (Vorbis and Opus), so blocks are written; Opus files get
a serial number by chance, which `tags` makes the same each time.
"""

from __future__ import annotations

import contextlib
import io
from collections.abc import Iterator
from math import gcd
from pathlib import Path
from typing import BinaryIO, NamedTuple

import numpy as np
import soundfile
from numpy.typing import NDArray

from shedbook.errors import SoundError
from shedbook.sound.audio.tables.formats import RATE_HZ, FormatRow

_BLOCK_FRAMES = RATE_HZ
_BLOCKS_AT_ONCE = 8
_FULL_SCALE = 32768


def encode(samples: NDArray[np.floating], row: FormatRow, gain: float = 1.0) -> bytes:
    """Return samples as the bytes of a file.

    Args:
        samples: frames by channels at `RATE_HZ`, full scale being 1.
        row: the format; one that keeps the very samples is written in 16 bits.
        gain: what every sample is multiplied by.
    """
    out = io.BytesIO()
    with soundfile.SoundFile(
        out, "w", RATE_HZ, samples.shape[1], row.coding, format=row.container,
        compression_level=row.level, bitrate_mode=row.mode or None,
    ) as file:  # fmt: skip
        for first in range(0, len(samples), _BLOCK_FRAMES):
            block = samples[first : first + _BLOCK_FRAMES] * np.float32(gain)
            file.write(_rounded(block) if row.lossless else block)
    return out.getvalue()


def _rounded(samples: NDArray[np.floating]) -> NDArray[np.int16]:
    """Return samples as 16 bit.

    libsndfile would cut off what 16 bits cannot hold; rounded, the noise is half as loud and has no offset.
    """
    whole = np.rint(samples * np.float32(_FULL_SCALE))
    np.clip(whole, -_FULL_SCALE, _FULL_SCALE - 1, out=whole)
    return np.asarray(whole, np.int16)


def decode(content: bytes) -> NDArray[np.float32]:
    """Return the samples of a file that `encode` made, as frames by channels, full scale being 1."""
    samples, _ = soundfile.read(io.BytesIO(content), dtype="float32", always_2d=True)
    return np.asarray(samples, np.float32)


def decoded(content: bytes, frames: int) -> Iterator[NDArray[np.float32]]:
    """Yield the samples of a file that `encode` made, piece by piece.

    Args:
        content: the bytes of the file.
        frames: how many frames a piece has; the last may have fewer.
    """
    with soundfile.SoundFile(io.BytesIO(content)) as file:
        if file.subtype != "PCM_16":
            yield from file.blocks(frames, dtype="float32", always_2d=True)
            return
        for block in file.blocks(frames, dtype="int16", always_2d=True):
            yield np.multiply(block, np.float32(1 / _FULL_SCALE), dtype=np.float32)


def read_recording(path: Path | BinaryIO) -> NDArray[np.float32]:
    """Return a recording of the author's as stereo at `RATE_HZ`.

    Raises:
        SoundError: if it cannot be read, or holds nothing.
    """
    try:
        samples, rate = soundfile.read(path, dtype="float32", always_2d=True)
    except (soundfile.LibsndfileError, OSError) as error:
        raise SoundError(
            f"The recording {path} cannot be read: {error}",
            hint="Save it as WAV, FLAC, MP3, Ogg or Opus.",
        ) from None
    if not len(samples):
        raise SoundError(f"The recording {path} is empty.", hint="Record it again, or take its line away.")
    stereo = samples[:, :2] if samples.shape[1] > 1 else np.repeat(samples, 2, axis=1)
    return _at_our_rate(stereo, int(rate))


class RecordingBlocks(NamedTuple):
    """A recording, read block by block: samples a second, channels, length, blocks of frames by channels."""

    rate: int
    channels: int
    seconds: float
    blocks: Iterator[NDArray[np.float32]]


@contextlib.contextmanager
def recording_blocks(path: Path) -> Iterator[RecordingBlocks]:
    """Give a recording of the author's block by block: an hour of it needs no more room than a minute.

    Raises:
        SoundError: if it is not there, or is no sound file that can be read.
    """
    try:
        with soundfile.SoundFile(path) as file:
            blocks = file.blocks(_BLOCK_FRAMES * _BLOCKS_AT_ONCE, dtype="float32", always_2d=True)
            rate = int(file.samplerate)
            yield RecordingBlocks(rate, int(file.channels), file.frames / rate, blocks)
    except (soundfile.LibsndfileError, OSError) as error:
        raise _unread(path) from error


def _unread(path: Path) -> SoundError:
    """Return why a file cannot be listened to, and what to do."""
    if not path.is_file():
        return SoundError(f"There is no file {path}.", hint="Check the name and the folder.")
    if not path.stat().st_size:
        return SoundError(
            f"{path.name} is an empty file: nothing was recorded, or it was not copied to its end.",
            hint="Copy it again from the recorder, or record it again.",
        )
    return SoundError(
        f"{path.name} is no recording that can be read, whatever its name says.",
        hint="Save it from the recorder's program as WAV, FLAC, MP3, Ogg or Opus.",
    )


def recording_part(path: Path, start_s: float, end_s: float) -> NDArray[np.float32]:
    """Return a part of a recording as stereo at `RATE_HZ`.

    Raises:
        SoundError: if it cannot be read.
    """
    try:
        with soundfile.SoundFile(path) as file:
            rate = int(file.samplerate)
            file.seek(min(file.frames, round(start_s * rate)))
            samples = file.read(round((end_s - start_s) * rate), dtype="float32", always_2d=True)
    except (soundfile.LibsndfileError, OSError) as error:
        raise SoundError(f"{path.name} cannot be read: {error}", hint="Is it still there?") from error
    stereo = samples[:, :2] if samples.shape[1] > 1 else np.repeat(samples, 2, axis=1)
    return _at_our_rate(np.asarray(stereo, np.float32), rate)


def _at_our_rate(samples: NDArray[np.float32], rate: int) -> NDArray[np.float32]:
    if rate == RATE_HZ:
        return samples
    from scipy.signal import resample_poly  # noqa: PLC0415 - hardly ever needed

    shared = gcd(rate, RATE_HZ)
    return np.asarray(resample_poly(samples, RATE_HZ // shared, rate // shared, axis=0), np.float32)
