"""The one module that imports PyAV: scenes and sound become a video file, and a file is read back.

Traps: WebVTT cannot go into MP4. Encoders keep no frame that they were given, so one frame is sent as often
as it is seen, each time with its own time. The colours of a frame must be said (BT.709, limited range), or
players guess.
"""

from __future__ import annotations

import contextlib
import os
import sys
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from importlib import import_module
from pathlib import Path
from typing import Any

import numpy as np
from numpy.typing import NDArray

from shedbook.errors import RenderError, UnknownNameError, nearest
from shedbook.film.frames import Scene
from shedbook.film.moments import ChapterAt
from shedbook.film.tables.encoders import ENCODERS, KEY_FRAME_S, EncoderRow

_BT709, _LIMITED = 1, 1
_RATE_HZ = 48_000
ENCODER_NAMES = tuple(row.name for row in ENCODERS)


@dataclass(frozen=True, slots=True)
class FilmTags:
    """What a video says of itself."""

    title: str
    artist: str
    album: str


@dataclass(frozen=True, slots=True)
class FilmFacts:
    """What a file holds, read back: size, frames, length of picture and sound in seconds, chapters."""

    width: int
    height: int
    fps: Fraction
    frames: int
    seconds: float
    sound_seconds: float
    chapters: tuple[ChapterAt, ...]
    picture: str
    sound: str


def encoder_named(name: str) -> EncoderRow:
    """Return the row of an encoder.

    Raises:
        UnknownNameError: if there is none of that name.
    """
    for row in ENCODERS:
        if row.name == name:
            return row
    raise UnknownNameError(
        f'"{name}" is not an encoder of videos.',
        hint=nearest(name, ENCODER_NAMES) or f"There are {', '.join(ENCODER_NAMES)}.",
    )


def library() -> Any:
    """Return PyAV.

    Raises:
        RenderError: if it is not installed; the hint says how to install it.
    """
    os.environ.setdefault("SVT_LOG", "1")  # or it tells its settings on standard error; errors are told still
    try:
        return import_module("av")  # loaded only where there is a video to make or to read
    except ImportError:
        raise RenderError(
            "Videos need the Python package av, which is not installed.",
            hint='Install it with: pip install "shedbook[film]". It brings about 100 MB, among them encoders '
            "under the GPL (docs/lesson.md).",
        ) from None


def write_film(
    path: Path,
    pictures: Iterable[Scene],
    sound: NDArray[np.float32],
    size: tuple[int, int],
    fps: int,
    row: EncoderRow,
    tags: FilmTags,
    chapters: Sequence[ChapterAt] = (),
) -> None:
    """Write a video as MP4.

    Args:
        path: the file, which is written over.
        pictures: its scenes in order.
        sound: frames by two channels at 48 kHz, full scale being 1.
        size: width and height.
        fps: frames a second.
        row: the encoder.
        tags: what it says of itself.
        chapters: where its chapters begin.

    Raises:
        RenderError: if PyAV is missing, or cannot write it.
    """
    av = library()
    try:
        with av.open(str(path), "w", format="mp4", options={"movflags": "+faststart"}) as file:
            file.metadata.update(title=tags.title, artist=tags.artist, album=tags.album)
            _set_chapters(file, chapters, len(sound) / _RATE_HZ)
            video = _video_stream(file, size, fps, row)
            audio = file.add_stream(row.sound, rate=_RATE_HZ, layout="stereo")
            audio.bit_rate = row.sound_rate
            with usual_turns():
                video.codec_context.open()
            voice = _Voice(av, file, audio, sound)
            count = 0
            for scene in pictures:
                frame = _frame(av, scene)
                for _ in range(scene.frames):
                    frame.pts = count
                    frame.time_base = Fraction(1, fps)
                    file.mux(video.encode(frame))
                    count += 1
                voice.up_to(count / fps)
            file.mux(video.encode(None))
            voice.finish()
    except (av.FFmpegError, OSError, ValueError) as error:
        raise RenderError(f"The video {path.name} could not be written: {error}") from error


@contextlib.contextmanager
def usual_turns() -> Iterator[None]:
    """Give this process, and the threads that are begun meanwhile, the turns at the processor that it had.

    SVT-AV1, opened by root on Linux, puts the whole process before all others (SCHED_FIFO, priority 99), and
    leaves it there: whatever the process starts afterwards inherits that, and two that are busy stop a
    machine of two cores.
    """
    if sys.platform != "linux":
        yield
        return
    policy, turns = os.sched_getscheduler(0), os.sched_getparam(0)
    try:
        yield
    finally:
        for thread in Path("/proc/self/task").iterdir():
            with contextlib.suppress(OSError):  # it has ended
                if os.sched_getscheduler(int(thread.name)) != policy:
                    os.sched_setscheduler(int(thread.name), policy, turns)


def _video_stream(file: Any, size: tuple[int, int], fps: int, row: EncoderRow) -> Any:
    video = file.add_stream(row.picture, rate=fps, options=dict(row.picture_options))
    video.width, video.height = size
    video.pix_fmt = "yuv420p"
    context = video.codec_context
    context.gop_size = KEY_FRAME_S * fps
    context.time_base = Fraction(1, fps)
    context.color_range = _LIMITED
    context.colorspace = context.color_primaries = context.color_trc = _BT709
    return video


def _frame(av: Any, scene: Scene) -> Any:
    frame = av.VideoFrame.from_ndarray(np.ascontiguousarray(scene.planes), format="yuv420p")
    frame.colorspace, frame.color_range = _BT709, _LIMITED
    return frame


def _set_chapters(file: Any, chapters: Sequence[ChapterAt], seconds: float) -> None:
    if not chapters:
        return
    ends = [*(one.start_s for one in chapters[1:]), seconds]
    rows = [
        {
            "id": place, "start": round(1000 * one.start_s), "end": round(1000 * end),
            "time_base": Fraction(1, 1000), "metadata": {"title": one.title},
        }
        for place, (one, end) in enumerate(zip(chapters, ends, strict=True), 1)
    ]  # fmt: skip
    file.set_chapters(rows)


class _Voice:
    """Sends the sound in pieces of the size that its encoder wants, beside the pictures."""

    def __init__(self, av: Any, file: Any, stream: Any, sound: NDArray[np.float32]) -> None:
        self._av, self._file, self._stream = av, file, stream
        context = stream.codec_context
        context.open()
        self._format, self._piece = context.format.name, context.frame_size or 1024
        self._sound, self._at = sound, 0

    def up_to(self, seconds: float) -> None:
        """Send what sounds before a time."""
        while self._at + self._piece <= min(len(self._sound), round(seconds * _RATE_HZ)):
            self._send(self._piece)

    def finish(self) -> None:
        """Send the rest."""
        while self._at < len(self._sound):
            self._send(min(self._piece, len(self._sound) - self._at))
        self._file.mux(self._stream.encode(None))

    def _send(self, frames: int) -> None:
        samples = self._sound[self._at : self._at + frames]
        planar = self._format.endswith("p")
        whole = self._format.startswith("s16")
        if whole:
            samples = np.clip(np.rint(samples * 32767), -32768, 32767).astype(np.int16)
        data = samples.T if planar else samples.reshape(1, -1)
        frame = self._av.AudioFrame.from_ndarray(
            np.ascontiguousarray(data), format=self._format, layout="stereo"
        )
        frame.sample_rate, frame.pts, frame.time_base = _RATE_HZ, self._at, Fraction(1, _RATE_HZ)
        self._file.mux(self._stream.encode(frame))
        self._at += frames


# Reading back.


def film_facts(path: Path) -> FilmFacts:
    """Return what a video holds; every frame is decoded.

    Raises:
        RenderError: if it cannot be read.
    """
    av = library()
    try:
        with av.open(str(path)) as file:
            video, audio = file.streams.video[0], file.streams.audio[0]
            found = tuple(
                ChapterAt(
                    float(one["start"] * Fraction(one["time_base"])), str(_titles(one).get("title", ""))
                )
                for one in file.chapters()
            )
            pictures = samples = 0
            last = 0.0
            for packet in file.demux(video, audio):
                for frame in packet.decode():
                    if packet.stream.type == "video":
                        pictures, last = pictures + 1, max(last, float(frame.time))
                    else:
                        samples += frame.samples
            fps = Fraction(video.average_rate)
            return FilmFacts(
                video.width, video.height, fps, pictures, last + float(1 / fps),
                samples / audio.rate, found, video.codec_context.name, audio.codec_context.name,
            )  # fmt: skip
    except (av.FFmpegError, OSError, IndexError) as error:
        raise RenderError(f"The video {path.name} cannot be read: {error}") from error


def _titles(chapter: Mapping[str, Any]) -> Mapping[str, Any]:
    found = chapter.get("metadata", {})
    return found if isinstance(found, Mapping) else {}


def pictures_in(path: Path) -> Iterator[tuple[float, NDArray[np.uint8]]]:
    """Yield the frames of a video: the time of each in seconds, and its colours, height by width by 3.

    Raises:
        RenderError: if it cannot be read.
    """
    av = library()
    try:
        with av.open(str(path)) as file:
            for frame in file.decode(video=0):
                yield float(frame.time), frame.to_ndarray(format="rgb24")
    except (av.FFmpegError, OSError, IndexError) as error:
        raise RenderError(f"The video {path.name} cannot be read: {error}") from error


def sound_in(path: Path) -> NDArray[np.float32]:
    """Return the sound of a video at 48 kHz as frames by two channels.

    Raises:
        RenderError: if it cannot be read.
    """
    av = library()
    try:
        with av.open(str(path)) as file:
            resampler = av.AudioResampler(format="fltp", layout="stereo", rate=_RATE_HZ)
            pieces = [
                one.to_ndarray()
                for frame in (*file.decode(audio=0), None)
                for one in resampler.resample(frame)
            ]
    except (av.FFmpegError, OSError, IndexError) as error:
        raise RenderError(f"The video {path.name} cannot be read: {error}") from error
    return np.ascontiguousarray(np.concatenate(pieces, axis=1).T)
