"""Captions and chapters: read by FFmpeg's reader of WebVTT, which shares no code with what wrote them."""

from __future__ import annotations

import itertools
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shedbook.film.captions import (
    LONGEST_S,
    SHORTEST_S,
    Caption,
    Point,
    captions_of,
    chapter_list,
    reading_seconds,
    vtt_captions,
    vtt_chapters,
    without_round,
)
from shedbook.film.moments import BarAt, ChapterAt, Moments

av = pytest.importorskip("av")


def rounds(count: int, bars: int = 4, bar_s: float = 2.0) -> Moments:
    found = [BarAt(1 + at % bars, at * bar_s) for at in range(count * bars)]
    return Moments((), tuple(found), count * bars * bar_s + 2.0)


def test_a_caption_begins_with_its_bar() -> None:
    points = [Point(1, "a" * 30), Point(3, "b" * 30)]
    assert [(one.start_s, one.text[0]) for one in captions_of(points, rounds(1))] == [(0.0, "a"), (4.0, "b")]


def test_what_cannot_be_read_in_time_waits_for_the_next_round() -> None:
    """60 letters take 4 s at 15 letters a second; bar 2 comes after 2 s and again after 10 s."""
    points = [Point(1, "a" * 60), Point(2, "b" * 60)]
    assert [one.start_s for one in captions_of(points, rounds(2))] == [0.0, 10.0]
    assert [one.text[0] for one in captions_of(points, rounds(1))] == ["a"]


@given(st.lists(st.tuples(st.integers(1, 4), st.text("abc ", min_size=1, max_size=200)), max_size=8),
       st.integers(1, 4))  # fmt: skip
def test_every_caption_can_be_read_and_none_lies_over_another(
    points: list[tuple[int, str]], count: int
) -> None:
    moments = rounds(count)
    found = captions_of([Point(bar, text) for bar, text in points], moments)
    for one in found:
        assert one.end_s - one.start_s >= reading_seconds(one.text) - 1e-6
        assert one.end_s <= moments.seconds
    assert all(one.end_s <= other.start_s + 1e-6 for one, other in itertools.pairwise(found))


def test_reading_takes_between_the_shortest_and_the_longest() -> None:
    assert reading_seconds("x") == SHORTEST_S
    assert reading_seconds("x" * 1000) == LONGEST_S


def cues(path: Path) -> list[tuple[float, float, str]]:
    """Return the cues of a file as FFmpeg reads them."""
    found = []
    with av.open(str(path)) as file:
        stream = file.streams.subtitles[0]
        for packet in file.demux(stream):
            if packet.size:
                start = float(packet.pts * packet.time_base)
                found.append(
                    (start, start + float(packet.duration * packet.time_base), bytes(packet).decode())
                )
    return found


def test_captions_are_read_as_they_were_meant(tmp_path: Path) -> None:
    told = [
        Caption(0.0, 2.5, "G♭ & B♭ close in on <A♭>, which is a long sentence for one line of a caption."),
        Caption(3661.25, 3663.0, "An hour later."),
    ]
    path = tmp_path / "a.vtt"
    path.write_text(vtt_captions(told), encoding="utf-8")
    found = cues(path)
    assert [(one[0], one[1]) for one in found] == [(0.0, 2.5), (3661.25, 3663.0)]
    first = found[0][2].replace("\n", " ").replace("&lt;", "<").replace("&gt;", ">").replace("&amp;", "&")
    assert first == told[0].text
    assert max(map(len, vtt_captions(told[1:]).splitlines())) < 50


def test_chapters_join(tmp_path: Path) -> None:
    path = tmp_path / "a.vtt"
    path.write_text(
        vtt_chapters([ChapterAt(0, "Count-in"), ChapterAt(3.81, "Round 1")], 12.5), encoding="utf-8"
    )
    assert cues(path) == [(0.0, 3.81, "Count-in"), (3.81, 12.5, "Round 1")]


def test_the_list_of_chapters_begins_at_nought() -> None:
    """What video sites ask for (common practice)."""
    chapters = [ChapterAt(0.4, "Count-in"), ChapterAt(63.9, "Round 1"), ChapterAt(3725, "Late")]
    assert chapter_list(chapters) == "0:00 Count-in\n1:03 Round 1\n1:02:05 Late\n"


@given(
    st.lists(st.builds(Point, st.integers(0, 5), st.sampled_from(["a" * 20, "b" * 60, "c" * 130]))),
    st.integers(1, 3),
)
def test_every_point_is_shown_or_said_to_have_no_round(points: list[Point], count: int) -> None:
    captions = captions_of(points, rounds(count))
    left = without_round(points, captions)
    assert len(left) + len(captions) == len(points)
    assert sorted([*(one.text for one in left), *(one.text for one in captions)]) == sorted(
        one.text for one in points
    )


def test_a_point_without_its_bar_finds_no_round() -> None:
    points = [Point(1, "a" * 30), Point(9, "b" * 30), Point(3, "c" * 30)]
    assert without_round(points, captions_of(points, rounds(1))) == (points[1],)
