"""Videos read back: length, rate, chapters, pictures and sound in step, for every encoder."""

from __future__ import annotations

import os
import sys
from collections.abc import Iterator
from pathlib import Path

import numpy as np
import pytest

from shedbook.errors import RenderError, UnknownNameError
from shedbook.film.encoder_door import (
    ENCODER_NAMES,
    FilmTags,
    encoder_named,
    film_facts,
    pictures_in,
    sound_in,
    write_film,
)
from shedbook.film.frames import Scene, planes_of
from shedbook.film.moments import ChapterAt
from shedbook.film.tables.encoders import ENCODERS

av = pytest.importorskip("av")

RATE, FPS = 48_000, 30
FLASHES = (0.5, 1.1, 1.7, 2.6)
"""When a square is white, for a tenth of a second, and a click sounds."""
SECONDS = 3.5


def flashing() -> Iterator[Scene]:
    dark = np.full((128, 160, 3), 255, np.uint8)
    light = dark.copy()
    light[40:80, 60:100] = (255, 226, 140)
    at = 0
    for when in FLASHES:
        yield Scene(planes_of(dark), round(when * FPS) - at)
        yield Scene(planes_of(light), 3)
        at = round(when * FPS) + 3
    yield Scene(planes_of(dark), round(SECONDS * FPS) - at)


def clicks() -> np.ndarray:
    sound = np.zeros((round(SECONDS * RATE), 2), np.float32)
    for when in FLASHES:
        first = round(when * RATE)
        sound[first : first + 960] = 0.5 * np.sin(2 * np.pi * 1000 * np.arange(960) / RATE)[:, None]
    return sound


@pytest.fixture(scope="module", params=ENCODER_NAMES)
def film(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> Path:
    path = tmp_path_factory.mktemp("film") / f"{request.param}.mp4"
    chapters = [ChapterAt(0.0, "Count-in"), ChapterAt(1.1, "Round 1")]
    write_film(path, flashing(), clicks(), (160, 128), FPS, encoder_named(request.param),
               FilmTags("A title", "Somebody", "A book"), chapters)  # fmt: skip
    return path


def test_length_rate_and_chapters(film: Path) -> None:
    facts = film_facts(film)
    assert (facts.width, facts.height, int(facts.fps)) == (160, 128, 30)
    assert facts.frames == round(SECONDS * FPS)
    assert facts.seconds == pytest.approx(SECONDS, abs=1 / FPS)
    assert facts.sound_seconds == pytest.approx(SECONDS, abs=0.05)
    assert [(one.start_s, one.title) for one in facts.chapters] == [(0.0, "Count-in"), (1.1, "Round 1")]
    with av.open(str(film)) as file:
        assert file.metadata["title"] == "A title"
        assert file.metadata["artist"] == "Somebody"


def test_every_flash_comes_on_its_frame_and_with_its_click(film: Path) -> None:
    blue = [picture[50:70, 70:90, 2].mean() for _, picture in pictures_in(film)]
    bright = [place for place, (one, other) in enumerate(zip([255, *blue], blue, strict=False))
              if one > 200 >= other]  # fmt: skip
    assert bright == [round(when * FPS) for when in FLASHES]
    heard = np.abs(sound_in(film)[:, 0])
    for when in FLASHES:
        near = heard[round((when - 0.2) * RATE) : round((when + 0.2) * RATE)]
        begins = when - 0.2 + int(np.flatnonzero(near > 0.1)[0]) / RATE
        assert begins == pytest.approx(when, abs=1 / FPS / 2)


@pytest.mark.skipif(sys.platform != "linux", reason="only there an encoder changes how turns are given")
def test_an_encoder_takes_no_turns_from_other_programs(tmp_path: Path) -> None:
    """sched(7): what is SCHED_FIFO runs before all that is not, and so does what it starts."""
    kinds: set[int] = set()

    def watched() -> Iterator[Scene]:
        for scene in flashing():
            kinds.update(os.sched_getscheduler(int(one.name)) for one in Path("/proc/self/task").iterdir())
            yield scene

    before = os.sched_getscheduler(0)
    write_film(tmp_path / "a.mp4", watched(), clicks(), (160, 128), FPS, ENCODERS[0], FilmTags("", "", ""))
    assert kinds == {before}
    assert os.sched_getscheduler(0) == before


def test_the_default_encoder_is_free_to_use() -> None:
    """AV1 and Opus: the licences of the Alliance for Open Media and of RFC 6716 ask no fee (from memory)."""
    assert (ENCODERS[0].picture, ENCODERS[0].sound) == ("libsvtav1", "libopus")


def test_the_wheel_has_every_encoder_and_links_the_gpl_ones() -> None:
    """What docs and THIRD-PARTY.md say of it; a change of the wheel is seen here."""
    assert {row.picture for row in ENCODERS} | {row.sound for row in ENCODERS} <= av.codecs_available
    assert {"libx264", "libx265"} <= av.codecs_available
    assert not {"libaom-av1", "libopenh264"} & av.codecs_available


def test_without_the_package_the_way_to_it_is_said(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    monkeypatch.setitem(sys.modules, "av", None)
    with pytest.raises(RenderError) as caught:
        film_facts(tmp_path / "a.mp4")
    assert 'pip install "shedbook[film]"' in caught.value.hint


def test_what_is_no_video_is_refused(tmp_path: Path) -> None:
    (tmp_path / "a.mp4").write_text("no video")
    for read in (film_facts, sound_in, lambda path: list(pictures_in(path))):
        with pytest.raises(RenderError, match="cannot be read"):
            read(tmp_path / "a.mp4")


def test_an_unknown_encoder() -> None:
    with pytest.raises(UnknownNameError, match="not an encoder"):
        encoder_named("av2")
