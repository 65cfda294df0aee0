"""A book joined of pieces is the book laid out whole: to the pixel, in text, tags, bookmarks and links."""

from __future__ import annotations

import io
import re
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path
from typing import Any

import pdfua
import pikepdf
import pypdfium2
import pytest
import typst

from book.builds import write_manuscript
from shedbook.book.building import book_layout
from shedbook.book.ground.words import EN, words_of
from shedbook.book.manuscript.request import Request
from shedbook.book.pages import pdf_joining, pdf_pieces, typst_door
from shedbook.book.pages.data import BookData, ChapterData
from shedbook.book.pages.layout import PagesOrder
from shedbook.book.pages.pdf_objects import read_objects, references, renumbered
from shedbook.book.pages.pieces import frame_data, pieces_of, planned, starts_of
from shedbook.book.pages.prose import blocks_of
from shedbook.book.verbs.build import build
from shedbook.errors import RenderError

PRESS = 'print = true\nprint_ink = "cmyk"\ncrop_marks = true\npaper_stock = "90 g offset"'
BOOKS = {
    "plain": "",
    "phrases on any page": 'phrase_starts = "page"',
    "parts": 'parts = "progression"',
    "key by key": 'arrange = "keys"',
    "tablet": 'page_size = "tablet"\nlarge_print = true',
    "dated": 'date = "2026-05-01"',
    "press": PRESS,
    "German": 'language = "de"',
}


def built(folder: Path, settings: str, monkeypatch: pytest.MonkeyPatch) -> Iterator[tuple[PagesOrder, Path]]:
    """Build a book and yield what was asked of the layout of each PDF, and the PDF."""
    asked: list[PagesOrder] = []
    lay_out_books = book_layout.lay_out_books

    def seen(crew: Any, store: Any, orders: list[PagesOrder], *more: Any) -> Any:
        asked.extend(orders)
        return lay_out_books(crew, store, orders, *more)

    monkeypatch.setattr("shedbook.book.building.make.lay_out_books", seen)
    build(Request(write_manuscript(folder / "tides", settings=settings), folder / "out", jobs=1))
    for order in asked:
        yield order, Path(order.target)


@pytest.mark.parametrize("name", BOOKS)
def test_a_joined_book_is_the_book_laid_out_whole(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, name: str
) -> None:
    for order, path in built(tmp_path, BOOKS[name], monkeypatch):
        joined = path.read_bytes()
        whole = typst_door.pdf("book.typ", order.data, Path(order.store))
        assert joined != whole
        assert pages(joined) == pages(whole)
        assert bookmarks(joined) == bookmarks(whole)
        assert tags(joined) == tags(whole)
        assert links(joined) == links(whole)
        path.write_bytes(joined)
        assert pdfua.validate(str(path)).findings == ()  # the checker of another project


def pages(pdf: bytes) -> list[tuple[bytes, str, str, Any]]:
    """Return of each page how it looks, its text, its label and its boxes, as PDFium reads them."""
    document = pypdfium2.PdfDocument(pdf)
    try:
        return [
            (
                page.render(scale=1).to_pil().tobytes(),
                page.get_textpage().get_text_range(),
                document.get_page_label(index),
                (page.get_mediabox(), page.get_trimbox(), page.get_bleedbox()),
            )
            for index, page in enumerate(document)
        ]
    finally:
        document.close()


def bookmarks(pdf: bytes) -> list[tuple[int, str, int, Any]]:
    document = pypdfium2.PdfDocument(pdf)
    try:
        return [
            (one.level, one.get_title(), one.get_dest().get_index(), one.get_dest().get_view())
            for one in document.get_toc()
        ]
    finally:
        document.close()


def tags(pdf: bytes) -> list[tuple[Any, ...]]:
    """Return the tree of tags, each with its depth, kind, texts and page; check the tree of keys."""
    found: list[tuple[Any, ...]] = []
    with pikepdf.open(io.BytesIO(pdf)) as document:
        numbers = {page.obj.objgen: index for index, page in enumerate(document.pages)}

        def walk(one: Any, depth: int) -> None:
            if isinstance(one, pikepdf.Array):
                for kid in one:
                    walk(kid, depth)
            elif isinstance(one, pikepdf.Dictionary):
                page = numbers[one.Pg.objgen] if "/Pg" in one else None
                said = [str(one.get(key)) for key in ("/S", "/Type", "/Alt", "/Lang", "/T")]
                found.append((depth, page, *said))
                walk(one.get("/K"), depth + 1)
            elif one is not None:
                found.append((depth, int(one)))

        root = document.Root.StructTreeRoot
        walk(root.K, 0)
        nums = list(root.ParentTree.Nums)
        keys = [int(key) for key in nums[::2]]
        assert keys == sorted(set(keys))
        assert int(root.ParentTreeNextKey) > keys[-1]
        parents = dict(zip(keys, nums[1::2], strict=True))
        for page in document.pages:
            if "/StructParents" in page:
                assert int(page.StructParents) in parents
            for note in page.get("/Annots", []):
                assert parents[int(note.StructParent)].S == "/Link"
    return found


def links(pdf: bytes) -> list[tuple[Any, ...]]:
    with pikepdf.open(io.BytesIO(pdf)) as document:
        numbers = {page.obj.objgen: index for index, page in enumerate(document.pages)}

        named = list(document.Root.Names.Dests.Names) if "/Names" in document.Root else []
        places = {str(name): target for name, target in zip(named[::2], named[1::2], strict=True)}

        def target(note: Any) -> Any:
            found = note.get("/Dest")
            if found is None:
                return str(note.get("/A"))
            place = found if isinstance(found, pikepdf.Array) else places[str(found)]
            return numbers[place[0].objgen], [str(one) for one in list(place)[1:]]

        return [
            (index, str(note.Rect), str(note.Contents).split(", ")[-1], target(note))
            for index, page in enumerate(document.pages)
            for note in page.get("/Annots", [])
        ]


def test_fonts_and_forms_stand_in_the_book_once(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    ((_, path),) = built(tmp_path, "", monkeypatch)
    with pikepdf.open(path) as document:
        streams = [
            one.read_raw_bytes()
            for one in document.objects
            if isinstance(one, pikepdf.Stream) and (one.get("/Subtype") in ("/CIDFontType0C", "/Form"))
        ]
    assert len(streams) > 20
    assert len(streams) == len(set(streams))


def identifier(path: Path) -> bytes:
    """Return the second identifier of a file, that of this state of it."""
    with pikepdf.open(path) as document:
        return bytes(document.trailer["/ID"][1])


def test_only_what_an_edit_touches_is_laid_out_again(tmp_path: Path) -> None:
    root = write_manuscript(tmp_path / "tides", phrases=4)
    (pdf,) = build(Request(root, tmp_path / "out", jobs=1)).pdfs
    first = identifier(pdf)
    store = tmp_path / "out/.store/piece"
    before = {path.name for path in store.iterdir()}
    phrase = sorted((root / "phrases").iterdir())[1]
    text = phrase.read_text(encoding="utf-8")
    phrase.write_text(text.replace("Listen to bar two.", "Breathe after the third."), encoding="utf-8")
    build(Request(root, tmp_path / "out", jobs=1))
    assert (
        len({path.name for path in store.iterdir()} - before) == 1
    )  # the piece; the frame says nothing else
    assert identifier(pdf) != first  # another content, another identifier (ISO 32000-1, 14.4)


def test_damaged_pieces_are_laid_out_again(tmp_path: Path) -> None:
    root = write_manuscript(tmp_path / "tides")
    (pdf,) = build(Request(root, tmp_path / "out", jobs=1)).pdfs
    first = pdf.read_bytes()
    for path in (tmp_path / "out/.store/piece").iterdir():
        path.write_bytes(path.read_bytes()[:-200])
    pdf.unlink()
    (pdf,) = build(Request(root, tmp_path / "out", jobs=1)).pdfs
    assert pdf.read_bytes() == first


def test_a_part_that_is_longer_than_planned_moves_what_follows(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The plan takes one page for the opening of a part; the author's words for it fill three."""
    root = write_manuscript(tmp_path / "tides", settings='parts = "progression"')
    words = "\n\n".join(["A long thing to say about these four bars, and how they lean. " * 12] * 12)
    asked: list[PagesOrder] = []
    lay_out_books = book_layout.lay_out_books

    def seen(crew: Any, store: Any, orders: list[PagesOrder], *more: Any) -> Any:
        data = orders[0].data
        assert isinstance(data, BookData)
        part = data.parts[0]
        chapter = typst_chapter(words)
        longer = replace(data, parts=(replace(part, chapters=(chapter,)), *data.parts[1:]))
        asked.append(replace(orders[0], data=longer))
        return lay_out_books(crew, store, asked, *more)

    monkeypatch.setattr("shedbook.book.building.make.lay_out_books", seen)
    (pdf,) = build(Request(root, tmp_path / "out", jobs=1)).pdfs
    order = asked[0]
    assert isinstance(order.data, BookData)
    assert pages(pdf.read_bytes()) == pages(typst_door.pdf("book.typ", order.data, Path(order.store)))


def typst_chapter(words: str) -> Any:
    return ChapterData("On these", blocks_of(words, EN, "en"))


def test_other_counts_than_the_frame_holds_free_are_refused(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    ((order, _),) = built(tmp_path, "", monkeypatch)
    assert isinstance(order.data, BookData)
    counts = planned(order.data)
    plain = typst_door.plain_pdf(
        "book.typ", frame_data(order.data, counts, starts_of(order.data, counts)), Path(order.store)
    )
    with pytest.raises(RenderError, match="free for"):
        pdf_pieces.frame_of(plain, (*counts, 1))
    frame = pdf_pieces.frame_of(plain, counts)
    data = pieces_of(order.data)[0]
    piece = pdf_pieces.piece_of(typst_door.plain_pdf("piece.typ", data, Path(order.store)), data.skipped)
    used = [
        int(key) for body in piece.objects.values() for key in re.findall(rb"/StructParents? (\d+)", body)
    ]
    assert sorted(key for key, _ in piece.parents) == sorted(used)  # none of the pages that are left out
    with pytest.raises(RenderError, match="as many as"):
        pdf_joining.joined(frame, [piece])
    assert pdf_pieces.unpacked(pdf_pieces.Piece, pdf_pieces.packed(piece)) == piece
    assert pdf_pieces.unpacked(pdf_pieces.Piece, b"no such thing") is None


def test_what_stands_in_a_text_is_no_reference() -> None:
    body = rb"<</Alt(Take 5 0 R \) and (6 0 R) too)/Pg 7 0 R/K[8 0 R 3]>>"
    assert references(body) == [7, 8]
    assert (
        renumbered(body, {7: 70, 8: 80}) == rb"<</Alt(Take 5 0 R \) and (6 0 R) too)/Pg 70 0 R/K[80 0 R 3]>>"
    )
    assert read_objects(b"%PDF-1.7") is None


@pytest.mark.parametrize("language", ["en", "de", "fr", "es", "pt"])
def test_a_link_to_a_phrase_says_its_page_in_the_words_of_the_typesetter(language: str) -> None:
    """The typesetter's own words for a link to a page that it knows are the oracle."""
    typed = f'#set text(lang: "{language}")\n#set document(title: "T")\n#set page(numbering: "1")\n'
    compiled = [
        typst.compile((typed + body).encode(), format="pdf", pdf_standards=["ua-1"])
        for body in ("#metadata(none) <a>\n#link(<a>)[a]", '#metadata(none)\n#link("held:0")[a]')
    ]
    known, ours = [read_objects(one) for one in compiled]
    assert known is not None
    assert ours is not None
    pdf_pieces._lead_to_held(ours.objects, [3], [words_of(language)("alt.page") + " 1"])
    said = [
        [
            re.findall(rb"/Contents(?:\(.*?\)|<.*?>)", body)
            for body in found.objects.values()
            if b"/Subtype/Link" in body
        ]
        for found in (known, ours)
    ]
    assert said[0] == said[1] != []
    (link,) = [body for body in ours.objects.values() if b"/Subtype/Link" in body]
    (target,) = [number for number in references(link) if ours.objects[number].startswith(b"[")]
    assert ours.objects[target].startswith(b"[3 0 R/XYZ")
