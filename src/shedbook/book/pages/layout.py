"""What workers run: lay out the pieces and the frame of a book, join them, and put the PDF in its place."""

from __future__ import annotations

from dataclasses import dataclass, replace
from pathlib import Path
from typing import TypeVar

from shedbook.book.ground.writing import put, refused
from shedbook.book.pages import typst_door
from shedbook.book.pages.cover import CoverData
from shedbook.book.pages.data import BookData, PageData
from shedbook.book.pages.pdf_joining import joined
from shedbook.book.pages.pdf_objects import is_stream
from shedbook.book.pages.pdf_pieces import Frame, Piece, frame_of, packed, piece_of, unpacked
from shedbook.book.pages.pieces import PieceData
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
    """What the store notes of PDFs: the name of the job that made them, the hashes of their bytes.

    `parts` are the names of what they were joined of.
    """

    job: str
    contents: tuple[str, ...]
    parts: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class PieceOrder:
    """Lay out a piece of a book."""

    store: str
    data: PieceData
    versions: str

    @property
    def name(self) -> str:
        """The name of what is made."""
        return name_of("lay_out_piece", self.data, self.versions)


@dataclass(frozen=True, slots=True)
class FrameOrder:
    """Lay out a book that holds so many pages free for each of its pieces."""

    store: str
    data: BookData
    counts: tuple[int, ...]
    versions: str

    @property
    def name(self) -> str:
        """The name of what is made."""
        return name_of("lay_out_frame", self.data, self.versions)


@dataclass(frozen=True, slots=True)
class PartMade:
    """What the store notes of a piece or a frame.

    `pages` is how many pages a piece has, `folios` the printed numbers at which a frame holds pages free,
    `apart` the names of what the store holds of it apart, for other pieces have the same.
    """

    pages: int
    folios: tuple[int, ...] = ()
    apart: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class JoinOrder:
    """Join what was laid out apart, by names in the store, to the book of an order."""

    order: PagesOrder
    frame: str
    pieces: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Damaged:
    """Stands for the hashes of a book of which parts in the store were missing or damaged, by their names."""

    names: tuple[str, ...]


_LONG = 3000
"""From how many bytes a stream that all pieces may have is held apart: the fonts."""


def part_made(store: Store, name: str) -> PartMade | None:
    """Return the note of a part that lies in the store; whether it is sound is seen when it is joined."""
    note = store.read_value(PartMade, "card", name)
    return note if note is not None and store.path("piece", name).exists() else None


def lay_out_part(order: PieceOrder | FrameOrder) -> PartMade:
    """Lay out a piece or a frame and put it into the store.

    Raises:
        RenderError: if the pages cannot be laid out.
        OutputError: if the disk refuses the file.
    """
    store = Store(Path(order.store))
    bleed = typst_door.bleed_pt(order.data.about)
    if isinstance(order, FrameOrder):
        plain = typst_door.plain_pdf("book.typ", order.data, store.folder)
        frame = frame_of(plain, order.counts, bleed, order.data.about.words["alt.page"])
        made, content = PartMade(0, frame.folios), packed(frame)
    else:
        plain = typst_door.plain_pdf("piece.typ", order.data, store.folder)
        piece = piece_of(plain, order.data.skipped, bleed)
        long = {
            number: body
            for number in piece.drawn_with
            if len(body := piece.objects[number]) >= _LONG and is_stream(body)
        }
        names = {number: digest("pages apart", body) for number, body in long.items()}
        for number, body in long.items():
            if not store.has("piece", names[number]):
                store.write("piece", names[number], body)
        rest = {number: body for number, body in piece.objects.items() if number not in long}
        content = packed(replace(piece, objects=rest, apart=names))
        made = PartMade(len(piece.pages), (), tuple(sorted(set(names.values()))))
    store.write("piece", order.name, content)
    store.write_value("card", order.name, made)
    return made


def join(order: JoinOrder) -> tuple[str, ...] | Damaged:
    """Join a book, put it in its place and return the hash of its bytes, and then that of its cover.

    Raises:
        RenderError: if the parts do not belong together, or the cover cannot be laid out.
        OutputError: if the disk refuses the file.
    """
    store = Store(Path(order.order.store))
    damaged: list[str] = []
    frame = _read(store, Frame, order.frame, damaged)
    pieces = [_read(store, Piece, name, damaged) for name in order.pieces]
    apart: dict[str, bytes] = {}
    for one, name in zip(pieces, order.pieces, strict=True):
        for own in one.apart.values() if one is not None else ():
            if own not in apart:
                body = store.read("piece", own)
                if body is None:
                    damaged.append(name)
                else:
                    apart[own] = body
    if damaged or frame is None:
        for name in damaged:
            store.path("piece", name).unlink(missing_ok=True)
        return Damaged(tuple(damaged))
    whole = [
        replace(one, objects=one.objects | {number: apart[own] for number, own in one.apart.items()})
        for one in pieces
        if one is not None
    ]
    return _placed(order.order, store, joined(frame, whole))


P = TypeVar("P", Frame, Piece)


def _read(store: Store, kind: type[P], name: str, damaged: list[str]) -> P | None:
    content = store.read("piece", name)
    found = unpacked(kind, content) if content is not None else None
    if found is None:
        damaged.append(name)
    return found


def lay_out(order: PagesOrder) -> tuple[str, ...]:
    """Lay out an edition as a whole, put it in its place and return the hash of its bytes, and of its cover.

    Raises:
        RenderError: if the pages cannot be laid out.
        OutputError: if the disk refuses the file.
    """
    store = Store(Path(order.store))
    return _placed(order, store, typst_door.pdf(order.template, order.data, store.folder))


def _placed(order: PagesOrder, store: Store, content: bytes) -> tuple[str, ...]:
    made = [content]
    if order.cover is not None:
        cover = order.cover.with_pages(typst_door.pages_in(content))
        made.append(typst_door.pdf("cover.typ", cover, store.folder))
    for target, one in zip(order.targets, made, strict=True):
        with refused(target):
            put(target, one, store.folder / "unfinished", lasting=True)
    return tuple(content_hash(one) for one in made)


def laid_out_before(store: Store, order: PagesOrder) -> LaidOut | None:
    """Return the note of the PDFs that lie in their places, if they are what this order would make."""
    note = store.read_value(LaidOut, "card", order.note_name)
    if note is None or note.job != order.job:
        return None
    try:
        there = tuple(content_hash(target.read_bytes()) for target in order.targets)
    except OSError:
        return None
    return note if there == note.contents else None


def note_laid_out(store: Store, order: PagesOrder, note: LaidOut) -> None:
    """Note in the store what the PDFs in their places were made from.

    Raises:
        OutputError: if the disk refuses it.
    """
    for name in order.note_names:
        store.write_value("card", name, note)


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
