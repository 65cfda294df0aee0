"""A score video of 30 seconds at 1920 by 1080 and 30 pictures a second against the bare encoder.

    python benchmarks/film_speed.py

The same pictures and the same sound are encoded twice in turn, three times: by our own modules, from the
phrase on (engraved, drawn, painted, encoded), and by PyAV alone, which is given finished frames out of
memory. Printed are wall and processor seconds of both and their ratios, for each encoder.
"""

from __future__ import annotations

import statistics
import tempfile
import time
from collections.abc import Callable, Iterator
from dataclasses import replace
from fractions import Fraction
from pathlib import Path
from typing import Any, NamedTuple

import numpy as np
from numpy.typing import NDArray

from shedbook.book.lessons.film_pages import film_pages, shown_on
from shedbook.book.lessons.film_talk import points_of
from shedbook.book.lessons.reader_scores import LINKS, ReaderScore, reader_score
from shedbook.book.lessons.track_moments import track_moments
from shedbook.book.manuscript.opening import open_manuscript
from shedbook.book.verbs.cards import pictures_of
from shedbook.film.captions import captions_of
from shedbook.film.card import screen_named
from shedbook.film.encoder_door import FilmTags, library, usual_turns, write_film
from shedbook.film.frames import Scene, scenes
from shedbook.film.moments import Moments
from shedbook.film.tables.encoders import ENCODERS, KEY_FRAME_S, EncoderRow
from shedbook.sound.arranging.order import Order
from shedbook.sound.track import performance_of

SECONDS, FPS, RATE, TIMES = 30, 30, 48_000, 3
PHRASE = 39
DEMO = Path(__file__).parents[1] / "examples/tidewater"


class Took(NamedTuple):
    """How long something took: on the clock, and of the processors."""

    wall: float
    cpu: float


def measured(work: Callable[[], object]) -> Took:
    wall, cpu = time.perf_counter(), time.process_time()
    work()
    return Took(time.perf_counter() - wall, time.process_time() - cpu)


def moments_of(score: ReaderScore) -> Moments:
    """Return the times of a track that is cut at 30 seconds."""
    found = track_moments(score.sounding, performance_of(score.sounding, Order(rounds=6)))
    return replace(
        found,
        notes=tuple(note for note in found.notes if note.end_s < SECONDS),
        bars=tuple(bar for bar in found.bars if bar.start_s < SECONDS),
        chapters=tuple(one for one in found.chapters if one.start_s < SECONDS),
        seconds=float(SECONDS),
    )


def pictures(score: ReaderScore, moments: Moments) -> Iterator[Scene]:
    """Return the scenes of the video, everything made anew."""
    row = screen_named("wide")
    captions = captions_of(points_of(score.account, score.words), moments)
    bars = [(bar.number, f"Bar {bar.number}") for bar in score.written.bars]
    drawn = pictures_of(score, row, LINKS, captions=True)
    pages = film_pages(
        row, drawn, ("A title", score.facts, "An author"), [one.text for one in captions], bars, "en"
    )
    return scenes(pages.easel(), shown_on(moments, captions, pages, FPS, SECONDS * FPS))


def bare(
    path: Path, frames: list[tuple[NDArray[np.uint8], int]], sound: NDArray[np.float32], row: EncoderRow
) -> None:
    """Encode finished frames with PyAV and nothing of ours."""
    av: Any = library()
    with av.open(str(path), "w", format="mp4") as file:
        video = file.add_stream(row.picture, rate=FPS, options=dict(row.picture_options))
        video.width, video.height, video.pix_fmt = 1920, 1080, "yuv420p"
        video.codec_context.gop_size = KEY_FRAME_S * FPS
        with usual_turns():
            video.codec_context.open()
        audio = file.add_stream(row.sound, rate=RATE, layout="stereo")
        audio.bit_rate = row.sound_rate
        audio.codec_context.open()
        count = 0
        for planes, times in frames:
            frame = av.VideoFrame.from_ndarray(planes, format="yuv420p")
            for _ in range(times):
                frame.pts, frame.time_base = count, Fraction(1, FPS)
                file.mux(video.encode(frame))
                count += 1
        file.mux(video.encode(None))
        size, form = audio.codec_context.frame_size or 1024, audio.codec_context.format.name
        for first in range(0, len(sound), size):
            piece = sound[first : first + size]
            if form.startswith("s16"):
                piece = np.rint(piece * 32767).astype(np.int16)
            data = np.ascontiguousarray(piece.T if form.endswith("p") else piece.reshape(1, -1))
            samples = av.AudioFrame.from_ndarray(data, format=form, layout="stereo")
            samples.sample_rate, samples.pts, samples.time_base = RATE, first, Fraction(1, RATE)
            file.mux(audio.encode(samples))
        file.mux(audio.encode(None))


def main() -> None:
    manuscript = open_manuscript(DEMO)
    score = reader_score(manuscript.phrases[PHRASE - 1], manuscript)
    moments = moments_of(score)
    time_s = np.arange(SECONDS * RATE) / RATE
    tone = (0.2 * np.sin(2 * np.pi * 440 * time_s)).astype(np.float32)
    sound = np.stack([tone, tone], axis=1)
    before = measured(lambda: list(pictures(score, moments)))
    frames = [(np.array(scene.planes), scene.frames) for scene in pictures(score, moments)]
    print(f"{len(frames)} scenes, {sum(times for _, times in frames)} frames; to engrave, draw and paint "
          f"them alone: {before.wall:.2f} s wall, {before.cpu:.2f} s of processors")  # fmt: skip
    tags = FilmTags("A title", "An author", "A book")
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "a.mp4"
        for row in ENCODERS:
            ours, theirs = [], []
            for _ in range(TIMES):
                ours.append(measured(lambda: write_film(
                    path, pictures(score, moments), sound, (1920, 1080), FPS, row, tags, moments.chapters  # noqa: B023
                )))  # fmt: skip
                size = path.stat().st_size
                theirs.append(measured(lambda: bare(path, frames, sound, row)))  # noqa: B023
            ratios = [one.wall / other.wall for one, other in zip(ours, theirs, strict=True)]
            busy = [one.cpu / other.cpu for one, other in zip(ours, theirs, strict=True)]
            print(
                f"{row.name:5} ours {statistics.median(one.wall for one in ours):5.1f} s wall "
                f"{statistics.median(one.cpu for one in ours):5.1f} s cpu, bare "
                f"{statistics.median(one.wall for one in theirs):5.1f} s wall "
                f"{statistics.median(one.cpu for one in theirs):5.1f} s cpu; ratio "
                f"{statistics.median(ratios):.2f} wall, {statistics.median(busy):.2f} cpu; "
                f"{size / 1e6:.1f} MB"
            )


if __name__ == "__main__":
    main()
