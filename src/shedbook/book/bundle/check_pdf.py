"""A PDF opened by two independent libraries: pages, fonts, tags, links, and every score read back."""

from __future__ import annotations

import io
import re
from collections.abc import Iterator, Mapping
from math import inf
from typing import Any

from pypdf import PdfReader
from pypdf.errors import PyPdfError

from shedbook.book.bundle.manifest import About, BookMusic
from shedbook.book.bundle.music import expected_of_music
from shedbook.book.bundle.pdfium_door import page_texts
from shedbook.book.ground.typography import typeset
from shedbook.book.ground.words import words_of
from shedbook.book.reading_back.check_book import compared
from shedbook.errors import ShedbookError
from shedbook.read_back.pdf_ink import parts_of_pdf

_FONT_FILES = ("/FontFile", "/FontFile2", "/FontFile3")
_ADDRESS = re.compile(r"(?:https?|mailto):\S+")


def pdf_faults(content: bytes, pages: int, about: About, music: BookMusic | None) -> Iterator[str]:
    """Yield what is wrong with a PDF.

    Args:
        content: its bytes.
        pages: how many pages it should have.
        about: the book.
        music: the scores that it should hold, None where that is not asked.
    """
    try:
        texts = page_texts(content)
        reader = PdfReader(io.BytesIO(content))
        count = len(reader.pages)
        yield from _structure(reader, about)
    except (ValueError, PyPdfError, KeyError, TypeError, AttributeError, IndexError) as error:
        yield f"it cannot be opened: {error}"
        return
    if not len(texts) == count == pages:
        yield f"it has {count} pages in place of {pages}"
    yield from _version(texts, about)
    if music is None:
        return
    try:
        expected = list(expected_of_music(music))
        yield from _titles(reader, music, about.language)
        words = words_of(about.language, dict(about.words))
        back = compared(
            expected, parts_of_pdf(io.BytesIO(content)), words, music.title, music.file, music.reach_pt or inf
        )
    except (ShedbookError, PyPdfError, KeyError, ValueError, IndexError, TypeError, StopIteration) as error:
        yield f"its scores cannot be read: {error}"
        return
    yield from (error.message.rstrip(".") for error in back.errors)
    if not back.errors and back.pages != tuple(row.page for row in music.scores):
        yield "its scores stand on other pages than they should"


def _structure(reader: PdfReader, about: About) -> Iterator[str]:
    root: Any = reader.trailer["/Root"].get_object()
    marked = root.get("/MarkInfo", {})
    if not (marked and marked.get_object().get("/Marked")) or "/StructTreeRoot" not in root:
        yield "it has no tags for those who cannot see it"
    if "/Lang" not in root:
        yield "it names no language"
    title = "" if reader.metadata is None else str(reader.metadata.title or "")
    if typeset(about.title, about.language) not in title:
        yield f'its title is "{title}"'
    loose = sorted({name for page in reader.pages for name in _loose_fonts(page.get("/Resources"))})
    if loose:
        yield f"fonts are not embedded: {', '.join(loose)}"
    named = reader.named_destinations
    places = {page.indirect_reference.idnum for page in reader.pages if page.indirect_reference}
    dead = [one for page in reader.pages for one in _dead_links(page, named, places)]
    if dead:
        yield f"{len(dead)} links lead nowhere, the first to {dead[0]}"


def _loose_fonts(resources: Any) -> Iterator[str]:
    """Yield the fonts of a page that are not embedded."""
    fonts = None if resources is None else resources.get_object().get("/Font")
    for font in () if fonts is None else [one.get_object() for one in fonts.get_object().values()]:
        inner = font.get("/DescendantFonts")
        for one in [each.get_object() for each in inner.get_object()] if inner else [font]:
            said = one.get("/FontDescriptor")
            if said is None or not any(name in said.get_object() for name in _FONT_FILES):
                yield str(one.get("/BaseFont", "a font"))


def _dead_links(page: Any, named: Mapping[str, Any], places: set[int]) -> Iterator[str]:
    """Yield where links of a page lead that lead nowhere."""
    notes = page.get("/Annots")
    for note in (one.get_object() for one in notes.get_object()) if notes else ():
        if note.get("/Subtype") != "/Link":
            continue
        action = note.get("/A")
        action = action.get_object() if action is not None else {}
        if "/URI" in action:
            if not _ADDRESS.fullmatch(str(action["/URI"])):
                yield str(action["/URI"])
            continue
        target = note.get("/Dest", action.get("/D"))
        target = None if target is None else target.get_object()
        if isinstance(target, str):
            if target not in named:
                yield target
        elif not target or getattr(target[0], "idnum", None) not in places:
            yield "a page that is not there"


def _titles(reader: PdfReader, music: BookMusic, language: str) -> Iterator[str]:
    """Yield which phrases the table of bookmarks lacks."""
    said = [str(one.title) for one in _flat(reader.outline)]
    for number, title in dict.fromkeys((row.number, row.title) for row in music.scores):
        printed = typeset(title, language)
        if not any(printed in one or title in one for one in said):
            yield f"no bookmark leads to {number}. {title}"


def _flat(items: Any) -> Iterator[Any]:
    for one in items:
        if isinstance(one, list):
            yield from _flat(one)
        else:
            yield one


def _version(texts: list[str], about: About) -> Iterator[str]:
    """Yield that the imprint says another version than the bundle."""
    words = words_of(about.language, dict(about.words))
    pattern = re.escape(words("bundle.version", number="\0")).replace("\0", r"(\S+)")
    found = [said for text in texts[:8] for said in re.findall(rf"^{pattern}\s*$", text, re.MULTILINE)]
    if found and about.version not in found:
        yield f"its imprint says version {found[0]}, the bundle {about.version}"
    if about.licensee and not any(about.licensee in text for text in texts):
        yield f"it does not say that it belongs to {about.licensee}"
