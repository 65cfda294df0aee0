"""What workers run: lay out one edition and put the PDF in its place."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from shedbook.book.ground.writing import put, refused
from shedbook.book.pages import typst_door
from shedbook.book.pages.data import PageData
from shedbook.book.workshop.naming import content_hash, digest, name_of
from shedbook.book.workshop.store import Store


@dataclass(frozen=True, slots=True)
class PagesOrder:
    """Lay out an edition. `data` names its pictures, whose names tell their content."""

    store: str
    target: str
    template: str
    data: PageData
    versions: str

    @property
    def job(self) -> str:
        """The name of the PDF that this order makes."""
        return name_of("lay_out", (self.template, self.data), self.versions)

    @property
    def note_name(self) -> str:
        """The name under which the store notes what the PDF in this place was made from."""
        return digest("pages", Path(self.target).name)


@dataclass(frozen=True, slots=True)
class LaidOut:
    """What the store notes of a PDF: the name of the job that made it, the hash of its bytes."""

    job: str
    content: str


def lay_out(order: PagesOrder) -> str:
    """Lay out an edition, put it in its place and return the hash of its bytes.

    Raises:
        RenderError: if the pages cannot be laid out.
        OutputError: if the disk refuses the file.
    """
    store = Store(Path(order.store))
    content = typst_door.pdf(order.template, order.data, store.folder)
    target = Path(order.target)
    with refused(target):
        put(target, content, store.folder / "unfinished", lasting=True)
    return content_hash(content)


def laid_out_before(store: Store, order: PagesOrder) -> str | None:
    """Return the hash of the PDF that lies in its place, if it is what this order would make."""
    note = store.read_value(LaidOut, "card", order.note_name)
    if note is None or note.job != order.job:
        return None
    try:
        same = content_hash(Path(order.target).read_bytes()) == note.content
    except OSError:
        return None
    return note.content if same else None


def note_laid_out(store: Store, order: PagesOrder, content: str) -> None:
    """Note in the store what the PDF in its place was made from.

    Raises:
        OutputError: if the disk refuses it.
    """
    store.write_value("card", order.note_name, LaidOut(order.job, content))
