"""The finished pages of one phrase: a book of it alone, printed as the whole book would print it."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from shedbook.book.ground.toml_edits import with_value, without_table
from shedbook.book.ground.toml_files import read_text
from shedbook.book.manuscript.opening import MANUSCRIPT_FILE, PHRASES_FOLDER
from shedbook.book.manuscript.request import Request
from shedbook.book.verbs.build import build

_FILE = "01.toml"


@dataclass(frozen=True, slots=True)
class PagesOrder:
    """What is wanted: an edition, a paper ("" for the book's own), keys by their tonics (none for all)."""

    edition: str
    paper: str = ""
    keys: tuple[str, ...] = ()


def pages_of(root: Path, text: str, order: PagesOrder, folder: Path) -> Path:
    """Return the PDF of one phrase.

    Args:
        root: the manuscript's folder, whose settings hold.
        text: the phrase as a file of its own.
        order: what is wanted.
        folder: an empty folder in which it is made, and where the PDF stays.

    Raises:
        ReadError: if the phrase cannot be read.
        UnknownNameError: for an edition or a key that is not there.
    """
    settings = read_text(root / MANUSCRIPT_FILE, MANUSCRIPT_FILE)
    settings = without_table(with_value(settings, "", 0, "phrases", None), "tracks")
    if order.paper:
        settings = with_value(settings, "", 0, "page_size", order.paper)
    alone = folder / (root.resolve().name or "phrase")
    (alone / PHRASES_FOLDER).mkdir(parents=True)
    (alone / MANUSCRIPT_FILE).write_text(settings, encoding="utf-8")
    (alone / PHRASES_FOLDER / _FILE).write_text(text, encoding="utf-8")
    request = Request(
        alone, folder / "pages", keys=order.keys, editions=(order.edition,), tracks=("none",), jobs=1
    )
    return build(request).pdfs[0]
