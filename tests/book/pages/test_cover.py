"""The cover in one piece, its barcode as a scanner reads it, and the pictures that the author gives."""

from __future__ import annotations

import io
from pathlib import Path

import pikepdf
import pypdfium2
import pytest
import zxingcpp
from PIL import Image

from book.builds import write_manuscript
from shedbook.book.ground.tables.paper_stocks import COVER_MM
from shedbook.book.manuscript.request import Request
from shedbook.book.pages.cover import bars_of
from shedbook.book.pages.shop_pictures import ShopPicture, check_sharp, shop_picture
from shedbook.book.verbs.build import build
from shedbook.book.workshop.store import Store
from shedbook.errors import ManuscriptError

MM = 72 / 25.4
SETTINGS = """
print = true
print_ink = "cmyk"
crop_marks = true
paper_stock = 0.5
isbn = { concert = "978-3-16-148410-0" }
publisher = "Quay Press"
back_cover_text = "What the *tide* brings."
"""


@pytest.fixture(scope="module")
def books(tmp_path_factory: pytest.TempPathFactory) -> dict[str, Path]:
    folder = tmp_path_factory.mktemp("press")
    root = write_manuscript(folder / "tides", phrases=1, settings=SETTINGS)
    return {path.stem: path for path in build(Request(root, folder / "out")).pdfs}


def test_a_screen_book_a_press_book_and_a_cover(books: dict[str, Path]) -> None:
    assert list(books) == ["tides-concert", "tides-concert-print", "tides-concert-cover"]


def test_a_scanner_reads_the_number(books: dict[str, Path]) -> None:
    """By zxing-cpp's reader, from the page as it is rendered at 200 dots an inch."""
    document = pypdfium2.PdfDocument(books["tides-concert-cover"])
    try:
        (page,) = document
        picture = page.render(scale=200 / 72).to_pil()
        words = page.get_textpage().get_text_range()
    finally:
        document.close()
    assert [(code.text, code.format.name) for code in zxingcpp.read_barcodes(picture)] == [
        ("9783161484100", "EAN13")
    ]
    assert "ISBN 978-3-16-148410-0" in words
    assert "What the tide brings." in words.replace("\r\n", " ")


def test_the_cover_is_two_pages_and_a_spine_with_bleed(books: dict[str, Path]) -> None:
    with pikepdf.open(books["tides-concert-print"]) as pdf:
        pages = len(pdf.pages)
    spine = (pages + pages % 2) / 2 * 0.5 + 2 * COVER_MM
    with pikepdf.open(books["tides-concert-cover"]) as pdf:
        (page,) = pdf.pages
        trim, bleed = ([float(edge) for edge in page[box]] for box in ("/TrimBox", "/BleedBox"))
    assert (trim[2] - trim[0]) / MM == pytest.approx(2 * 210 + spine, abs=0.2)
    assert (trim[3] - trim[1]) / MM == pytest.approx(297, abs=0.2)
    assert (bleed[2] - bleed[0]) / MM == pytest.approx(2 * 210 + spine + 6, abs=0.2)


def test_the_press_has_its_inks_and_the_screen_its_own(books: dict[str, Path]) -> None:
    def colours(path: Path) -> set[str]:
        with pikepdf.open(path) as pdf:
            found = set()
            for page in pdf.pages:
                for one in page.Resources.get("/ColorSpace", {}).values():
                    found.add("ICC" if isinstance(one, pikepdf.Array) else str(one))
                content = page.Contents.read_bytes()
                found |= {"cmyk"} if b" k\n" in content or b" k/" in content or b" k " in content else set()
            return found

    assert "/DeviceCMYK" in colours(books["tides-concert-print"]) | colours(books["tides-concert-cover"]) or (
        "cmyk" in colours(books["tides-concert-print"])
    )
    assert "/DeviceCMYK" not in colours(books["tides-concert"])


def test_the_bars_are_those_of_the_standard() -> None:
    """An EAN-13 is 95 modules wide: guards of 3, 5 and 3, and twelve digits of 7 (ISO/IEC 15420)."""
    found = bars_of("978-3-16-148410-0")
    assert found is not None
    first, last = found.bars[0], found.bars[-1]
    assert last[0] + last[1] - first[0] == 95
    assert len(found.bars) == 30
    assert sum(1 for _, _, high in found.bars if high == first[2]) == 6  # the guards are longer
    assert bars_of("") is None


def picture(size: tuple[int, int], kind: str = "PNG") -> bytes:
    found = io.BytesIO()
    Image.new("L", size).save(found, kind)
    return found.getvalue()


def test_a_picture_is_looked_at(tmp_path: Path) -> None:
    store = Store(tmp_path / "out/.store")
    with store.held():
        pass
    (tmp_path / "a.png").write_bytes(picture((40, 30)))
    (tmp_path / "b.jpg").write_bytes(picture((50, 20), "JPEG"))
    one, other = (shop_picture(tmp_path, name, store) for name in ("a.png", "b.jpg"))
    assert (one.wide, one.high, other.wide, other.high) == (40, 30, 50, 20)
    assert (store.folder / one.path).read_bytes() == (tmp_path / "a.png").read_bytes()
    assert one == shop_picture(tmp_path, "a.png", store)


@pytest.mark.parametrize(("name", "content"), [("none.png", None), ("text.png", b"no picture")])
def test_what_is_no_picture_is_said(tmp_path: Path, name: str, content: bytes | None) -> None:
    if content is not None:
        (tmp_path / name).write_bytes(content)
    with pytest.raises(ManuscriptError, match="cannot be read"):
        shop_picture(tmp_path, name, Store(tmp_path / ".store"))
    with pytest.raises(ManuscriptError, match="leads out"):
        shop_picture(tmp_path, "../secret.png", Store(tmp_path / ".store"))


@pytest.mark.parametrize(
    ("pixels", "told"),
    [
        ((2516, 3579), ""),  # 300 dots an inch on 213 by 303 mm (common practice)
        ((1700, 2420), "dots an inch"),
        ((2516, 1000), None),
    ],
)
def test_resolution(pixels: tuple[int, int], told: str | None) -> None:
    one = ShopPicture("x", *pixels)
    if told is None:
        with pytest.raises(ManuscriptError, match="only 84 dots an inch"):
            check_sharp(one, "cover.png", 213, 303)
    else:
        says = check_sharp(one, "cover.png", 213, 303)
        assert told in says
        assert bool(says) is bool(told)
