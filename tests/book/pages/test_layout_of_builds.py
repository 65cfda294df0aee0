"""The options of a build that change its pages: sample, licensee, proof sheet, paper, order, chapters."""

from collections.abc import Iterator
from itertools import pairwise
from pathlib import Path
from typing import Any

import pypdfium2
import pytest

from book.builds import TITLES, write_manuscript
from shedbook.book.building import make as making
from shedbook.book.building.page_orders import pages_orders
from shedbook.book.lessons.film_names import film_names
from shedbook.book.manuscript.opening import open_manuscript
from shedbook.book.manuscript.request import Request
from shedbook.book.pages.data import BookData
from shedbook.book.pages.layout import PagesOrder
from shedbook.book.verbs.build import build


def texts(path: Path) -> list[str]:
    document = pypdfium2.PdfDocument(path)
    try:
        return [page.get_textpage().get_text_range() for page in document]
    finally:
        document.close()


def size_mm(path: Path) -> tuple[int, int]:
    document = pypdfium2.PdfDocument(path)
    try:
        width, height = document[0].get_size()
    finally:
        document.close()
    return round(width / 72 * 25.4), round(height / 72 * 25.4)


def test_a_sample_has_the_first_phrases_and_says_so(tmp_path: Path) -> None:
    root = write_manuscript(tmp_path / "tides")
    (pdf,) = build(Request(root, tmp_path / "out", sample=1)).pdfs
    pages = texts(pdf)
    assert pdf.name == "tides-concert-sample.pdf"
    assert any("Free sample" in page for page in pages[:3])
    assert "1 of 3 phrases" in pages[-1].replace("\r\n", " ")
    assert TITLES[0] in "".join(pages)
    assert TITLES[1] not in "".join(pages)


def test_a_proof_sheet_has_every_score_and_leaves_the_book_alone(tmp_path: Path) -> None:
    root = write_manuscript(tmp_path / "tides")
    (book,) = build(Request(root, tmp_path / "out")).pdfs
    before = book.read_bytes()
    done = build(Request(root, tmp_path / "out", proof_sheet=True))
    assert [pdf.name for pdf in done.pdfs] == ["tides-concert-proof-sheet.pdf"]
    assert done.jobs_run == 1  # the pages alone: every score was there
    whole = "\n".join(texts(done.pdfs[0]))
    assert all(title in whole for title in TITLES)
    assert whole.count("minor") >= 12
    assert whole.count("major") >= 24
    assert book.read_bytes() == before


def test_a_licensee_is_a_book_of_its_own_and_the_record_tells_them_apart(tmp_path: Path) -> None:
    root = write_manuscript(tmp_path / "tides", phrases=1)
    found = set()
    for name in ("Ada Reader", "Ben Reader", ""):
        (pdf,) = build(Request(root, tmp_path / "out", licensee=name)).pdfs
        pages = texts(pdf)
        title = next(place for place, page in enumerate(pages) if "A. Writer" in page)
        assert all(
            (f"belongs to {name}" in page) == bool(name) for page in pages[:title] + pages[title + 1 :]
        )
        assert "belongs" not in pages[title]
        found.add(pdf.name)
    assert found == {
        "tides-concert-for-Ada-Reader.pdf", "tides-concert-for-Ben-Reader.pdf", "tides-concert.pdf",
    }  # fmt: skip
    assert all((tmp_path / "out" / name).is_file() for name in found)  # none was written over another


def test_a_changed_chapter_changes_the_book(tmp_path: Path) -> None:
    root = write_manuscript(tmp_path / "tides", phrases=1)
    (root / "chapters").mkdir()
    chapter = root / "chapters/01.txt"
    for words in ("Low water is at six.", "Low water is at seven."):
        chapter.write_text(f"name: Tides\n\n{words}\n", encoding="utf-8")
        done = build(Request(root, tmp_path / "out"))
        assert any(words in page for page in texts(done.pdfs[0]))
    assert build(Request(root, tmp_path / "out")).jobs_run == 0


@pytest.mark.parametrize(
    ("settings", "size"),
    [
        ('page_size = "a4"', (210, 297)),
        ('page_size = "letter"', (216, 279)),
        ('page_size = "tablet"', (152, 203)),
        ('page_size = "a4"\nlarge_print = true', (210, 297)),
        ('page_size = "letter"\narrange = "keys"\nparts = "scale"', (216, 279)),
    ],
)
def test_every_paper_and_order_can_be_laid_out(tmp_path: Path, settings: str, size: tuple[int, int]) -> None:
    root = write_manuscript(tmp_path / "tides", phrases=2, settings=settings)
    (pdf,) = build(Request(root, tmp_path / "out", keys=("C", "F", "Gb"))).pdfs
    assert size_mm(pdf) == size
    pages = texts(pdf)
    assert all(title in "".join(pages) for title in TITLES[:2])
    blank = [index for index, page in enumerate(pages) if not page.strip()]
    # The back of the half title, and the last page before page 1; pages of parts have backs of their own.
    assert all("tablet" not in settings for _ in blank)
    assert len(blank) <= 4
    half_titles = [index for index, page in enumerate(pages) if page.strip() == "Tidal studies"]
    assert len(half_titles) <= 2
    # No other page holds a running head alone.
    empty = {*blank, *half_titles}
    assert all(len(page.split()) > 4 for index, page in enumerate(pages) if index not in empty)
    if "keys" in settings:
        assert any("All phrases in F" in page for page in pages)


def test_links_of_a_phrase_are_printed_with_codes(tmp_path: Path) -> None:
    pytest.importorskip("segno")
    root = write_manuscript(tmp_path / "tides", phrases=0)
    (root / "phrases/01.toml").write_text(
        'title = "Low tide"\nchanges = "G7"\nline = "1/1 g4"\n'
        '[links]\n"Slow track" = "https://example.org/slow"\n',
        encoding="utf-8",
    )
    pages = texts(build(Request(root, tmp_path / "out")).pdfs[0])
    assert any("Slow track" in page for page in pages)


def test_a_camera_reads_the_printed_codes(tmp_path: Path) -> None:
    """By another library's reader, from the page as it is rendered at 150 dots an inch."""
    pytest.importorskip("segno")
    reader = pytest.importorskip("zxingcpp")
    root = write_manuscript(tmp_path / "tides", phrases=0)
    addresses = {
        "Slow": "https://example.org/slow",
        "Fast": "https://example.org/a/longer/way/to/fast?x=1&y=2",
    }
    links = "\n".join(f'{name} = "{address}"' for name, address in addresses.items())
    (root / "phrases/01.toml").write_text(
        f'title = "Low tide"\nchanges = "G7"\nline = "1/1 g4"\n[links]\n{links}\n', encoding="utf-8"
    )
    document = pypdfium2.PdfDocument(build(Request(root, tmp_path / "out")).pdfs[0])
    try:
        pictures = [page.render(scale=150 / 72).to_pil() for page in document]
    finally:
        document.close()
    found = {code.text for picture in pictures for code in reader.read_barcodes(picture)}
    assert found == set(addresses.values())


def test_a_camera_reads_where_the_videos_will_be(tmp_path: Path) -> None:
    """One code a phrase, with its own number; the videos are called as it says."""
    reader = pytest.importorskip("zxingcpp")
    root = write_manuscript(
        tmp_path / "tides", phrases=2, settings='videos_address = "https://example.org/watch/{nn}.mp4"\n'
    )
    document = pypdfium2.PdfDocument(build(Request(root, tmp_path / "out")).pdfs[0])
    try:
        pictures = [page.render(scale=150 / 72).to_pil() for page in document]
    finally:
        document.close()
    found = [code.text for picture in pictures for code in reader.read_barcodes(picture)]
    assert found == ["https://example.org/watch/01.mp4", "https://example.org/watch/02.mp4"]
    assert list(film_names(open_manuscript(root)).values()) == [url.rpartition("/")[2] for url in found]


@pytest.mark.parametrize(
    "settings",
    ['page_size = "a4"', 'page_size = "letter"\nlarge_print = true', 'page_size = "tablet"'],
)
def test_every_phrase_takes_the_pages_that_were_planned(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, settings: str
) -> None:
    """What is planned by counted letters is what the typesetter makes: no word or staff goes over."""
    asked: list[PagesOrder] = []

    def seen(*given: Any, **more: Any) -> Iterator[PagesOrder]:
        for order in pages_orders(*given, **more):
            asked.append(order)
            yield order

    monkeypatch.setattr(making, "pages_orders", seen)
    root = write_manuscript(tmp_path / "tides", settings=settings)
    (pdf,) = build(Request(root, tmp_path / "out", jobs=1)).pdfs
    starts = [index for index, page in enumerate(texts(pdf)) if "· level" in " ".join(page.split())]
    data = asked[0].data
    assert isinstance(data, BookData)
    planned = [len(phrase.pages) for part in data.parts for phrase in part.phrases]
    whole = [count + count % 2 if data.about.openings else count for count in planned]
    assert [after - before for before, after in pairwise(starts)] == whole[:-1]
    if data.about.openings:
        assert all(start % 2 == 1 for start in starts)  # the second, fourth … sheet is a left page
