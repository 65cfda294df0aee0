"""Cover pictures in the sizes of shops. Source: the table, common practice."""

from __future__ import annotations

import io
from pathlib import Path

import pytest
from PIL import Image, ImageStat

from shedbook.book.bundle.pictures import covers, page_previews
from shedbook.book.bundle.tables.cover_sizes import COVER_SIZES
from shedbook.book.pages.data import About

NOBODY: About = None  # type: ignore[assignment]  # an author's own picture needs no words


@pytest.fixture
def portrait(tmp_path: Path) -> Path:
    """A red picture of the portrait's ratio, with a blue middle."""
    picture = Image.new("RGB", (800, 1280), (200, 0, 0))
    picture.paste((0, 0, 200), (300, 540, 500, 740))
    picture.save(tmp_path / "cover.png")
    return tmp_path / "cover.png"


def test_a_cover_in_every_size(portrait: Path, tmp_path: Path) -> None:
    found = covers(portrait, NOBODY, tmp_path)
    assert len(found) == len(COVER_SIZES)
    for row, content in zip(COVER_SIZES, found.values(), strict=True):
        with Image.open(io.BytesIO(content)) as picture:
            assert picture.size == (row.wide, row.high)
            middle = picture.getpixel((row.wide // 2, row.high // 2))
            assert isinstance(middle, tuple)
            assert middle[2] > 150 > middle[0]


def test_the_sizes_are_those_that_shops_ask_for() -> None:
    """From memory: books 1 to 1.6, at best 2,560 high; thumbnails of videos 1,280 by 720; links 1.91 to 1."""
    sizes = {row.name: (row.wide, row.high) for row in COVER_SIZES}
    assert sizes == {
        "portrait": (1600, 2560), "square": (2000, 2000), "product": (1200, 1600),
        "wide": (1280, 720), "link": (1200, 630),
    }  # fmt: skip


def test_one_that_fits_fills_its_size_and_another_stands_whole_on_its_ground(
    portrait: Path, tmp_path: Path
) -> None:
    found = covers(portrait, NOBODY, tmp_path)
    with Image.open(io.BytesIO(found["cover-portrait-1600x2560.jpg"])) as picture:
        assert picture.getpixel((3, 3))[0] > 150  # type: ignore[index]
    with Image.open(io.BytesIO(found["cover-wide-1280x720.jpg"])) as picture:
        corner, left = picture.getpixel((3, 3)), picture.getpixel((640, 60))
        assert min(corner) > 200  # type: ignore[arg-type]
        assert left[0] > 150 > left[1]  # type: ignore[index]


@pytest.mark.parametrize("size", [(800, 1280), (1600, 500), (300, 300)])
def test_a_cover_of_another_shape_is_whole_and_in_the_middle(tmp_path: Path, size: tuple[int, int]) -> None:
    """Its edge is seen all round, at least a twentieth of the shorter side away."""
    Image.new("RGB", size, (200, 0, 0)).save(tmp_path / "cover.png")
    for row, content in zip(
        COVER_SIZES, covers(tmp_path / "cover.png", NOBODY, tmp_path).values(), strict=True
    ):
        with Image.open(io.BytesIO(content)) as picture:
            reds = picture.convert("RGB").split()[1].point(lambda green: 255 * (green < 100))
            box = reds.getbbox()
        assert box is not None
        left, top, right, low = box
        if abs(size[0] * row.high / size[1] / row.wide - 1) <= 0.12:
            assert box == (0, 0, row.wide, row.high)  # it nearly fits, and fills its size
            continue
        edge = 0.05 * min(row.wide, row.high)
        assert edge <= left
        assert edge <= top
        assert abs(left - (row.wide - right)) <= 2
        assert abs(top - (row.high - low)) <= 2
        assert min(left, top) <= 0.07 * min(row.wide, row.high)  # as large as it can be
        assert (right - left) / (low - top) == pytest.approx(size[0] / size[1], rel=0.01)


def test_the_same_bytes_again(portrait: Path, tmp_path: Path) -> None:
    assert covers(portrait, NOBODY, tmp_path) == covers(portrait, NOBODY, tmp_path)


def test_pages_of_a_pdf(tmp_path: Path) -> None:
    sheets = [Image.new("RGB", (600, 850), tint) for tint in ((255, 0, 0), (0, 0, 255))]
    sheets[0].save(tmp_path / "two.pdf", save_all=True, append_images=sheets[1:])
    found = page_previews(tmp_path / "two.pdf", (2,), "concert")
    ((name, content),) = found.items()
    assert name == "page-concert-002.png"
    with Image.open(io.BytesIO(content)) as picture:
        assert picture.height == 1400
        red, _, blue = ImageStat.Stat(picture).mean
        assert blue > 200 > red
