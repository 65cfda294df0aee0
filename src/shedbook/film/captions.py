"""Captions and chapters: which sentence stands when, and both as WebVTT and as plain lists. Pure.

A caption begins with its bar and stays until it can be read; where bars pass quicker than that, the next one
waits for its bar in a later round. What finds no round any more is not shown: the author is told.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import NamedTuple

from shedbook.film.moments import ChapterAt, Moments

LETTERS_A_SECOND = 15.0
"""How quickly captions are read (common practice of subtitling: 12 to 17 letters a second)."""
SHORTEST_S, LONGEST_S = 1.5, 9.0
_AFTER_S = 1.0
"""How much longer than reading takes a caption stays where nothing follows it."""
_LATE_S = 0.1
_LINE = 42
"""How many letters a line of a caption in a player has at most (common practice)."""


class Point(NamedTuple):
    """A talking point: the number of its bar, and its sentence."""

    bar: int
    text: str


@dataclass(frozen=True, slots=True)
class Caption:
    """A sentence on the screen, from when to when."""

    start_s: float
    end_s: float
    text: str


def reading_seconds(text: str) -> float:
    """Return how long somebody reads a caption."""
    return min(LONGEST_S, max(SHORTEST_S, len(text) / LETTERS_A_SECOND))


def captions_of(points: Sequence[Point], moments: Moments) -> tuple[Caption, ...]:
    """Return the captions of a video in order; sentences keep their order, and each is shown once at most."""
    starts: list[tuple[float, float, str]] = []
    free = 0.0
    for point in points:
        length = reading_seconds(point.text)
        begins = next(
            (
                bar.start_s
                for bar in moments.bars
                if bar.number == point.bar and bar.start_s >= free - _LATE_S
            ),
            None,
        )
        if begins is None or begins + length > moments.seconds:
            continue
        begins = max(begins, free)
        starts.append((begins, length, point.text))
        free = begins + length
    found = []
    for place, (begins, length, text) in enumerate(starts):
        following = starts[place + 1][0] if place + 1 < len(starts) else moments.seconds
        found.append(Caption(begins, min(following, begins + length + _AFTER_S), text))
    return tuple(found)


def without_round(points: Sequence[Point], captions: Sequence[Caption]) -> tuple[Point, ...]:
    """Return the points that no caption shows, because no round was left for them."""
    shown = iter(captions)
    text = next(shown, None)
    found = []
    for point in points:
        if text is not None and text.text == point.text:
            text = next(shown, None)
        else:
            found.append(point)
    return tuple(found)


def vtt_captions(captions: Sequence[Caption]) -> str:
    """Return captions as a WebVTT file (W3C)."""
    cues = [
        f"{place}\n{_time(one.start_s)} --> {_time(one.end_s)}\n{_lines(_escaped(one.text))}"
        for place, one in enumerate(captions, 1)
    ]
    return "\n\n".join(["WEBVTT", *cues]) + "\n"


def vtt_chapters(chapters: Sequence[ChapterAt], seconds: float) -> str:
    """Return chapters as a WebVTT file (W3C)."""
    ends = [*(one.start_s for one in chapters[1:]), seconds]
    cues = [
        f"{place}\n{_time(one.start_s)} --> {_time(end)}\n{_escaped(one.title)}"
        for place, (one, end) in enumerate(zip(chapters, ends, strict=True), 1)
    ]
    return "\n\n".join(["WEBVTT", *cues]) + "\n"


def chapter_list(chapters: Sequence[ChapterAt]) -> str:
    """Return chapters as lines with minutes and seconds, the first at nought, to be copied under a video."""
    lines = []
    for place, one in enumerate(chapters):
        whole = 0 if not place else int(one.start_s)
        hours, rest = divmod(whole, 3600)
        clock = f"{hours}:{rest // 60:02}:{rest % 60:02}" if hours else f"{rest // 60}:{rest % 60:02}"
        lines.append(f"{clock} {one.title}")
    return "\n".join(lines) + "\n"


def _time(seconds: float) -> str:
    thousandths = round(seconds * 1000)
    minutes, rest = divmod(thousandths, 60_000)
    hours, minutes = divmod(minutes, 60)
    return f"{hours:02}:{minutes:02}:{rest // 1000:02}.{rest % 1000:03}"


def _escaped(text: str) -> str:
    return text.replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;")


def _lines(text: str) -> str:
    """Return a text on lines as short as a player shows them well."""
    lines = [""]
    for word in text.split(" "):
        if lines[-1] and len(lines[-1]) + 1 + len(word) > _LINE:
            lines.append(word)
        else:
            lines[-1] = f"{lines[-1]} {word}".strip()
    return "\n".join(lines)
