"""What a book is joined of: pages that were laid out apart, and a frame that holds pages free for them. Pure.

The frame is the whole book, in which each phrase has empty pages of another size than the others: so
contents, indexes, links, page labels and page numbers are those of the book. A piece has the pages of one
phrase, after some that are not printed. Both are cut down to objects in the process that laid them out;
`pdf_joining` puts them together.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from typing import TypeVar

import msgspec

from shedbook.book.pages.compact_pdf import put_forms
from shedbook.book.pages.pdf_objects import (
    PdfObjects,
    read_objects,
    references,
)
from shedbook.errors import RenderError

ROOT = re.compile(rb"/Root (\d+) 0 R")
_KIDS = re.compile(rb"/Kids\[([^\]]*)\]")
PARENTS = re.compile(rb"/(StructParents?) (\d+)")
TREE = re.compile(rb"/ParentTree<</Nums\[([^\]]*)\]>>")
_PAIR = re.compile(rb"(\d+) (\d+) 0 R")
NEXT_KEY = re.compile(rb"/ParentTreeNextKey (\d+)")
_PAGE_OF = re.compile(rb"/Pg (\d+) 0 R")
_TITLE = re.compile(rb"/Title(\(.*\)|<[0-9A-F]*>)(?=/|>>)", re.DOTALL)
_BOX = re.compile(rb"/(?:TrimBox|MediaBox)\[([\d. -]+)\]")
_LABEL = re.compile(rb"/St (\d+)")
_LINK = b"/Subtype/Link"
_TO_HELD = re.compile(rb"/A<</Type/Action/S/URI/URI\(held:(\d+)\)>>")
STRANGE = "The pages are not written as this program's typesetter writes them."
DESTINATION = re.compile(rb"\A\[(\d+) 0 R/XYZ")


@dataclass(frozen=True, slots=True)
class Bookmark:
    """A bookmark: how deep it lies, its title as the file has it, and the number of its destination."""

    depth: int
    title: bytes
    target: int


@dataclass(frozen=True, slots=True)
class Piece:
    """Pages laid out apart, as objects under numbers of their own.

    `pages` are the pages in their order, `drawn_with` all that their resources name, parts before wholes,
    `tags` what stands at the top of the tree of tags, `parents` the tree from keys to tags, `outer_pages` and
    `outer_tag` the numbers that stand for the list of pages and for the document in the tree of tags. `apart`
    names objects that are kept elsewhere until the piece is joined.
    """

    pages: tuple[int, ...]
    drawn_with: tuple[int, ...]
    tags: tuple[int, ...]
    parents: tuple[tuple[int, int], ...]
    next_key: int
    bookmarks: tuple[Bookmark, ...]
    outer_pages: int
    outer_tag: int
    objects: dict[int, bytes]
    apart: dict[int, str] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Frame:
    """The book with pages held free: all its objects, and where it holds pages.

    `held` are the page numbers in the file, from 0, of each run of pages held free; `folios` the printed
    number on the first of each.
    """

    objects: dict[int, bytes]
    trailer: bytes
    held: tuple[tuple[int, ...], ...]
    folios: tuple[int, ...]


# Cutting down.


def piece_of(pdf: bytes, skipped: int, bleed_pt: float = 0.0) -> Piece:
    """Return the pages of a PDF as a piece, without the first ones.

    Args:
        pdf: the bytes of the typesetter's file.
        skipped: how many pages are not printed.
        bleed_pt: as `compacted` has it.

    Raises:
        RenderError: if the file is not written as the typesetter writes.
    """
    objects = _read(pdf, bleed_pt).objects
    catalog = objects[max(number for number, body in objects.items() if body.startswith(b"<</Type/Catalog"))]
    outer_pages = named_object(catalog, b"Pages")
    every = kids_of(objects, outer_pages)
    pages, left_out = every[skipped:], set(every[:skipped])
    root = objects[named_object(catalog, b"StructTreeRoot")]
    outer_tag = top_tag(root)
    if b"/IDTree" in root:
        raise RenderError("A table on the pages of a phrase cannot be joined to the book.")
    tags = [one for one in tags_in(objects[outer_tag]) if page_of(objects, one) not in left_out]
    unprinted = {int(found[2]) for page in left_out for found in PARENTS.finditer(objects[page])}
    parents = [pair for pair in parents_in(root) if pair[0] not in unprinted]
    bookmarks = [one for one in _bookmarks(objects, catalog) if page_at(objects, one.target) not in left_out]
    drawn_with = _resources(objects, pages)
    used = {outer_pages, outer_tag}
    for number in (
        *drawn_with,
        *pages,
        *tags,
        *(tag for _, tag in parents),
        *(one.target for one in bookmarks),
    ):
        _reach(objects, number, used)
    used -= {outer_pages, outer_tag}
    return Piece(
        tuple(pages),
        tuple(drawn_with),
        tuple(tags),
        tuple(parents),
        int(first_group(NEXT_KEY, root)),
        tuple(bookmarks),
        outer_pages,
        outer_tag,
        {number: objects[number] for number in sorted(used)},
    )


def frame_of(pdf: bytes, counts: Sequence[int], bleed_pt: float = 0.0, page_word: str = "page") -> Frame:
    """Return a PDF as a frame.

    Args:
        pdf: the bytes of the typesetter's file.
        counts: how many pages it holds free, in the order of the book.
        bleed_pt: as `compacted` has it.
        page_word: what stands before its number where a link says to which page it leads.

    Raises:
        RenderError: if the file does not hold so many pages free.
    """
    found = _read(pdf, bleed_pt)
    objects = found.objects
    catalog = objects[int(first_group(ROOT, found.trailer))]
    pages = kids_of(objects, named_object(catalog, b"Pages"))
    boxes = [first_group(_BOX, objects[page]) for page in pages]
    free = [index for index, box in enumerate(boxes) if box != boxes[0]]
    if len(free) != sum(counts):
        raise RenderError(f"The pages hold {len(free)} places free for {sum(counts)} pages of music.")
    places = iter(free)
    held = tuple(tuple(next(places) for _ in range(number)) for number in counts)
    labels = _pairs_in(objects[named_object(catalog, b"PageLabels")])
    folios = []
    for run in held:
        start, label = max(pair for pair in labels if pair[0] <= run[0])
        folios.append(int(first_group(_LABEL, objects[label])) + run[0] - start)
    _lead_to_held(objects, [pages[run[0]] for run in held], [f"{page_word} {folio}" for folio in folios])
    return Frame(objects, found.trailer, held, tuple(folios))


def _lead_to_held(objects: dict[int, bytes], pages: Sequence[int], says: Sequence[str]) -> None:
    """Let the links whose address is that of a place held free lead to its first page, and say so.

    Args:
        objects: the objects of the frame, to which destinations are added (12.3.2).
        pages: the first page of each place.
        says: what a link to each says (its alternative description, 14.9.3).
    """
    targets: dict[int, int] = {}
    for number, body in list(objects.items()):
        found = _TO_HELD.search(body) if _LINK in body else None
        if found is None:
            continue
        place = int(found[1])
        if place not in targets:
            targets[place] = max(objects) + 1
            objects[targets[place]] = b"[%d 0 R/XYZ 0 0 0]" % pages[place]
        body = _TO_HELD.sub(b"/Dest %d 0 R" % targets[place], body)
        objects[number] = body.replace(b"/Contents(held:%d)" % place, b"/Contents" + _text(says[place]))


def _text(said: str) -> bytes:
    """Return a text as a PDF has it (7.9.2.2); none has a bracket in it."""
    if said.isascii():
        return b"(" + said.encode() + b")"
    return b"<FEFF" + said.encode("utf-16-be").hex().upper().encode() + b">"


def _read(pdf: bytes, bleed_pt: float) -> PdfObjects:
    found = read_objects(pdf)
    if found is None:
        raise RenderError(STRANGE)
    put_forms(found.objects, bleed_pt)
    return found


def first_group(pattern: re.Pattern[bytes], body: bytes) -> bytes:
    """Return what the group of a pattern finds in an object.

    Raises:
        RenderError: if it finds nothing.
    """
    found = pattern.search(body)
    if found is None:
        raise RenderError(STRANGE)
    return found[1]


def named_object(body: bytes, key: bytes) -> int:
    """Return the number of the object that stands under a key of another; raises as `first_group`."""
    return int(first_group(re.compile(rb"/" + key + rb" (\d+) 0 R"), body))


def kids_of(objects: Mapping[int, bytes], number: int) -> list[int]:
    """Return the pages of a file in their order."""
    found: list[int] = []
    for kid in references(b"[" + first_group(_KIDS, objects[number]) + b"]"):
        found += kids_of(objects, kid) if objects[kid].startswith(b"<</Type/Pages") else [kid]
    return found


def list_after(body: bytes, key: bytes) -> tuple[int, int]:
    """Return where the list under a key of an object begins and ends; it may hold dictionaries and lists."""
    start = body.rindex(key + b"[") + len(key) + 1
    depth, place = 1, start
    while depth:
        depth += {91: 1, 93: -1}.get(body[place], 0)
        place += 1
    return start, place - 1


def tags_in(document: bytes) -> list[int]:
    """Return what stands under the document in the tree of tags."""
    start, end = list_after(document, b"/K")
    return references(b"[" + document[start:end] + b"]")


def top_tag(root: bytes) -> int:
    """Return the number of the document in the tree of tags, of the root of that tree."""
    start, end = list_after(root, b"/K")
    return references(root[start:end])[0]


def page_of(objects: Mapping[int, bytes], tag: int) -> int:
    """Return the page on which a tag begins: its own, or that of the first tag in it that has one; else 0."""
    body = objects[tag]
    found = _PAGE_OF.search(body)
    if found is not None:
        return int(found[1])
    if b"/K[" not in body:
        return 0
    return next((page for kid in tags_in(body) if (page := page_of(objects, kid))), 0)


def page_at(objects: Mapping[int, bytes], target: int) -> int:
    """Return the page to which a destination leads; raises as `first_group`."""
    return int(first_group(DESTINATION, objects[target]))


def _pairs_in(body: bytes) -> list[tuple[int, int]]:
    return [(int(key), int(value)) for key, value in _PAIR.findall(body)]


def parents_in(root: bytes) -> list[tuple[int, int]]:
    """Return the tree from keys to tags."""
    return _pairs_in(first_group(TREE, root))


def _bookmarks(objects: Mapping[int, bytes], catalog: bytes) -> list[Bookmark]:
    """Return the bookmarks of a file in their order."""
    if b"/Outlines " not in catalog:
        return []
    return [mark for _, mark in bookmarks_below(objects, named_object(catalog, b"Outlines"), 0)]


def bookmarks_below(objects: Mapping[int, bytes], number: int, depth: int) -> Iterator[tuple[int, Bookmark]]:
    """Yield the bookmarks below one, each with the number of its object."""
    first = re.search(rb"/First (\d+) 0 R", objects[number])
    place = int(first[1]) if first else 0
    while place:
        body = objects[place]
        title = first_group(_TITLE, body)
        yield place, Bookmark(depth, title, int(first_group(re.compile(rb"/Dest (\d+) 0 R\Z"), body[:-2])))
        yield from bookmarks_below(objects, place, depth + 1)
        after = re.search(rb"/Next (\d+) 0 R", body[: body.index(b"/Title")])
        place = int(after[1]) if after else 0


def _resources(objects: Mapping[int, bytes], pages: Iterable[int]) -> list[int]:
    """Return all that pages draw with, parts before what is made of them."""
    found: dict[int, None] = {}

    def take(number: int) -> None:
        if number in found:
            return
        for part in references(objects[number]):
            take(part)
        found[number] = None

    for page in pages:
        body = objects[page]
        start = body.index(b"/Resources ")
        end = body.find(b"/MediaBox", start)
        for number in references(body[start:end]):
            take(number)
    return list(found)


def _reach(objects: Mapping[int, bytes], number: int, used: set[int]) -> None:
    """Add an object to those that are used, with all that it names."""
    waiting = [number]
    while waiting:
        one = waiting.pop()
        if one not in used:
            used.add(one)
            waiting += references(objects[one])


def packed(part: Frame | Piece) -> bytes:
    """Return a part as bytes that `unpacked` reads."""
    return msgspec.msgpack.encode(part)


P = TypeVar("P", Frame, Piece)


def unpacked(kind: type[P], content: bytes) -> P | None:
    """Return the part that bytes hold; None for anything else."""
    try:
        return msgspec.msgpack.decode(content, type=kind)
    except msgspec.MsgspecError:
        return None
