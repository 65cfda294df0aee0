"""The colours of frames against FFmpeg's own conversion, and what is painted from scene to scene."""

from __future__ import annotations

import numpy as np
import pytest

from shedbook.film.frames import Easel, Page, Shown, patch_of, planes_of, scenes
from shedbook.film.marks import Mark

av = pytest.importorskip("av")


def picture(seed: int, height: int = 64, width: int = 96) -> np.ndarray:
    """Return a picture of squares, 8 by 8, so that how colours are halved makes no difference."""
    colours = np.random.default_rng(seed).integers(0, 256, (height // 8, width // 8, 3), dtype=np.uint8)
    return np.asarray(colours.repeat(8, axis=0).repeat(8, axis=1))


def test_colours_are_those_of_ffmpeg() -> None:
    """Source: libswscale, RGB to 4:2:0 in the limited range of ITU-R BT.709."""
    rgb = picture(1)
    frame = av.VideoFrame.from_ndarray(rgb, format="rgb24")
    theirs = frame.reformat(format="yuv420p", dst_colorspace="ITU709", dst_color_range="MPEG").to_ndarray()
    ours = planes_of(rgb)
    assert ours.shape == theirs.shape == (96, 96)
    assert np.abs(ours[:64].astype(int) - theirs[:64]).max() <= 2
    assert np.median(np.abs(ours[64:].astype(int) - theirs[64:])) <= 1


@pytest.mark.parametrize(("rgb", "luma"), [((255, 255, 255), 235), ((0, 0, 0), 16)])
def test_black_and_white(rgb: tuple[int, int, int], luma: int) -> None:
    """ITU-R BT.709: 16 to 235, colours about 128."""
    planes = planes_of(np.full((4, 4, 3), rgb, np.uint8))
    assert set(planes[:4].ravel().tolist()) == {luma}
    assert set(planes[4:].ravel().tolist()) == {128}


def test_a_mark_comes_and_goes_and_leaves_the_page_as_it_was() -> None:
    page = picture(2)
    mark = Mark(16, 8, picture(3, 16, 24))
    whole = page.copy()
    whole[8:24, 16:40] = mark.pixels
    other = picture(4)
    pages = [Page(planes_of(page), {0: (patch_of(mark),)}), Page(planes_of(other), {})]
    caption = Mark(0, 48, np.zeros((16, 96, 3), np.uint8))
    easel = Easel(pages, [patch_of(caption)])
    assert np.array_equal(easel.paint(Shown(0, (), ())), planes_of(page))
    assert np.array_equal(easel.paint(Shown(0, (0,), ())), planes_of(whole))
    told = whole.copy()
    told[48:] = 0
    assert np.array_equal(easel.paint(Shown(0, (0,), (0,))), planes_of(told))
    assert np.array_equal(easel.paint(Shown(1, (), ())), planes_of(other))
    assert np.array_equal(easel.paint(Shown(0, (), ())), planes_of(page))


def test_scenes_join_frames_that_are_alike() -> None:
    easel = Easel([Page(planes_of(picture(5)), {})], [])
    nothing, note = Shown(0, (), ()), Shown(0, (3,), ())
    shown = [nothing] * 4 + [note] * 2 + [nothing]
    assert [scene.frames for scene in scenes(easel, shown)] == [4, 2, 1]
