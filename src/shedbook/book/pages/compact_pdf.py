"""The typesetter's PDF written again, smaller: glyphs that come again are forms, plain objects packed. Pure.

The typesetter writes every score as outlines, so the same note head stands some thousand times in a book.
Here each outline that is long enough becomes one form (a form XObject, ISO 32000-1, 8.10), drawn where it
stood: the page is the same to the pixel, and its tags are untouched.

This is done on the bytes, because it is done at every layout: a library of objects takes several seconds a
book and packs none. What does not look like a file of the typesetter's is returned as it is.
"""

from __future__ import annotations

import re
import zlib
from collections.abc import Mapping
from dataclasses import dataclass, field

from shedbook.book.pages.pdf_objects import LEVEL, read_objects, stream, written

_CONTENTS = re.compile(rb"/Contents (\d+) 0 R")
_RESOURCES = re.compile(rb"/Resources (?:(\d+) 0 R|<<)")
_LENGTH = re.compile(rb"/Length \d+")
_LEAST = 60
"""The least length of an outline that becomes a form, in bytes: a shorter one is no longer than the call."""
_BOX = b"[-99999 -99999 99999 99999]"
"""The box of a form, beyond any outline: a dot or a slur has the places of its whole score."""


@dataclass(slots=True)
class _Forms:
    """The outlines that have become forms: their numbers by what they draw."""

    first: int
    numbers: dict[bytes, int] = field(default_factory=dict)

    def number(self, outline: bytes) -> int:
        found = self.numbers.get(outline)
        if found is None:
            found = self.numbers[outline] = self.first + len(self.numbers)
        return found


def compacted(pdf: bytes, bleed_pt: float = 0.0) -> bytes:
    """Return a PDF of the typesetter's written smaller; one that it does not know is returned as it is.

    Args:
        pdf: the bytes of the file.
        bleed_pt: how far a page's picture goes beyond its trim box, which then gets a bleed box, in points.
    """
    found = read_objects(pdf)
    if found is None:
        return pdf
    put_forms(found.objects, bleed_pt)
    return written(found.objects, found.trailer)


def put_forms(objects: dict[int, bytes], bleed_pt: float = 0.0) -> None:
    """Put forms in the place of outlines, on all pages among the objects of a file.

    Args:
        objects: the objects by their numbers, without a gap; those of the forms are added.
        bleed_pt: as above.
    """
    forms = _Forms(max(objects) + 1)
    for number, body in list(objects.items()):
        if body.startswith(b"<</Type/Page/"):
            contents = _CONTENTS.search(body)
            if contents is not None:
                used = _with_forms(objects, int(contents[1]), forms)
                body = _with_resources(objects, body, used)
            objects[number] = _with_bleed_box(body, bleed_pt) if bleed_pt else body
    for outline, number in forms.numbers.items():
        objects[number] = _form(outline)


def _with_forms(objects: dict[int, bytes], number: int, forms: _Forms) -> dict[bytes, int]:
    """Put forms into the content of a page and return them by the names that they have there."""
    head, _, rest = objects[number].partition(b"\nstream\n")
    data = rest[: rest.rindex(b"\nendstream")]
    content = zlib.decompress(data) if b"/FlateDecode" in head else data
    used: dict[bytes, int] = {}
    pieces = content.split(b"\nQ")
    for place, piece in enumerate(pieces):
        if not piece.endswith(b"\nf"):
            continue
        start = piece.rfind(b" scn ") + 5
        if start < 5 or len(piece) - start < _LEAST or piece.find(b" cm", 0, start) < 0:
            continue
        form = forms.number(piece[start:])
        name = b"g%d" % form
        used[name] = form
        pieces[place] = piece[: start - 1] + b"/" + name + b" Do"
    packed = zlib.compress(b"\nQ".join(pieces), LEVEL)
    plain = head if b"/FlateDecode" in head else head.replace(b"<<", b"<</Filter/FlateDecode", 1)
    objects[number] = stream(_LENGTH.sub(b"/Length %d" % len(packed), plain), packed)
    return used


def _with_resources(objects: dict[int, bytes], page: bytes, used: Mapping[bytes, int]) -> bytes:
    """Return a page whose resources name its forms; resources may be an object of their own."""
    found = _RESOURCES.search(page)
    if not used or found is None:
        return page
    names = b"".join(b"/%s %d 0 R" % item for item in sorted(used.items()))
    if found[1] is None:
        return _named(page, found.end(), names)
    number = int(found[1])
    objects[number] = _named(objects[number], objects[number].index(b"<<") + 2, names)
    return page


def _named(body: bytes, start: int, names: bytes) -> bytes:
    """Return a dictionary with names added to its XObjects; `start` is where its own entries begin."""
    there = body.find(b"/XObject<<", start)
    if there >= 0:
        there += len(b"/XObject<<")
        return body[:there] + names + body[there:]
    return body[:start] + b"/XObject<<" + names + b">>" + body[start:]


def _with_bleed_box(page: bytes, bleed_pt: float) -> bytes:
    """Return a page with a bleed box about its trim box (ISO 32000-1, 14.11.2)."""
    trim = re.search(rb"/TrimBox\[([\d. -]+)\]", page)
    if trim is None:
        return page
    left, low, right, high = (float(number) for number in trim[1].split())
    box = (left - bleed_pt, low - bleed_pt, right + bleed_pt, high + bleed_pt)
    said = b" ".join(b"%.3f" % max(0.0, edge) for edge in box)
    return page[: trim.end()] + b"/BleedBox[" + said + b"]" + page[trim.end() :]


def _form(outline: bytes) -> bytes:
    packed = zlib.compress(outline, LEVEL)
    head = b"<</Type/XObject/Subtype/Form/BBox%s/Filter/FlateDecode/Length %d>>" % (_BOX, len(packed))
    return stream(head, packed)
