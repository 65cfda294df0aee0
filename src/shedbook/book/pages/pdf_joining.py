"""A frame and its pieces put together: pages, tags (ISO 32000-1, 14.7), bookmarks (12.3.3). Pure.

What the pages draw with, fonts and forms, is kept once for the whole book.
"""

from __future__ import annotations

import base64
import hashlib
import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from itertools import chain, count

from shedbook.book.pages.pdf_objects import is_stream, renumbered, written
from shedbook.book.pages.pdf_pieces import (
    DESTINATION,
    NEXT_KEY,
    PARENTS,
    ROOT,
    STRANGE,
    TREE,
    Bookmark,
    Frame,
    Piece,
    bookmarks_below,
    first_group,
    kids_of,
    list_after,
    named_object,
    page_at,
    page_of,
    parents_in,
    tags_in,
    top_tag,
)
from shedbook.errors import RenderError


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
        return self.kids.index(page_at(self.frame.objects, target))


def _opened(frame: Frame) -> _Book:
    """Return the book of a frame, without what stands on the pages that it holds free."""
    objects = dict(frame.objects)
    at = int(first_group(ROOT, frame.trailer))
    catalog = objects[at]
    pages, root_at = named_object(catalog, b"Pages"), named_object(catalog, b"StructTreeRoot")
    root = objects[root_at]
    document = top_tag(root)
    kids = kids_of(objects, pages)
    placed = {kids[run[0]]: place for place, run in enumerate(frame.held)}
    tags = tags_in(objects[document])
    markers = {tag: placed[page] for tag in tags if (page := page_of(objects, tag)) in placed}
    if len(markers) != len(frame.held):
        raise RenderError("The book does not say in its tags where the music belongs.")
    marks = (
        list(bookmarks_below(objects, named_object(catalog, b"Outlines"), 0))
        if b"/Outlines " in catalog
        else []
    )
    empty = [kids[index] for run in frame.held for index in run]
    keys = {int(found[2]) for page in empty for found in PARENTS.finditer(objects[page])}
    parents = parents_in(root)
    gone = {*empty, *markers, *(value for key, value in parents if key in keys), *(one for one, _ in marks)}
    gone |= {named_object(objects[page], b"Contents") for page in empty}
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
        int(first_group(NEXT_KEY, root)),
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
            body = PARENTS.sub(lambda found: b"/%s %d" % (found[1], int(found[2]) + shift), body)
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
    start, end = list_after(body, b"/K")
    book.objects[book.document] = body[:start] + _refs(every) + body[end:]
    parents = b" ".join(b"%d %d 0 R" % pair for pair in sorted(book.parents))
    root = TREE.sub(lambda _: b"/ParentTree<</Nums[%s]>>" % parents, book.objects[book.root])
    book.objects[book.root] = NEXT_KEY.sub(b"/ParentTreeNextKey %d" % book.next_key, root)


def _set_targets(book: _Book, pieces: Sequence[Piece], maps: Sequence[Mapping[int, int]]) -> None:
    """Let what leads to a page held free lead to the head of the piece that stands there."""
    heads = {
        book.kids[run[0]]: renumbered(piece.objects[piece.bookmarks[0].target], numbers)
        for run, piece, numbers in zip(book.frame.held, pieces, maps, strict=True)
    }
    for number, body in book.frame.objects.items():
        found = DESTINATION.match(body)
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
        raise RenderError(STRANGE)
    whole = hashlib.sha256(found[1])
    for piece in pieces:
        for body in piece.objects.values():
            whole.update(b"%d:" % len(body))
            whole.update(body)
    own = base64.b64encode(whole.digest()[:16])
    metadata = named_object(book.objects[book.catalog], b"Metadata")
    book.objects[metadata] = book.objects[metadata].replace(found[1], own)
    return trailer.replace(found[1], own)
