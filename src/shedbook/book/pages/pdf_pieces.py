"""A book joined of pieces that were laid out apart: a frame that holds pages free, and what goes there. Pure.

The frame is the whole book, in which each phrase has empty pages of another size than the others: so
contents, indexes, links, page labels and page numbers are those of the book. A piece has the pages of one phrase, after
some that are not printed. Both are cut down to objects in the process that laid them out (`piece_of`), and
`joined` puts them together: pages, tags (ISO 32000-1, 14.7), bookmarks (12.3.3) and destinations; what the
pages draw with, fonts and forms, is kept once for the whole book.
"""

from __future__ import annotations

import base64
import hashlib
import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from itertools import chain, count
from typing import TypeVar

import msgspec

from shedbook.book.pages.compact_pdf import put_forms
from shedbook.book.pages.pdf_objects import (
    PdfObjects,
    is_stream,
    read_objects,
    references,
    renumbered,
    written,
)
from shedbook.errors import RenderError

_ROOT = re.compile(rb"/Root (\d+) 0 R")
_KIDS = re.compile(rb"/Kids\[([^\]]*)\]")
_PARENTS = re.compile(rb"/(StructParents?) (\d+)")
_TREE = re.compile(rb"/ParentTree<</Nums\[([^\]]*)\]>>")
_PAIR = re.compile(rb"(\d+) (\d+) 0 R")
_NEXT_KEY = re.compile(rb"/ParentTreeNextKey (\d+)")
_PAGE_OF = re.compile(rb"/Pg (\d+) 0 R")
_TITLE = re.compile(rb"/Title(\(.*\)|<[0-9A-F]*>)(?=/|>>)", re.DOTALL)
_BOX = re.compile(rb"/(?:TrimBox|MediaBox)\[([\d. -]+)\]")
_LABEL = re.compile(rb"/St (\d+)")
_STRANGE = "The pages are not written as this program's typesetter writes them."
_DESTINATION = re.compile(rb"\A\[(\d+) 0 R/XYZ")


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
    outer_pages = _named(catalog, b"Pages")
    every = _kids(objects, outer_pages)
    pages, left_out = every[skipped:], set(every[:skipped])
    root = objects[_named(catalog, b"StructTreeRoot")]
    outer_tag = _top(root)
    if b"/IDTree" in root:
        raise RenderError("A table on the pages of a phrase cannot be joined to the book.")
    tags = [one for one in _tags(objects[outer_tag]) if _page_of(objects, one) not in left_out]
    unprinted = {int(found[2]) for page in left_out for found in _PARENTS.finditer(objects[page])}
    parents = [pair for pair in _pairs(root) if pair[0] not in unprinted]
    bookmarks = [one for one in _bookmarks(objects, catalog) if _page_at(objects, one.target) not in left_out]
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
        int(_found(_NEXT_KEY, root)),
        tuple(bookmarks),
        outer_pages,
        outer_tag,
        {number: objects[number] for number in sorted(used)},
    )


def frame_of(pdf: bytes, counts: Sequence[int], bleed_pt: float = 0.0) -> Frame:
    """Return a PDF as a frame.

    Args:
        pdf: the bytes of the typesetter's file.
        counts: how many pages it holds free, in the order of the book.
        bleed_pt: as `compacted` has it.

    Raises:
        RenderError: if the file does not hold so many pages free.
    """
    found = _read(pdf, bleed_pt)
    objects = found.objects
    catalog = objects[int(_found(_ROOT, found.trailer))]
    pages = _kids(objects, _named(catalog, b"Pages"))
    boxes = [_found(_BOX, objects[page]) for page in pages]
    free = [index for index, box in enumerate(boxes) if box != boxes[0]]
    if len(free) != sum(counts):
        raise RenderError(f"The pages hold {len(free)} places free for {sum(counts)} pages of music.")
    places = iter(free)
    held = tuple(tuple(next(places) for _ in range(number)) for number in counts)
    labels = _pairs_in(objects[_named(catalog, b"PageLabels")])
    folios = []
    for run in held:
        start, label = max(pair for pair in labels if pair[0] <= run[0])
        folios.append(int(_found(_LABEL, objects[label])) + run[0] - start)
    return Frame(objects, found.trailer, held, tuple(folios))


def _read(pdf: bytes, bleed_pt: float) -> PdfObjects:
    found = read_objects(pdf)
    if found is None:
        raise RenderError(_STRANGE)
    put_forms(found.objects, bleed_pt)
    return found


def _found(pattern: re.Pattern[bytes], body: bytes) -> bytes:
    found = pattern.search(body)
    if found is None:
        raise RenderError(_STRANGE)
    return found[1]


def _named(body: bytes, key: bytes) -> int:
    return int(_found(re.compile(rb"/" + key + rb" (\d+) 0 R"), body))


def _kids(objects: Mapping[int, bytes], number: int) -> list[int]:
    """Return the pages of a file in their order."""
    found: list[int] = []
    for kid in references(b"[" + _found(_KIDS, objects[number]) + b"]"):
        found += _kids(objects, kid) if objects[kid].startswith(b"<</Type/Pages") else [kid]
    return found


def _list_after(body: bytes, key: bytes) -> tuple[int, int]:
    """Return where the list under a key of an object begins and ends; it may hold dictionaries and lists."""
    start = body.rindex(key + b"[") + len(key) + 1
    depth, place = 1, start
    while depth:
        depth += {91: 1, 93: -1}.get(body[place], 0)
        place += 1
    return start, place - 1


def _tags(document: bytes) -> list[int]:
    """Return what stands under the document in the tree of tags."""
    start, end = _list_after(document, b"/K")
    return references(b"[" + document[start:end] + b"]")


def _top(root: bytes) -> int:
    start, end = _list_after(root, b"/K")
    return references(root[start:end])[0]


def _page_of(objects: Mapping[int, bytes], tag: int) -> int:
    """Return the page on which a tag begins: its own, or that of the first tag in it that has one; else 0."""
    body = objects[tag]
    found = _PAGE_OF.search(body)
    if found is not None:
        return int(found[1])
    if b"/K[" not in body:
        return 0
    return next((page for kid in _tags(body) if (page := _page_of(objects, kid))), 0)


def _page_at(objects: Mapping[int, bytes], target: int) -> int:
    return int(_found(_DESTINATION, objects[target]))


def _pairs_in(body: bytes) -> list[tuple[int, int]]:
    return [(int(key), int(value)) for key, value in _PAIR.findall(body)]


def _pairs(root: bytes) -> list[tuple[int, int]]:
    """Return the tree from keys to tags."""
    return _pairs_in(_found(_TREE, root))


def _bookmarks(objects: Mapping[int, bytes], catalog: bytes) -> list[Bookmark]:
    """Return the bookmarks of a file in their order."""
    if b"/Outlines " not in catalog:
        return []
    return [mark for _, mark in _below(objects, _named(catalog, b"Outlines"), 0)]


def _below(objects: Mapping[int, bytes], number: int, depth: int) -> Iterator[tuple[int, Bookmark]]:
    """Yield the bookmarks below one, each with the number of its object."""
    first = re.search(rb"/First (\d+) 0 R", objects[number])
    place = int(first[1]) if first else 0
    while place:
        body = objects[place]
        title = _found(_TITLE, body)
        yield place, Bookmark(depth, title, int(_found(re.compile(rb"/Dest (\d+) 0 R\Z"), body[:-2])))
        yield from _below(objects, place, depth + 1)
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


# Joining.


def joined(frame: Frame, pieces: Sequence[Piece]) -> bytes:
    """Return the file of a frame with its pieces, in the order in which it holds pages for them.

    Raises:
        RenderError: if a piece has other pages than the frame holds free for it.
    """
    if [len(piece.pages) for piece in pieces] != [len(run) for run in frame.held]:
        raise RenderError("The pages of the music are not as many as the book holds free for them.")
    book = _opened(frame)
    maps = [_put(book, piece) for piece in pieces]
    _set_pages(book, pieces, maps)
    _set_tags(book, pieces, maps)
    _set_targets(book, pieces, maps)
    marks = [(book.page_at(mark.target), 1, mark) for mark in book.bookmarks]
    for run, piece, numbers in zip(frame.held, pieces, maps, strict=True):
        marks += [(run[0], 0, replace(mark, target=numbers[mark.target])) for mark in piece.bookmarks]
    _set_bookmarks(book, [mark for _, _, mark in sorted(marks, key=lambda one: one[:2])])
    trailer = _set_identifier(book, pieces)
    return written(book.objects, trailer)


@dataclass(slots=True)
class _Book:
    """A book that is being joined: its objects, the numbers that are free, and what is kept once.

    `kids` are the numbers of the frame's pages, `markers` the tags in whose place those of the pieces go.
    """

    frame: Frame
    objects: dict[int, bytes]
    catalog: int
    pages: int
    root: int
    document: int
    kids: tuple[int, ...]
    tags: tuple[int, ...]
    markers: Mapping[int, int]
    bookmarks: tuple[Bookmark, ...]
    parents: list[tuple[int, int]]
    next_key: int
    free: Iterator[int]
    once: dict[bytes, int] = field(default_factory=dict)

    def add(self, body: bytes) -> int:
        number = next(self.free)
        self.objects[number] = body
        return number

    def page_at(self, target: int) -> int:
        """Return the place of the frame's page to which a destination of the frame leads."""
        return self.kids.index(_page_at(self.frame.objects, target))


def _opened(frame: Frame) -> _Book:
    """Return the book of a frame, without what stands on the pages that it holds free."""
    objects = dict(frame.objects)
    at = int(_found(_ROOT, frame.trailer))
    catalog = objects[at]
    pages, root_at = _named(catalog, b"Pages"), _named(catalog, b"StructTreeRoot")
    root = objects[root_at]
    document = _top(root)
    kids = _kids(objects, pages)
    placed = {kids[run[0]]: place for place, run in enumerate(frame.held)}
    tags = _tags(objects[document])
    markers = {tag: placed[page] for tag in tags if (page := _page_of(objects, tag)) in placed}
    if len(markers) != len(frame.held):
        raise RenderError("The book does not say in its tags where the music belongs.")
    marks = list(_below(objects, _named(catalog, b"Outlines"), 0)) if b"/Outlines " in catalog else []
    empty = [kids[index] for run in frame.held for index in run]
    keys = {int(found[2]) for page in empty for found in _PARENTS.finditer(objects[page])}
    parents = _pairs(root)
    gone = {*empty, *markers, *(value for key, value in parents if key in keys), *(one for one, _ in marks)}
    gone |= {_named(objects[page], b"Contents") for page in empty}
    for number in gone:
        del objects[number]
    return _Book(
        frame,
        objects,
        at,
        pages,
        root_at,
        document,
        tuple(kids),
        tuple(tags),
        markers,
        tuple(mark for _, mark in marks),
        [pair for pair in parents if pair[0] not in keys],
        int(_found(_NEXT_KEY, root)),
        chain(sorted(gone), count(max(frame.objects) + 1)),
    )


def _put(book: _Book, piece: Piece) -> dict[int, int]:
    """Put a piece's objects into the book; return their new numbers by their old ones."""
    numbers = {piece.outer_pages: book.pages, piece.outer_tag: book.document}
    for number in piece.drawn_with:
        body = piece.objects[number]
        if not is_stream(body):
            body = renumbered(body, numbers)
        found = book.once.get(body)
        if found is None:
            found = book.once[body] = book.add(body)
        numbers[number] = found
    others = [number for number in piece.objects if number not in numbers]
    numbers |= zip(others, book.free, strict=False)
    shift = book.next_key
    for number in others:
        body = renumbered(piece.objects[number], numbers)
        if b"/StructParent" in body:
            body = _PARENTS.sub(lambda found: b"/%s %d" % (found[1], int(found[2]) + shift), body)
        book.objects[numbers[number]] = body
    book.parents += [(key + shift, numbers[tag]) for key, tag in piece.parents]
    book.next_key += piece.next_key
    return numbers


def _refs(numbers: Iterable[int]) -> bytes:
    return b" ".join(b"%d 0 R" % number for number in numbers)


def _set_pages(book: _Book, pieces: Sequence[Piece], maps: Sequence[Mapping[int, int]]) -> None:
    """Put the pages of the pieces where the frame holds them free."""
    every = list(book.kids)
    for run, piece, numbers in zip(book.frame.held, pieces, maps, strict=True):
        for index, page in zip(run, piece.pages, strict=True):
            every[index] = numbers[page]
    book.objects[book.pages] = b"<</Type/Pages/Count %d/Kids[%s]>>" % (len(every), _refs(every))


def _set_tags(book: _Book, pieces: Sequence[Piece], maps: Sequence[Mapping[int, int]]) -> None:
    """Put the tags of the pieces where the held pages have theirs, and write the tree from keys to tags."""
    every: list[int] = []
    for tag in book.tags:
        place = book.markers.get(tag)
        every += [tag] if place is None else [maps[place][inner] for inner in pieces[place].tags]
    body = book.objects[book.document]
    start, end = _list_after(body, b"/K")
    book.objects[book.document] = body[:start] + _refs(every) + body[end:]
    parents = b" ".join(b"%d %d 0 R" % pair for pair in sorted(book.parents))
    root = _TREE.sub(lambda _: b"/ParentTree<</Nums[%s]>>" % parents, book.objects[book.root])
    book.objects[book.root] = _NEXT_KEY.sub(b"/ParentTreeNextKey %d" % book.next_key, root)


def _set_targets(book: _Book, pieces: Sequence[Piece], maps: Sequence[Mapping[int, int]]) -> None:
    """Let what leads to a page held free lead to the head of the piece that stands there."""
    heads = {
        book.kids[run[0]]: renumbered(piece.objects[piece.bookmarks[0].target], numbers)
        for run, piece, numbers in zip(book.frame.held, pieces, maps, strict=True)
    }
    for number, body in book.frame.objects.items():
        found = _DESTINATION.match(body)
        if found is not None and int(found[1]) in heads:
            book.objects[number] = heads[int(found[1])]


def _set_bookmarks(book: _Book, marks: Sequence[Bookmark]) -> None:
    """Write the tree of bookmarks: each lies in the last one before it that is less deep."""
    if not marks:
        return
    numbers = [next(book.free) for _ in marks]
    top = next(book.free)
    parents: list[int] = []
    below: dict[int, list[int]] = {top: []}
    open_above = [(-1, top)]
    for number, mark in zip(numbers, marks, strict=True):
        while open_above[-1][0] >= mark.depth:
            open_above.pop()
        parents.append(open_above[-1][1])
        below[parents[-1]].append(number)
        below[number] = []
        open_above.append((mark.depth, number))
    for number, parent, mark in zip(numbers, parents, marks, strict=True):
        row, own = below[parent], below[number]
        place = row.index(number) if row[-1] != number else len(row) - 1
        body = b"<</Parent %d 0 R" % parent
        if place + 1 < len(row):
            body += b"/Next %d 0 R" % row[place + 1]
        if place:
            body += b"/Prev %d 0 R" % row[place - 1]
        if own:
            body += b"/First %d 0 R/Last %d 0 R/Count -%d" % (own[0], own[-1], len(own))
        book.objects[number] = body + b"/Title%s/Dest %d 0 R>>" % (mark.title, mark.target)
    row = below[top]
    book.objects[top] = b"<</Type/Outlines/First %d 0 R/Last %d 0 R/Count %d>>" % (row[0], row[-1], len(row))
    catalog = re.sub(rb"/Outlines \d+ 0 R", b"", book.objects[book.catalog])
    book.objects[book.catalog] = catalog[:-2] + b"/Outlines %d 0 R>>" % top


def _set_identifier(book: _Book, pieces: Sequence[Piece]) -> bytes:
    """Give the file an identifier that hangs on all it holds, and return its trailer (14.4)."""
    trailer = book.frame.trailer
    found = re.search(rb"/ID\[\(.*?\)\((.*?)\)\]", trailer, re.DOTALL)
    if found is None:
        raise RenderError(_STRANGE)
    whole = hashlib.sha256(found[1])
    for piece in pieces:
        for body in piece.objects.values():
            whole.update(b"%d:" % len(body))
            whole.update(body)
    own = base64.b64encode(whole.digest()[:16])
    metadata = _named(book.objects[book.catalog], b"Metadata")
    book.objects[metadata] = book.objects[metadata].replace(found[1], own)
    return trailer.replace(found[1], own)
