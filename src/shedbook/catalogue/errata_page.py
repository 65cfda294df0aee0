"""The page of changes, to be printed and laid into the book: a PDF."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from shedbook.book.ground.paper import paper_of
from shedbook.book.ground.words import language_of_words, words_of
from shedbook.book.ground.writing import write_whole
from shedbook.book.pages.typst_door import sheet_pdf
from shedbook.catalogue.errata import Errata
from shedbook.catalogue.errata_words import Section, change_list


@dataclass(frozen=True, slots=True)
class ChangeSheet:
    """Everything that the template of the page prints; sizes in millimetres."""

    title: str
    book: str
    between: str
    sections: tuple[Section, ...]
    last: str
    nothing: str
    language: str
    wide_mm: float
    high_mm: float


def write_page(found: Errata, out: Path, page_size: str = "a4") -> None:
    """Write the page of changes as a PDF.

    Raises:
        RenderError: if it cannot be laid out.
        OutputError: if the disk refuses it.
    """
    language = language_of_words(found.new.language if found.new is not None else "en")
    paper, said = paper_of(page_size), change_list(found)
    nothing = words_of(language)("errata.none")
    data = ChangeSheet(
        said.title, said.book, said.between, said.sections, said.last, nothing, language,
        paper.width_mm, paper.height_mm,
    )  # fmt: skip
    write_whole(out, sheet_pdf("changes.typ", data))
