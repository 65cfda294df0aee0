"""The finished PDF: structure by pikepdf, text by pypdfium2, tags, links, and a few golden pages.

What PDF/UA-1 (ISO 14289-1, from memory) asks for and a program can check: tagged, a title that is shown, a
language, an alternative text for each figure, headings that skip no level, a description for each link, all
fonts embedded. The typesetter checks the standard when it writes; these are checks by other libraries.
"""

from __future__ import annotations

import os
import re
from collections.abc import Callable, Iterator
from itertools import pairwise
from pathlib import Path
from typing import Any

import pdfua
import pikepdf
import pypdfium2
import pytest
from PIL import Image, ImageChops

from book.builds import TITLES, write_manuscript
from shedbook.book.manuscript.request import Request
from shedbook.book.verbs.build import build

GOLDEN = Path(__file__).parent / "golden"
SCALE = 0.6
"""Pixels to a point: 43 to the inch, enough for where things stand, too few for how edges are smoothed."""

SETTINGS = """
parts = "progression"
date = 2026-05-01
rights = "Invented for a test."
links = { "Lessons" = "https://example.org/lessons" }
"""


@pytest.fixture(scope="module")
def book(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A small book with parts, a foreword and a date, so that it is PDF/A too."""
    folder = tmp_path_factory.mktemp("pdf")
    root = write_manuscript(folder / "tides", settings=SETTINGS)
    (root / "chapters").mkdir()
    (root / "chapters/01-foreword.txt").write_text("name: Foreword\n\nRead the tide table first.\n", "utf-8")
    request = Request(root, folder / "out", licensee="Ada Reader, 17")
    return build(request).pdfs[0]


@pytest.fixture(scope="module")
def texts(book: Path) -> list[str]:
    document = pypdfium2.PdfDocument(book)
    try:
        return [page.get_textpage().get_text_range() for page in document]
    finally:
        document.close()


def first_sheet(book: Path) -> int:
    """Return how many sheets stand before page 1."""
    with pikepdf.open(book) as pdf:
        labels = list(pdf.Root.PageLabels.Nums)
    return int(next(start for start, label in zip(labels[::2], labels[1::2], strict=True)
                    if label.get("/S") == pikepdf.Name.D and int(label.get("/St", 1)) == 1))  # fmt: skip


def elements(node: Any) -> Iterator[pikepdf.Dictionary]:
    """Yield every structure element beneath a node, in reading order."""
    kids = node.get("/K")
    if kids is None:
        return
    for kid in kids if isinstance(kids, pikepdf.Array) else [kids]:
        if isinstance(kid, pikepdf.Dictionary) and "/S" in kid:
            yield kid
            yield from elements(kid)


@pytest.fixture(scope="module")
def tags(book: Path) -> list[tuple[str, str]]:
    """Tags and alternative texts in reading order."""
    with pikepdf.open(book) as pdf:
        return [(str(one["/S"]), str(one.get("/Alt", ""))) for one in elements(pdf.Root.StructTreeRoot)]


def test_the_standards_are_claimed(book: Path) -> None:
    with pikepdf.open(book) as pdf:
        with pdf.open_metadata() as meta:
            assert meta["pdfuaid:part"] == "1"
            assert (meta["pdfaid:part"], meta["pdfaid:conformance"]) == ("2", "A")
        assert bool(pdf.Root.MarkInfo.Marked)
        assert bool(pdf.Root.ViewerPreferences.DisplayDocTitle)
        assert str(pdf.Root.Lang).startswith("en")
        assert "/OutputIntents" in pdf.Root


def test_a_checker_of_pdf_ua_finds_nothing(book: Path) -> None:
    report = pdfua.validate(str(book))
    assert [f"{one.rule_id}: {one.message}" for one in report.findings] == []
    assert report.exit_code == 0
    # Version 0.1.3 cannot follow a structure tree whose headings have arrays for kids.
    assert {one.rule_id for one in report.skipped} <= {"UA-14-001"}


def test_the_checker_of_pdf_ua_does_find(book: Path, tmp_path: Path) -> None:
    with pikepdf.open(book) as pdf:
        del pdf.Root.Lang
        del pdf.Root.StructTreeRoot
        pdf.save(tmp_path / "bare.pdf")
    assert pdfua.validate(str(tmp_path / "bare.pdf")).findings


def test_every_font_is_embedded(book: Path) -> None:
    with pikepdf.open(book) as pdf:
        found = [
            item
            for item in pdf.objects
            if isinstance(item, pikepdf.Dictionary) and item.get("/Type") == "/FontDescriptor"
        ]
        assert len(found) >= 3
        assert all({"/FontFile", "/FontFile2", "/FontFile3"} & set(one.keys()) for one in found)


def test_every_figure_has_an_alternative_text(tags: list[tuple[str, str]]) -> None:
    figures = [alt for tag, alt in tags if tag == "/Figure"]
    scores = [alt for alt in figures if "Bar 1, " in alt]
    assert len(scores) == 3 * 12  # each phrase large, and in eleven other keys
    assert all(figures)
    first = next(alt for alt in scores if alt.startswith("Low tide in C minor"))
    assert "Bar 1, D m7 flat 5: eighth F 4, A flat 4, C 5, E flat 5, D 5, F 5, A flat 5, G 5." in first


def test_headings_skip_no_level(tags: list[tuple[str, str]]) -> None:
    levels = [int(tag[2:]) for tag, _ in tags if re.fullmatch(r"/H[1-6]", tag)]
    assert levels[0] == 1
    assert set(levels) == {1, 2, 3}  # parts, phrases, keys
    assert all(after - before <= 1 for before, after in pairwise(levels))


def test_every_page_is_in_the_reading_order(book: Path, texts: list[str]) -> None:
    with pikepdf.open(book) as pdf:
        blank = [index for index, page in enumerate(pdf.pages) if "/StructParents" not in page]
        # An empty leaf has nothing to read but the licensee.
        assert all(" ".join(texts[index].split()).endswith("Ada Reader, 17") for index in blank)
        assert all(len(texts[index].split()) == 7 for index in blank)
        assert all(page.get("/Tabs") == "/S" for page in pdf.pages if "/Annots" in page)


def test_every_link_leads_somewhere_and_says_where(book: Path) -> None:
    addresses, inside = [], 0
    with pikepdf.open(book) as pdf:
        names = set()
        pages = {page.objgen for page in pdf.pages}
        for page in pdf.pages:
            for link in page.get("/Annots", []):
                assert link["/Subtype"] == "/Link"
                assert str(link.get("/Contents", ""))
                if "/A" in link:
                    addresses.append(str(link["/A"]["/URI"]))
                else:
                    inside += 1
                    target = link["/Dest"]
                    if isinstance(target, pikepdf.Array):
                        assert target[0].objgen in pages
                    else:
                        names.add(str(target))
    assert "https://example.org/lessons" in addresses
    assert inside >= 3 * 2 + 4  # contents, parts, indexes, checklist


def test_the_text_holds_every_title_and_page_number(book: Path, texts: list[str]) -> None:
    whole = "\n".join(texts)
    for title in TITLES:
        assert whole.count(title) >= 4  # contents, part, heading, running head, checklist
    foreword = next(text for text in texts if "Read the tide table first." in text)
    assert "Foreword" in foreword
    for number, text in enumerate(texts[first_sheet(book) :], 1):
        empty = len(text.split()) == 7  # the licensee alone
        assert empty or str(number) in re.findall(r"\d+", text), f"page {number} does not say its number"


def test_the_contents_tell_the_truth(book: Path, texts: list[str]) -> None:
    contents = next(index for index, text in enumerate(texts) if "Contents" in text)
    for title in TITLES:
        found = re.search(rf"{title}.*?(\d+)\s*$", texts[contents], re.MULTILINE | re.DOTALL)
        assert found is not None
        line = texts[contents][texts[contents].index(title) :].replace("\r", "").split("\n")
        printed = next(int(word) for word in " ".join(line).split() if word.isdecimal())
        page = texts[first_sheet(book) + printed - 1]
        assert title in page
        assert "Tempo" in page  # the ladder stands on the first page of a phrase


def test_page_1_is_a_right_hand_page_and_roman_numbers_count_from_the_title(
    book: Path, texts: list[str]
) -> None:
    sheets = first_sheet(book)
    assert sheets % 2 == 0
    assert "Part 1" in texts[sheets]
    # Half title and its back are i and ii, title and imprint iii and iv.
    assert re.search(r"^v\b", texts[4].replace("\r", ""), re.MULTILINE)
    assert "Contents" in texts[4]


def test_the_contents_list_what_stands_before_the_music(texts: list[str]) -> None:
    contents = next(text for text in texts if "Contents" in text).replace("\r", "")
    for name, number in (("Foreword", "vi"), ("How to use this book", "vii")):
        assert re.search(rf"^{name} *\n?{number}$", contents, re.MULTILINE), contents
        place = {"vi": 5, "vii": 6}[number]
        assert name in texts[place]


def test_a_part_has_one_name(texts: list[str]) -> None:
    assert sum("Minor ii–V–i" in text for text in texts) >= 2  # contents, its page
    contents = next(text for text in texts if "Contents" in text)
    assert "minor ii–V–i" not in contents


def test_the_licensee_stands_on_every_page_but_the_title(texts: list[str]) -> None:
    said = ["This copy belongs to Ada Reader, 17" in text for text in texts]
    assert said == [place != 2 for place in range(len(texts))]  # the title page is the third


def test_no_page_is_empty_and_no_heading_stands_alone(book: Path, texts: list[str]) -> None:
    document = pypdfium2.PdfDocument(book)
    try:
        for index, page in enumerate(document):
            picture = page.render(scale=0.3, grayscale=True).to_pil()
            width, height = picture.size
            body = picture.crop((0, round(height * 0.09), width, round(height * 0.91)))
            inked = sum(1 for value in body.tobytes() if value < 200) / (body.width * body.height)
            leaf = len(texts[index].split()) == 7  # the licensee alone
            half_title = "".join(texts[index].split()).startswith("Tidalstudies") and index == 0
            assert inked > 0.0005 or leaf or half_title, f"page {index + 1} is empty"
    finally:
        document.close()
    assert texts[-1].count("\n") > 5  # the checklist, not a last line carried over


def test_each_key_begins_a_system_and_none_is_divided(book: Path, texts: list[str]) -> None:
    """Eleven keys on two facing pages; the name of each stands on the page that shows it."""
    low = [text for text in texts if "Low tide" in text and "major" not in text]
    keys = [len(re.findall(r"^minor", text.replace("\r", ""), re.MULTILINE)) for text in low]
    assert [count for count in keys if count >= 3] == [3, 8]


PAGES: dict[str, Callable[[list[str]], int]] = {
    # What each protects: the title's staff and note; the side heads, wedges, brackets, scales and ladder of a
    # first page; names in the gutter and equal shares of the page; boxes under their keys.
    "title": lambda texts: 2,
    "first page": lambda texts: next(
        i for i, text in enumerate(texts) if "Low tide" in text and "slow" in text and "Tempo" in text
    ),
    "keys": lambda texts: next(
        i for i, text in enumerate(texts) if "Low tide" in text and "slow" in text and "Tempo" in text
    ) + 1,
    "checklist": lambda texts: len(texts) - 1,
}  # fmt: skip


@pytest.mark.parametrize("name", PAGES)
def test_golden_page(name: str, book: Path, texts: list[str]) -> None:
    """Compare a page with its picture: no more than a small share may differ by more than smoothing does.

    UPDATE_GOLDEN=1 writes the pictures anew; look at them before they are kept.
    """
    document = pypdfium2.PdfDocument(book)
    try:
        picture = document[PAGES[name](texts)].render(scale=SCALE, grayscale=True).to_pil().convert("L")
    finally:
        document.close()
    path = GOLDEN / f"{name.replace(' ', '-')}.png"
    if os.environ.get("UPDATE_GOLDEN"):
        path.parent.mkdir(parents=True, exist_ok=True)
        picture.quantize(16).save(path, optimize=True)
    kept = Image.open(path).convert("L")
    assert picture.size == kept.size
    differing = ImageChops.difference(picture, kept).point(lambda value: 255 if value > 96 else 0)
    share = differing.histogram()[255] / (picture.width * picture.height)
    assert share < 0.004, f"{share:.2%} of the page differs"
