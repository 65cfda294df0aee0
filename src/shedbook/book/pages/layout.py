"""What workers run: lay out one edition and put the PDF in its place."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from shedbook.book.ground.writing import put, refused
from shedbook.book.pages import typst_door
from shedbook.book.pages.cover import CoverData
from shedbook.book.pages.data import PageData
from shedbook.book.workshop.naming import content_hash, digest, name_of
from shedbook.book.workshop.store import Store


@dataclass(frozen=True, slots=True)
class PagesOrder:
    """Lay out an edition, with its cover if it has one.

    `data` names its pictures, whose names tell their content.
    """

    store: str
    target: str
    template: str
    data: PageData
    versions: str
    cover: CoverData | None = None
    cover_target: str = ""

    @property
    def job(self) -> str:
        """The name of the PDF that this order makes."""
        return name_of("lay_out", (self.template, self.data, self.cover), self.versions)

    @property
    def targets(self) -> tuple[Path, ...]:
        """Where the PDFs go: the book, and then its cover."""
        return (Path(self.target), *((Path(self.cover_target),) if self.cover is not None else ()))

    @property
    def note_names(self) -> tuple[str, ...]:
        """The names under which the store notes this of each PDF."""
        return tuple(digest("pages", target.name) for target in self.targets)

    @property
    def note_name(self) -> str:
        """The name under which the store notes what the PDF in this place was made from."""
        return digest("pages", Path(self.target).name)


@dataclass(frozen=True, slots=True)
class LaidOut:
    """What the store notes of PDFs: the name of the job that made them, the hashes of their bytes."""

    job: str
    contents: tuple[str, ...]


def lay_out(order: PagesOrder) -> tuple[str, ...]:
    """Lay out an edition, put it in its place and return the hash of its bytes, and then that of its cover.

    Raises:
        RenderError: if the pages cannot be laid out.
        OutputError: if the disk refuses the file.
    """
    store = Store(Path(order.store))
    content = typst_door.pdf(order.template, order.data, store.folder)
    made = [content]
    if order.cover is not None:
        cover = order.cover.with_pages(typst_door.pages_in(content))
        made.append(typst_door.pdf("cover.typ", cover, store.folder))
    for target, one in zip(order.targets, made, strict=True):
        with refused(target):
            put(target, one, store.folder / "unfinished", lasting=True)
    return tuple(content_hash(one) for one in made)


def laid_out_before(store: Store, order: PagesOrder) -> tuple[str, ...] | None:
    """Return the hashes of the PDFs that lie in their places, if they are what this order would make."""
    note = store.read_value(LaidOut, "card", order.note_name)
    if note is None or note.job != order.job:
        return None
    try:
        there = tuple(content_hash(target.read_bytes()) for target in order.targets)
    except OSError:
        return None
    return there if there == note.contents else None


def note_laid_out(store: Store, order: PagesOrder, contents: tuple[str, ...]) -> None:
    """Note in the store what the PDFs in their places were made from.

    Raises:
        OutputError: if the disk refuses it.
    """
    for name in order.note_names:
        store.write_value("card", name, LaidOut(order.job, contents))


def keep_printed(store: Store, order: PagesOrder) -> str:
    """Put what an edition prints into the store, and return its name there.

    Raises:
        OutputError: if the disk refuses it.
    """
    name = printed_name(Path(order.target).name)
    store.write_value("card", name, order.data)
    return name


def printed_name(pdf: str) -> str:
    """Return the name in the store of what a PDF of this name prints."""
    return digest("printed", pdf)
